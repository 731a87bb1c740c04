"""Whose a statement is: the maker's one name, its spellings, its columns, and claims on it that no plan prices."""

from __future__ import annotations

import pytest
from manager_shop import a_managed_shop, filed_in
from running import claimpack

MEMO = "Claim,Amount\n26-0001,{}\n26-0002,150.00\n"


@pytest.fixture
def shop(tmp_path):
    """Two claims of 150.00 on one maker, spelt in two ways; no plan is of the unit of the first."""
    shop = a_managed_shop(tmp_path)
    filed_in(shop, "26-0001", maker="halden", unit__model="ZZ-1")
    filed_in(shop, "26-0002", maker="Halden")
    return shop


def booked(shop, paid="150.00", *options):
    (shop / "memo.csv").write_text(MEMO.format(paid))
    return claimpack("statement", "memo.csv", "--maker", "halden", "--memo", "CM-1", "--yes", *options, folder=shop)


def test_a_statement_is_told_under_the_makers_one_name_and_its_columns_are_kept_under_it(shop):
    told = booked(shop)
    assert "Memo CM-1 of Halden: 2 rows" in told.out
    assert [path.name for path in (shop / "statements").iterdir()] == ["halden.toml"]


def test_a_memo_of_one_maker_spelt_in_two_ways_is_taken_back_as_one(shop):
    booked(shop)
    undone = claimpack("statement", "--undo", "CM-1", "--yes", "--json", folder=shop)
    assert (undone.code, undone.json["claims"]) == (0, ["26-0001", "26-0002"])


def test_of_a_claim_that_no_plan_prices_it_is_told_that_it_is_short_and_not_why(shop):
    told = booked(shop, "100.00")
    assert (told.code, "50.00" in told.out, "it comes to" in told.out) == (0, True, False)


def test_what_is_not_booked_is_not_told_as_booked(shop):
    told = booked(shop, "999.00", "--json")
    assert (told.code, told.json["booked"]) == (4, False)
