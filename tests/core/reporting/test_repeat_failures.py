from datetime import date

from reported_claims import EVER, counted, paid

from claimpack.core.auditing.report.traces import KeptTraces
from claimpack.core.reporting.repeat_failures import Repeats
from claimpack.core.reporting.reported import Days

JANUARY, FEBRUARY = date(2026, 1, 2), date(2026, 2, 1)


def models(*claims, days=EVER):
    return [failure[:6] for failure in counted(Repeats(days, KeptTraces()), claims).models]


def test_a_component_that_failed_on_two_units_of_a_model_is_a_repeat():
    assert models(paid("1", unit="A"), paid("2", unit="B")) == [("Halden", "CS-70", "short block", 2, 2, 0)]


def test_a_component_that_failed_on_one_unit_is_none():
    assert models(paid("1", unit="A"), paid("2", unit="B", component="clutch")) == []


def test_the_same_component_of_another_model_is_another_failure():
    assert models(paid("1", unit="A"), paid("2", unit="B", model="CS-90")) == []


def test_case_and_hyphens_do_not_make_another_component():
    assert len(models(paid("1", unit="A"), paid("2", unit="B", component="Short-Block"))) == 1


def test_a_unit_that_came_back_is_counted_once_and_said_to_have_failed_again():
    claims = (paid("1", unit="A"), paid("2", unit="a", presented=FEBRUARY), paid("3", unit="B"))
    assert models(*claims) == [("Halden", "CS-70", "short block", 2, 3, 1)]


def test_the_failure_on_most_units_stands_first():
    claims = [paid(f"{n}", unit=f"{n}") for n in range(2)] + [
        paid(f"9{n}", unit=f"9{n}", component="clutch") for n in range(3)
    ]
    assert [failure[2] for failure in models(*claims)] == ["clutch", "short block"]


def test_units_without_a_serial_number_are_different_units():
    assert models(paid("1", unit=""), paid("2", unit=""))[0][3] == 2


def test_the_same_unit_twice_names_its_claims_and_the_days_between():
    unit = counted(Repeats(EVER, KeptTraces()), [paid("2", presented=FEBRUARY), paid("1", presented=JANUARY)]).units[0]
    assert (unit.unit, unit.claims, unit.days, unit.last) == ("HC70-1", ("1", "2"), 30, FEBRUARY)


def test_the_same_serial_of_another_maker_is_another_unit():
    assert counted(Repeats(EVER, KeptTraces()), [paid("1"), paid("2", maker="Tessaly")]).units == ()


def test_a_withdrawn_claim_is_no_failure():
    assert models(paid("1", unit="A"), paid("2", unit="B", state="withdrawn")) == []


def test_a_claim_whose_component_is_not_known_is_no_repeat():
    assert models(paid("1", unit="A", component=""), paid("2", unit="B", component="")) == []


def test_units_presented_before_the_days_do_not_count():
    claims = (paid("1", unit="A", presented=JANUARY), paid("2", unit="B", presented=FEBRUARY))
    assert models(*claims, days=Days(FEBRUARY, FEBRUARY)) == []
