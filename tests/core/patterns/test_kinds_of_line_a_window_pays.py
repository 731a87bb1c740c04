"""The second year pays parts alone; the owner pays labour, and the shop its freight where the plan says so."""

from __future__ import annotations

from booklets import notes, told, totals, under

WORK = """
parts = [ {name = "ring", unit_cost = "100.00"} ]
labour = [ {operation = "fit", hours = "1.0"} ]
extras = [ {what = "freight", amount = "12.50"} ]
"""
PARTS_ALONE = """
[[window]]
id = "second-year"
name = "second year"
covers = ["*"]
period = "P24M"
pays = ["parts"]
[pays]
labour_rate = "92.00"
parts_handling = "0.20"
"""
WHOLE_FIRST_YEAR = PARTS_ALONE + '[[window]]\nid = "first-year"\ncovers = ["*"]\nperiod = "P12M"'


def test_a_kind_the_window_does_not_pay_falls_to_the_owner():
    # parts 100.00, handling 20.00; labour 1.0 h x 92.00 and freight 12.50 are left: 104.50
    found = under(PARTS_ALONE, WORK)
    assert totals(found, "claimed", "owner", "shop") == ("120.00", "104.50", "0.00")


def test_it_falls_to_the_shop_where_the_plan_says_so():
    found = under(PARTS_ALONE.replace('pays = ["parts"]', 'pays = ["parts"]\nrest = "shop"'), WORK)
    assert totals(found, "claimed", "owner", "shop") == ("120.00", "0.00", "104.50")


def test_the_owner_pays_an_hour_what_owners_pay():
    # 1.0 h x 110.00 + 12.50
    found = under(PARTS_ALONE, WORK, retail={"labour_rate": "110.00"})
    assert totals(found, "owner") == ("122.50",)


def test_the_line_names_the_window_that_does_not_pay():
    assert notes(under(PARTS_ALONE, WORK), 2)[-1] == "second year does not pay for labour."


def test_of_two_open_windows_the_one_that_pays_counts():
    assert totals(under(WHOLE_FIRST_YEAR, WORK), "claimed", "owner") == ("224.50", "0.00")


def test_a_window_that_is_over_pays_nothing():
    # 13 months after the sale parts alone are paid
    found = under(WHOLE_FIRST_YEAR, "dates = {presented = 2026-04-14, repaired = 2026-04-15}" + WORK)
    assert totals(found, "claimed", "owner") == ("120.00", "104.50")


def test_a_line_the_owner_pays_anyway_is_left_as_it_is():
    found = under(PARTS_ALONE, 'parts = [ {name = "blade", unit_cost = "10.00", payer = "shop"} ]')
    assert told(found) == [("blade", "10.00", "0.00", "shop")]
