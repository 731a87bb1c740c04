from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from claimpack.core.reporting.three_amounts import EVERY_SHOP, AtStake, ThreeAmounts, as_json, by_shop, sum_said

TODAY = date(2026, 3, 2)


def at_stake(claim, amount, currency="USD"):
    return AtStake(claim, "Halden", Decimal(amount), currency, "file it", TODAY)


ONE, TWO = at_stake("26-0001", "100.00"), at_stake("26-0002", "20.50")
FOUND = ThreeAmounts(TODAY, TODAY, can_be_lost=(ONE, TWO), late=(TWO,))
WHOSE = {"26-0001": "ashby"}


def test_every_shop_has_its_amounts_and_all_together_come_last():
    told = [(one.shop, one.can_be_lost, one.late, one.only_the_shop) for one in by_shop(FOUND, WHOSE)]
    assert told == [
        ("", Decimal("20.50"), Decimal("20.50"), 0),
        ("ashby", Decimal("100.00"), 0, 0),
        (EVERY_SHOP, Decimal("120.50"), Decimal("20.50"), 0),
    ]


def test_a_claim_of_no_shop_is_shown_as_such():
    assert [one.shop_shown for one in by_shop(FOUND, WHOSE)] == ["no shop's", "ashby", EVERY_SHOP]


@pytest.mark.parametrize(("undated", "late"), [((), ["20.50", "0.00", "20.50"]), (("ashby",), ["20.50", None, None])])
def test_scripts_read_null_where_nobody_can_say_what_makers_are_late_with(undated, late):
    assert [one["late"] for one in as_json(FOUND, WHOSE, undated)["by_shop"]] == late


def test_scripts_read_whose_a_claim_is_where_several_shops_are_told():
    assert [one["shop"] for one in as_json(FOUND, WHOSE)["can_be_lost"]["claims"]] == ["ashby", ""]


@pytest.mark.parametrize(
    ("some", "said"),
    [
        ((), "0.00 CAD"),
        ((ONE, TWO), "120.50 USD"),
        ((ONE, at_stake("26-0003", 7, "CAD")), "7.00 CAD and 100.00 USD"),
    ],
    ids=["nothing, in the shop's currency", "one currency", "two"],
)
def test_a_list_comes_to_its_sum_in_each_currency(some, said):
    assert sum_said(some, "CAD") == said
