import pytest
from builders import a_claim, a_plan
from lacked import lacking

from claimpack.core.judging.conditions.amounts_asked import paid_for_the_unit
from claimpack.core.judging.conditions.missing_items import ClaimFacts
from claimpack.core.pricing.pricing import price

FREIGHT = [{"kind": "freight", "cap": "50.00"}, {"kind": "*", "cap": "10.00"}]


def lacks(terms, extra):
    """What a claim with one extra lacks, under a plan that says how extras are paid."""
    return lacking(a_plan(pays__extras=terms), extras=[{"what": "an extra", **extra}])


@pytest.mark.parametrize(
    ("terms", "extra", "lacking"),
    [
        (FREIGHT, {"amount": "5"}, {"extra-kind": True}),
        (FREIGHT, {"amount": "5", "kind": "freight"}, {}),
        (FREIGHT, {"amount": "5", "payer": "owner"}, {}),
        (FREIGHT[1:], {"amount": "5"}, {}),
    ],
    ids=["no kind", "a kind", "the owner pays", "every kind is paid alike"],
)
def test_the_kind_of_an_extra_is_asked_for_where_kinds_are_paid_otherwise(terms, extra, lacking):
    assert lacks(terms, extra) == lacking


BY_THE_MILE, BY_THE_VISIT = ([{"kind": "travel", "per": "0.65", "of": of}] for of in ("mile", "visit"))


@pytest.mark.parametrize(
    ("terms", "visit", "lacking"),
    [
        (BY_THE_MILE, {}, {"extra-distance": True}),
        (BY_THE_MILE, {"distance": "12"}, {}),
        (BY_THE_VISIT, {}, {}),
        ([{"kind": "travel", "cap": "50.00"}], {}, {"extra-rate": True}),
        ([{"kind": "travel", "cap": "50.00"}], {"amount": "12.00"}, {}),
    ],
    ids=["by the mile", "it is given", "by the visit", "by no rate", "the amount is given"],
)
def test_a_visit_is_asked_for_what_it_is_paid_by(terms, visit, lacking):
    assert lacks(terms, {"kind": "travel", **visit}) == lacking


@pytest.mark.parametrize(("number", "lacking"), [("", {"extra-approval": True}), ("A-7", {})], ids=["none", "given"])
def test_an_extra_the_maker_wants_to_approve_is_asked_for_its_number(number, lacking):
    extra = {"kind": "freight", "amount": "5", "approval": number}
    assert lacks([{"kind": "freight", "approval": True}], extra) == lacking


CAPPED = a_plan(pays__unit_cap={"amount": "500.00", "per": "life"})


def test_without_an_earlier_repair_it_is_worth_a_look_whether_there_was_one():
    assert lacking(CAPPED) == {"paid-before-any": False}


def test_what_was_paid_for_an_earlier_repair_is_asked_for_by_its_place_on_the_claim():
    earlier = [{"component": "coil", "repaired": "2025-06-01"}, {"component": "ring", "repaired": "2025-09-01"}]
    claim = a_claim(earlier=[{**earlier[0], "paid": "40.00"}, earlier[1]])
    found = paid_for_the_unit(ClaimFacts(claim, CAPPED, price(claim, CAPPED).amounts, claim.dates.presented, {}))
    assert [(item.what.key, item.why.facts["place"]) for item in found] == [("missing.paid-before", "2")]
