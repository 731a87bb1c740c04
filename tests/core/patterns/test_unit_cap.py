"""A unit is paid 1200.00 in its life, or 500.00 in each year of cover; what it was paid before counts."""

from __future__ import annotations

import pytest
from booklets import notes, told, totals, under

LIFE = '[pays]\nunit_cap = {amount = "1200.00", per = "life"}'
YEAR = '[[window]]\nid = "unit"\ncovers = ["*"]\nperiod = "P5Y"\n[pays]\nunit_cap = {amount = "500.00", per = "year"}'


def repair(cost: str, *earlier: str) -> str:
    before = (f'{{component = "short block", {each}}}' for each in earlier)
    return f'parts = [ {{name = "ring", unit_cost = "{cost}"}} ]\nearlier = [ {", ".join(before)} ]'


def paid(amount: str, on: str = "2025-09-01") -> str:
    return f'repaired = {on}, paid = "{amount}"'


def asked(found) -> list[tuple[str, bool]]:
    keys = ("missing.paid-before", "missing.paid-before-any", "missing.cover-start")
    return [(item.what.key, item.blocks_filing) for item in found.missing if item.what.key in keys]


@pytest.mark.parametrize(
    ("cost", "claimed", "shop"),  # 1200.00 - 700.00 - 380.00 = 120.00 is left
    [("119.99", "119.99", "0.00"), ("120.00", "120.00", "0.00"), ("120.01", "120.00", "0.01")],
)
def test_a_unit_is_paid_up_to_what_its_earlier_claims_left_of_the_cap(cost, claimed, shop):
    assert totals(under(LIFE, repair(cost, paid("700.00"), paid("380.00"))), "claimed", "shop") == (claimed, shop)


def test_nothing_is_paid_where_nothing_is_left():
    found = under(LIFE, repair("50.00", paid("1300.00")))
    assert told(found) == [("ring", "50.00", "0.00", "shop")]


def test_the_line_names_the_cap_and_what_was_paid_before():
    assert notes(under(LIFE, repair("50.00", paid("1200.00")))) == [
        "The plan pays up to 1,200.00 for a unit in all, 1,200.00 before this claim; this is above it."
    ]


def test_what_nobody_says_of_an_earlier_repair_is_asked_for_before_filing():
    assert asked(under(LIFE, repair("50.00", "repaired = 2025-09-01"))) == [("missing.paid-before", True)]


def test_it_is_not_asked_for_where_the_others_have_reached_the_cap():
    assert asked(under(LIFE, repair("50.00", paid("1200.00"), "repaired = 2025-09-01"))) == []


def test_a_claim_that_names_no_earlier_repair_says_that_nothing_is_counted():
    assert asked(under(LIFE, repair("50.00"))) == [("missing.paid-before-any", False)]


@pytest.mark.parametrize(
    ("earlier", "claimed"),  # cover starts on 2025-03-14; the claim is repaired on 2026-02-24, in its first year
    [("2025-03-13", "400.00"), ("2025-03-14", "200.00"), ("2026-02-24", "200.00")],
)
def test_a_repair_counts_in_the_year_of_cover_it_was_done_in(earlier, claimed):
    # 500.00 - 300.00 = 200.00 of 400.00
    assert totals(under(YEAR, repair("400.00", paid("300.00", earlier))), "claimed") == (claimed,)


BUILT = YEAR.replace("[pays]", '[[window]]\nid = "steel"\ncovers = ["*"]\nperiod = "P9Y"\nstart = ["built"]\n[pays]')


def test_years_are_counted_by_the_start_of_the_plan_whichever_window_is_cited():
    # counted from the day it was built, 2025-01-20, the two repairs would lie in two years
    found = under(BUILT, "unit = {built = 2025-01-20}\n" + repair("400.00", paid("300.00")))
    assert (found.window.id, totals(found, "claimed")) == ("steel", ("200.00",))


NEVER = YEAR.replace("[pays]", 'start = ["delivered"]\n[pays]')


def test_where_the_start_of_the_plan_never_comes_the_first_window_that_holds_counts():
    plan = 'start = ["registered"]\n' + NEVER
    claim = "dates = {never_registered = true}\n" + repair("400.00", paid("300.00", "2025-03-13"))
    assert totals(under(plan, claim), "claimed") == ("400.00",)


@pytest.mark.parametrize(
    ("repaired", "claimed"), [("2026-02-13", "200.00"), ("2026-02-14", "200.00"), ("2026-02-15", "400.00")]
)
def test_a_year_ends_on_the_day_a_window_of_a_year_would(repaired, claimed):
    claim = f"dates = {{purchased = 2025-02-14, delivered = 2025-02-14, repaired = {repaired}}}\n" + repair(
        "400.00", paid("300.00")
    )
    assert totals(under(YEAR, claim), "claimed") == (claimed,)


def test_the_cap_of_the_claim_comes_first_and_the_deductible_after_both():
    # 900.00: 600.00 a claim; of that 500.00 are left for the unit; less 25.00
    plan = LIFE + '\nclaim_cap = "600.00"\ndeductible = {amount = "25.00"}'
    found = under(plan, repair("900.00", paid("700.00")))
    assert totals(found, "claimed", "owner", "shop") == ("475.00", "25.00", "400.00")


def test_what_is_asked_for_names_the_key_that_it_is_written_to():
    (item,) = [
        one
        for one in under(LIFE, repair("50.00", paid("5.00"), "repaired = 2025-09-02")).missing
        if "paid-b" in one.what.key
    ]
    assert "'earlier[2].paid'" in str(item.why)
