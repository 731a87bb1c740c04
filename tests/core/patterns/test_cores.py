"""A rebuilt part carries a deposit until the old one is back: the maker pays it, or the plan leaves it to the shop."""

from __future__ import annotations

from booklets import notes, told, totals, under

CLAIMED = '[pays]\nparts_handling = "0.20"\ncore = "claimed"'


def part(more: str = "") -> str:
    return f'parts = [ {{name = "starter", quantity = 2, unit_cost = "80.00", core = "45.00"{more}}} ]'


def test_the_deposit_is_claimed_without_handling_while_the_core_is_out():
    # 2 x 80.00 = 160.00, handling 32.00; 2 x 45.00 = 90.00
    assert told(under(CLAIMED, part())) == [
        ("starter", "160.00", "32.00", "maker"),
        ("starter", "90.00", "0.00", "maker"),
    ]


def test_the_totals_have_it_among_the_parts_and_tell_it_apart():
    assert totals(under(CLAIMED, part()), "parts", "core", "claimed") == ("250.00", "90.00", "282.00")


def test_nothing_is_claimed_of_it_once_the_core_is_returned():
    found = under(CLAIMED, part(", core_returned = 2026-02-26"))
    assert totals(found, "core", "claimed", "shop") == ("0.00", "192.00", "0.00")
    assert notes(found) == ["The old part was returned on 2026-02-26, so its deposit of 45.00 is not claimed."]


def test_the_shop_bears_it_where_the_plan_says_nothing():
    assert totals(under("", part()), "core", "claimed", "shop") == ("0.00", "160.00", "90.00")


def test_the_owner_bears_that_of_a_part_the_owner_pays():
    assert totals(under(CLAIMED, part(', payer = "owner"')), "core", "claimed", "owner") == ("0.00", "0.00", "250.00")


def test_a_day_of_return_that_lies_ahead_is_put_right_before_filing():
    found = under(CLAIMED, part(", core_returned = 2026-03-02"))
    assert "missing.future" in [item.what.key for item in found.missing]
