import datetime as dt

import pytest
from audits import FILED, FILED_ON, REFUSED, WITHDRAWN, an_audited, found_by

from claimpack.core.auditing.audited import Edit

LOW = {"what": "compression", "unit": "psi", "low": "110", "high": "150"}
PARTS = [{"number": "P-1", "name": "short block"}]


@pytest.mark.parametrize(("value", "count"), [("109", 0), ("110", 1), ("150", 1), ("151", 0), ("seized", 0)])
def test_something_measured_out_of_limits_is_the_reason_of_a_repair(value, count):
    assert len(found_by("measured-in-order", an_audited(findings=[LOW | {"value": value}], parts=PARTS))) == count


def test_one_measurement_out_of_limits_is_enough():
    findings = [LOW | {"value": "130"}, LOW | {"what": "gap", "value": "160"}]
    assert not found_by("measured-in-order", an_audited(findings=findings, parts=PARTS))


@pytest.mark.parametrize(
    "other", [LOW | {"value": "over range"}, {"what": "spark", "value": "none"}], ids=["no number", "no limits"]
)
def test_a_reading_that_cannot_be_compared_may_be_the_reason(other):
    assert not found_by("measured-in-order", an_audited(findings=[LOW | {"value": "130"}, other], parts=PARTS))


@pytest.mark.parametrize(("value", "count"), [("42", 0), ("155", 1)], ids=["low as said", "high"])
def test_a_reading_goes_the_way_the_cause_says(value, count):
    claim = an_audited(findings=[LOW | {"value": value}], failure__cause="Low compression, rings broken.")
    assert len(found_by("reading-against-cause", claim)) == count


@pytest.mark.parametrize(
    ("cause", "count"),
    [
        ("Ran without oil.", 1),
        ("Water in the fuel, seized.", 1),
        ("Worn out.", 1),
        ("No sign of misuse.", 0),
        ("Never dropped, flaw in the casting.", 0),
        ("Pump worn out of a bad batch.", 0),
    ],
)
def test_a_cause_that_is_no_defect_of_the_makers_is_found(cause, count):
    assert len(found_by("cause-against-defect", an_audited(failure__cause=cause))) == count


def test_a_cause_is_told_beside_the_defect_that_is_claimed():
    (found,) = found_by("cause-against-defect", an_audited(failure__cause="Worn out.", failure__defect="material"))
    assert (found.says[0].facts["said"], found.says[0].facts["defect"]) == ("'Worn out'", "material")


def test_a_long_cause_is_told_up_to_a_word():
    cause = "Worn out. " + "Bearing " * 20
    (found,) = found_by("cause-against-defect", an_audited(failure__cause=cause))
    assert found.evidence["cause"].endswith("Bearing …")


def test_what_was_not_claimed_as_a_defect_is_no_contradiction():
    assert not found_by("cause-against-defect", an_audited(failure__cause="Worn out.", failure__defect="wear"))


@pytest.mark.parametrize(
    ("number", "name", "count"),
    [("70-1180", "assembly", 0), ("70-9", "block, short", 0), ("70-9", "fuel tank", 1)],
    ids=["its number", "its name", "another"],
)
def test_what_was_fitted_is_what_failed(number, name, count):
    claim = an_audited(
        failure__part={"number": "70-1180", "name": "short block"}, parts=[{"number": number, "name": name}]
    )
    assert len(found_by("another-part-replaced", claim)) == count


@pytest.mark.parametrize(
    "changes", [{"payer": "owner"}, {"standing": REFUSED}], ids=["the owner pays", "the maker refused"]
)
def test_what_the_maker_is_not_asked_for_is_nobodys_exchange(changes):
    fitted = {"number": "70-9", "name": "fuel tank", "payer": changes.get("payer", "maker")}
    claim = an_audited(failure__part={"number": "70-1180", "name": "short block"}, parts=[fitted])
    assert not found_by("another-part-replaced", claim._replace(standing=changes.get("standing", FILED)))


def test_what_failed_may_have_been_fitted_for_somebody_elses_money():
    parts = [{"number": "70-9", "name": "fuel tank"}, {"number": "70-1180", "name": "block", "payer": "owner"}]
    claim = an_audited(failure__part={"number": "70-1180", "name": "short block"}, parts=parts)
    assert not found_by("another-part-replaced", claim)


@pytest.mark.parametrize(("day", "count"), [("2025-03-13", 1), ("2025-03-14", 0)], ids=["before", "that day"])
def test_a_unit_is_registered_once_it_is_sold(day, count):
    assert len(found_by("registered-before-sale", an_audited(dates__registered=day))) == count


@pytest.mark.parametrize(
    ("days", "key", "before", "count"),
    [
        (0, "dates.purchased", "2024-01-02", 1),
        (3, "unit.use", "rental", 1),
        (4, "unit.use", "rental", 0),
        (0, "dates.purchased", "", 0),
        (0, "failure.complaint", "Wont start", 0),
    ],
    ids=["that day", "three days", "four", "filled in", "no cover in it"],
)
def test_what_decides_cover_is_not_changed_just_before_filing(days, key, before, count):
    edit = Edit(FILED_ON - dt.timedelta(days=days), key, before, "another")
    assert len(found_by("changed-before-filing", an_audited()._replace(edits=(edit,)))) == count


@pytest.mark.parametrize(
    ("days", "when"),
    [(0, "the day it was filed"), (1, "1 day before it was filed"), (2, "2 days before it was filed")],
)
def test_a_change_is_told_by_how_long_before_filing_it_was(days, when):
    edit = Edit(FILED_ON - dt.timedelta(days=days), "unit.use", "rental", "")
    (found,) = found_by("changed-before-filing", an_audited()._replace(edits=(edit,)))
    assert (found.says[0].facts["when"], found.says[0].facts["after"]) == (when, "nothing")


def test_what_was_changed_before_a_filing_that_was_withdrawn_is_not_asked_about():
    edit = Edit(FILED_ON, "unit.use", "rental", "professional")
    assert not found_by("changed-before-filing", an_audited()._replace(edits=(edit,), standing=WITHDRAWN))


TWO_FINDINGS = [LOW | {"value": "42"}, LOW | {"what": "gap", "value": "0.417"}]


def saying(count, value, **changes):
    says = {"failure__complaint": "Stops when warm.", "failure__cause": "Coil open when warm, again."}
    says |= {"findings": [LOW | {"value": value}], **changes}
    for place in range(count):
        yield an_audited(f"26-{place}", f"HC-{place}", **says)


@pytest.mark.parametrize(("count", "value", "found"), [(3, "14.2", 1), (2, "14.2", 0), (4, "7", 0), (5, "7", 1)])
def test_the_same_words_and_figures_come_again_the_seldomer_the_more_was_measured(count, value, found):
    assert len(found_by("same-words-and-figures", *saying(count, value))) == found


def test_fewer_than_eight_words_are_everybodys():
    assert not found_by("same-words-and-figures", *saying(3, "14.2", failure__cause="Coil open when warm."))


def test_words_without_a_figure_are_habits_of_writing():
    assert not found_by("same-words-and-figures", *saying(5, "seized"))


@pytest.mark.parametrize("rule", ["same-words-and-figures", "same-figures"])
def test_what_was_said_in_claims_that_were_withdrawn_is_not_compared(rule):
    claims = [*saying(4, "42", findings=TWO_FINDINGS)]
    assert found_by(rule, *claims)
    assert not found_by(rule, *(each._replace(standing=WITHDRAWN) for each in claims))


def test_one_measurement_comes_again_by_itself():
    assert not found_by("same-figures", *saying(4, "42"))


@pytest.mark.parametrize(("count", "found"), [(3, 0), (4, 1)])
def test_two_measurements_the_same_in_four_claims_are_found(count, found):
    assert len(found_by("same-figures", *saying(count, "42", findings=TWO_FINDINGS))) == found


def test_the_same_figures_are_told_in_ordinary_digits():
    findings = [{"what": "compression", "value": "1200"}, {"what": "gap", "value": "0.5"}]
    claims = [an_audited(str(n), str(n), findings=findings) for n in range(4)]
    assert found_by("same-figures", *claims)[0].evidence["says"] == "compression 1200, gap 0.5"
