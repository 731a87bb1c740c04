"""Parts the maker sent are paid nothing for, but their handling is: 10 % of the list price."""

from __future__ import annotations

from booklets import notes, told, totals, under

BOOKLET = """
[pays]
parts_handling = "0.20"
handling_on_supplied = "0.10"
"""
SENT = 'parts = [ {name = "short block", quantity = 2, source = "maker", list_price = "412.35"} ]'
UNPRICED = 'parts = [ {name = "short block", source = "maker"} ]'


def test_handling_is_a_fraction_of_the_list_price():
    # 2 x 412.35 = 824.70; x 0.10 = 82.47
    assert told(under(BOOKLET, SENT)) == [("short block", "0.00", "82.47", "maker")]


def test_it_is_claimed():
    assert totals(under(BOOKLET, SENT), "parts", "handling", "claimed") == ("0.00", "82.47", "82.47")


def test_the_line_says_what_it_goes_by():
    assert notes(under(BOOKLET, SENT))[1] == "Handling 10 % of the list price, 412.35."


def test_without_a_list_price_none_is_claimed_and_it_is_asked_for():
    found = under(BOOKLET, UNPRICED)
    assert totals(found, "handling") == ("0.00",)
    assert "missing.list-price" in [item.what.key for item in found.missing]


def test_a_part_from_stock_has_its_own_handling():
    # 100.00 x 0.20
    assert told(under(BOOKLET, 'parts = [ {name = "seal", unit_cost = "100.00"} ]'))[0][2] == "20.00"


def test_a_plan_that_says_nothing_of_it_asks_for_no_list_price():
    found = under("", UNPRICED)
    assert "missing.list-price" not in [item.what.key for item in found.missing]
