import pytest
from audits import DRAFT, REFUSED, WITHDRAWN, an_audited, found_by


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
    [("99.9", 1), ("100", 0), ("364", 0), ("364.1", 1)],
    ids=["less", "same", "eleven whole days", "too many"],
)
def test_a_meter_runs_forwards_and_no_faster_than_the_clock(hours, count):
    dates = {"purchased": "2025-03-14", "presented": "2026-02-15"}
    claims = [an_audited("26-0001"), an_audited("26-0002", unit__hours=hours, dates=dates)]
    assert len(found_by("meter-backwards", *claims)) == count


def refused_claim(number, **changes):
    refused = REFUSED.model_copy(update={"answered": REFUSED.filed})
    return an_audited(number, **changes)._replace(standing=refused)


def test_what_was_refused_and_is_asked_for_again_is_found():
    refused = refused_claim("26-0001")
    assert [each.claims for each in found_by("refused-filed-anew", refused, an_audited("26-0002"))] == [
        ("26-0001", "26-0002")
    ]


def test_another_component_of_a_unit_may_fail_after_a_refusal():
    again = an_audited("26-0002", failure__component="clutch")
    assert not found_by("refused-filed-anew", refused_claim("26-0001"), again)


def test_what_was_asked_for_before_a_refusal_is_not_asked_for_again():
    assert not found_by("refused-filed-anew", an_audited("26-0001"), refused_claim("26-0002"))


def test_of_two_refusals_each_is_told_with_the_claim_after_it():
    refusals = refused_claim("26-0001"), refused_claim("26-0002")
    found = found_by("refused-filed-anew", *refusals, an_audited("26-0003"))
    assert [each.claims for each in found] == [("26-0001", "26-0002"), ("26-0002", "26-0003")]


@pytest.mark.parametrize(
    "again",
    [
        an_audited("26-0002")._replace(standing=DRAFT),
        an_audited("26-0002", case="goodwill"),
        an_audited("26-0002", unit__serials=[]),
    ],
    ids=["not filed yet", "as a favour", "no number"],
)
def test_what_is_not_known_to_be_filed_anew_is_not_told(again):
    refused = refused_claim("26-0001", unit__serials=[s.model_dump() for s in again.claim.unit.serials])
    assert not found_by("refused-filed-anew", refused, again)


def test_numbers_of_three_marks_are_written_for_want_of_one():
    found = [
        len(
            found_by(
                "unit-of-two-models", an_audited("26-0001", number), an_audited("26-0002", number, unit__model="B")
            )
        )
        for number in ("A12", "A123")
    ]
    assert found == [0, 1]


def test_an_engine_number_of_three_marks_is_none():
    found = [
        len(found_by("number-in-two-units", with_engine("1", "HC70-1", engine), with_engine("2", "HC70-2", engine)))
        for engine in ("E12", "E123")
    ]
    assert found == [0, 1]


@pytest.mark.parametrize("rule", ["unit-of-two-models", "number-in-two-units", "meter-backwards"])
def test_a_claim_that_was_withdrawn_tells_nothing_of_a_unit(rule):
    one, other = with_engine("26-0001", "HC70-1", "E70-55102"), with_engine("26-0002", "HC70-2", "E70-55102")
    model = an_audited("26-0003", unit__model="CS-90", unit__hours="90", dates__presented="2026-02-15")
    assert found_by(rule, one, other, model)
    assert not found_by(rule, one, *(each._replace(standing=WITHDRAWN) for each in (other, model)))


def test_meters_of_units_without_a_number_are_not_compared():
    claims = [
        an_audited(f"26-000{day}", unit__serials=[], unit__hours=hours, dates__presented=f"2026-02-1{day}")
        for day, hours in ((1, "100"), (2, "90"))
    ]
    assert not found_by("meter-backwards", *claims)


@pytest.mark.parametrize(("count", "keys"), [(2, []), (3, ["claims"])])
def test_claims_are_listed_where_a_number_stands_in_more_than_two(count, keys):
    claims = [an_audited(f"26-000{place}", unit__model=f"CS-{place}") for place in range(count)]
    (found,) = found_by("unit-of-two-models", *claims)
    assert [said.key for said in found.says[1:]] == keys
