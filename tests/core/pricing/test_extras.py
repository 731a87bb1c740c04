"""Freight up to 50.00 a claim, outside work up to 200.00 and approved before, everything else up to 20.00."""

from __future__ import annotations

import pytest
from booklets import notes, told, totals, under
from builders import a_claim, a_plan

from claimpack.core.pricing.extras import capped_by_kind, capped_together, extra_lines
from claimpack.core.pricing.pricing import price

BOOKLET = """
[pays]
extras = [
    {kind = "freight", cap = "50.00"},
    {kind = "sublet", cap = "200.00", approval = true},
    {kind = "*", cap = "20.00"},
]
"""


def extra(kind: str, amount: str, more: str = "") -> str:
    return f'{{what = "{kind}", kind = "{kind}", amount = "{amount}"{more}}}'


def claim(*extras: str) -> str:
    return f"extras = [{', '.join(extras)}]"


def asked(found) -> list[str]:
    return [item.what.key for item in found.missing]


@pytest.mark.parametrize(
    ("amount", "maker", "shop"), [("49.99", "49.99", "0.00"), ("50.00", "50.00", "0.00"), ("50.01", "50.00", "0.01")]
)
def test_a_kind_is_paid_up_to_its_cap_and_the_shop_bears_the_rest(amount, maker, shop):
    assert totals(under(BOOKLET, claim(extra("freight", amount))), "extras", "shop") == (maker, shop)


def test_the_cap_is_for_all_of_the_kind_together():
    # 30.00 + 30.00 = 60.00, of which 50.00; outside work has its own cap: 180.00
    found = under(BOOKLET, claim(extra("freight", "30.00"), extra("sublet", "180.00"), extra("freight", "30.00")))
    assert totals(found, "extras", "shop") == ("230.00", "10.00")


def test_kinds_that_are_not_named_share_the_cap_for_the_rest():
    # 15.00 + 15.00 = 30.00, of which 20.00
    found = under(BOOKLET, claim(extra("disposal", "15.00"), extra("other", "15.00")))
    assert told(found) == [
        ("disposal", "15.00", "0.00", "maker"),
        ("other", "5.00", "0.00", "maker"),
        ("other", "10.00", "0.00", "shop"),
    ]


def test_what_is_above_a_cap_names_the_cap():
    found = under(BOOKLET, claim(extra("sublet", "230.00")))
    assert notes(found, 2) == ["The plan pays outside work up to 200.00 a claim; this part of sublet is above it."]


def test_a_kind_is_uncapped_where_nothing_is_said_of_it():
    plan = '[pays]\nextras = [ {kind = "freight", cap = "50.00"} ]'
    assert totals(under(plan, claim(extra("disposal", "75.00"))), "extras") == ("75.00",)


def test_the_cap_for_all_extras_comes_after_those_by_kind():
    # freight 60.00 -> 50.00, disposal 15.00: 65.00, of which 55.00; the shop bears 10.00 + 10.00
    plan = BOOKLET + 'extras_cap = "55.00"'
    found = under(plan, claim(extra("freight", "60.00"), extra("disposal", "15.00")))
    assert totals(found, "extras", "shop") == ("55.00", "20.00")


def test_an_approval_is_asked_for_where_the_plan_wants_one():
    found = under(BOOKLET, claim(extra("sublet", "180.00")))
    assert (found.approval_wanted.what.key, found.complete) == ("missing.extra-approval", False)


def test_an_approval_that_is_given_is_not_asked_for():
    assert "missing.extra-approval" not in asked(under(BOOKLET, claim(extra("sublet", "180.00", ', approval = "S-9"'))))


def test_a_kind_is_asked_for_where_the_plan_goes_by_kind():
    assert "missing.extra-kind" in asked(under(BOOKLET, 'extras = [ {what = "box", amount = "9.00"} ]'))


@pytest.mark.parametrize("pays", ['extras_cap = "50.00"', 'extras = [ {kind = "*", cap = "50.00"} ]'])
def test_no_kind_is_asked_for_where_one_cap_is_for_all(pays):
    found = under(f"[pays]\n{pays}", 'extras = [ {what = "box", amount = "9.00"} ]')
    assert "missing.extra-kind" not in asked(found)


def priced(terms, **line):
    """What an extra is priced at under terms for travel: amount and payer of each line."""
    claim = a_claim(extras=[{"what": "call", "kind": "travel", **line}])
    plan = a_plan(pays__extras=[{"kind": "travel", **terms}])
    return [(str(one.amount), one.payer) for one in extra_lines(claim.extras[0], plan, claim.extras[0].payer)]


MILES = {"per": "0.65", "most_distance": "120"}


@pytest.mark.parametrize(
    ("terms", "line", "lines"),
    [
        (MILES, {"distance": "119"}, [("77.35", "maker")]),
        (MILES, {"distance": "120"}, [("78.00", "maker")]),
        (MILES, {"distance": "121"}, [("78.00", "maker"), ("0.65", "shop")]),
        (MILES, {"distance": "121", "payer": "owner"}, [("78.65", "owner")]),
        (MILES, {"amount": "60.00"}, [("60.00", "maker")]),
        (MILES, {}, [("0.00", "maker")]),
        ({"per": "0.65"}, {"distance": "121"}, [("78.65", "maker")]),
        ({"per": "45.00", "of": "visit"}, {"distance": "121"}, [("45.00", "maker")]),
        ({}, {"distance": "121"}, [("0.00", "maker")]),
    ],
    ids=[
        "below the longest",
        "the longest",
        "beyond it",
        "of the owner",
        "an amount of its own",
        "nothing said",
        "however far",
        "by the visit",
        "no rate",
    ],
)
def test_travel_is_priced_by_its_amount_else_by_its_distance_up_to_the_longest(terms, line, lines):
    assert priced(terms, **line) == lines


def lines_of(**claim):
    return price(a_claim(**claim), a_plan()).lines


BOX = {"what": "box", "amount": "30.00"}
RING = {"name": "piston ring", "unit_cost": "30.00"}


@pytest.mark.parametrize(
    "pays", [{"extras": [{"kind": "*", "cap": "20.00"}]}, {"extras_cap": "20.00"}], ids=["by kind", "together"]
)
@pytest.mark.parametrize(
    ("claim", "payers"),
    [
        ({"extras": [BOX]}, ["maker", "shop"]),
        ({"extras": [{**BOX, "payer": "owner"}, {**BOX, "amount": "20.00"}]}, ["owner", "maker"]),
        ({"parts": [RING], "extras": [{**BOX, "amount": "20.00"}]}, ["maker", "maker"]),
    ],
    ids=["one extra", "one of the owner's before it", "a part before it"],
)
def test_a_cap_for_extras_is_used_up_by_extras_of_the_maker_alone(pays, claim, payers):
    plan = a_plan(pays__extras=pays.get("extras", []), pays__extras_cap=pays.get("extras_cap"))
    assert [line.payer for line in capped_together(capped_by_kind(lines_of(**claim), plan), plan)] == payers


@pytest.mark.parametrize(("kind", "word"), [("*", "extra.rest"), ("freight", "extra.freight")])
def test_what_is_above_a_cap_is_told_by_the_kind_that_it_is_for(kind, word):
    plan = a_plan(pays__extras=[{"kind": kind, "cap": "20.00"}])
    over = capped_by_kind(lines_of(extras=[{**BOX, "kind": "freight"}]), plan)[1]
    assert over.notes[0].facts["kind_word"] == word


def test_one_extra_is_paid_up_to_the_most_and_all_of_its_kind_up_to_the_cap():
    plan = a_plan(pays__extras=[{"kind": "freight", "most": "25.00", "cap": "40.00"}])
    found = capped_by_kind(lines_of(extras=[{**BOX, "kind": "freight"}] * 2), plan)
    assert [(str(line.amount), line.payer) for line in found] == [
        ("25.00", "maker"),
        ("5.00", "shop"),
        ("15.00", "maker"),
        ("5.00", "shop"),
        ("10.00", "shop"),
    ]
