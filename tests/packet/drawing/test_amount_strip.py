from __future__ import annotations

from builders import a_claim, a_plan
from drawn_packets import a_layout, draw, text_of

COVER = {"sections": ["cover"]}


def test_the_amount_stands_beside_the_four_parts_it_is_made_of():
    plan = a_plan(pays={"labour_rate": "92.00", "parts_handling": "0.20"})
    claim = a_claim(parts=[{"name": "Block", "unit_cost": "10.00"}], labour=[{"operation": "fit", "hours": "0.5"}])
    said = text_of(draw(claim, plan, a_layout(**COVER)))
    assert "Amount claimed 58.00 USD Parts 10.00 Handling 2.00 Labour 46.00 Extras 0.00 Owner pays 0.00" in said


def test_a_currency_without_minor_units_has_no_decimals():
    plan = a_plan(currency="JPY", pays={"labour_rate": "9200"})
    claim = a_claim(labour=[{"operation": "fit", "hours": "0.5"}])
    assert "4,600 JPY" in text_of(draw(claim, plan, a_layout(**COVER)))


def test_an_owner_is_promised_no_free_repair_where_nothing_is_written_down_yet():
    layout = a_layout(sections=["cover", "money"]).written_for("owner")
    said = text_of(draw(a_claim(parts=[], labour=[]), a_plan(), layout))
    assert ("Owner pays none given" in said, "0.00" in said, "Quantity" in said) == (True, False, False)


def test_an_owner_is_told_an_amount_only_for_the_case_of_cover_while_that_is_undecided():
    layout = a_layout(**COVER).written_for("owner")
    claim = a_claim(
        parts=[{"name": "Filter", "unit_cost": "11.90", "payer": "owner"}], dates__delivered=None, dates__purchased=None
    )
    said = text_of(draw(claim, a_plan(), layout))
    assert ("UNDECIDED" in said, "Owner pays 11.90 USD If it were covered" in said) == (True, True)
