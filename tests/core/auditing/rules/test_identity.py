import pytest
from audits import REFUSED, WITHDRAWN, an_audited, found_by


def with_engine(number, unit, engine):
    serials = [{"role": "unit", "value": unit}, {"role": "engine", "value": engine}]
    return an_audited(number, unit__serials=serials)


@pytest.mark.parametrize(("other", "count"), [("HC7O-118-2O417", 1), ("HC70 118 20417", 0), ("HC70-118-20418", 0)])
def test_numbers_that_differ_in_marks_taken_for_one_another_are_found(other, count):
    claims = [an_audited("26-0001", "HC70-118-20417"), an_audited("26-0002", other)]
    assert len(found_by("serials-look-alike", *claims)) == count


def test_one_unit_number_on_two_models_is_found():
    claims = [an_audited("26-0001"), an_audited("26-0002", unit__model="CS-90")]
    found = found_by("unit-of-two-models", an_audited("26-0001", "HC70-118"), an_audited("26-0002", "HC70-118"))
    assert not found
    assert [each.claims for each in found_by("unit-of-two-models", *claims)] == [("26-0001", "26-0002")]


@pytest.mark.parametrize(("unit", "count"), [("HC70-1", 0), ("HC70-2", 1)], ids=["one unit", "two units"])
def test_one_engine_is_in_one_unit(unit, count):
    claims = [with_engine("26-0001", "HC70-1", "E70-55102"), with_engine("26-0002", unit, "E70-55102")]
    assert [each.weight for each in found_by("number-in-two-units", *claims)] == ["serious"] * count


@pytest.mark.parametrize(("standing", "count"), [(None, 1), (REFUSED, 0), (WITHDRAWN, 0)])
def test_one_approval_is_the_ground_of_one_claim(standing, count):
    one, other = (an_audited(number, number, approval={"number": "A-7"}) for number in ("26-0001", "26-0002"))
    other = other._replace(standing=standing) if standing else other
    assert len(found_by("approval-twice", one, other)) == count


@pytest.mark.parametrize(
    ("hours", "count"),
    [("99.9", 1), ("100", 0), ("340", 0), ("364.1", 1)],
    ids=["less", "same", "ten days", "too many"],
)
def test_a_meter_runs_forwards_and_no_faster_than_the_clock(hours, count):
    dates = {"purchased": "2025-03-14", "presented": "2026-02-15"}
    claims = [an_audited("26-0001"), an_audited("26-0002", unit__hours=hours, dates=dates)]
    assert len(found_by("meter-backwards", *claims)) == count


def test_what_was_refused_and_is_asked_for_again_is_found():
    refused = an_audited("26-0001")._replace(standing=REFUSED.model_copy(update={"answered": REFUSED.filed}))
    assert [each.claims for each in found_by("refused-filed-anew", refused, an_audited("26-0002"))] == [
        ("26-0001", "26-0002")
    ]


def test_another_component_of_a_unit_may_fail_after_a_refusal():
    refused = an_audited("26-0001")._replace(standing=REFUSED.model_copy(update={"answered": REFUSED.filed}))
    assert not found_by("refused-filed-anew", refused, an_audited("26-0002", failure__component="clutch"))
