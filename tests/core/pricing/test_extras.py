"""Freight up to 50.00 a claim, outside work up to 200.00 and approved before, everything else up to 20.00."""

from __future__ import annotations

import pytest
from booklets import notes, told, totals, under

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
