from __future__ import annotations

import pytest
from builders import a_claim, a_plan
from drawn_packets import a_draft, a_layout, draw, text_of
from inked import ink_on, page_of, words_on

from claimpack.packet.drawing.amount_strip import amount_strip

COVER = {"sections": ["cover"]}
CONDITIONS = (
    "If it were covered",
    "If the maker grants",
    "If it is repaired as listed",
    "If the parts listed were used",
)


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


def test_an_owner_of_a_covered_unit_is_told_the_amount_without_a_condition():
    claim = a_claim(parts=[{"name": "Filter", "unit_cost": "11.90", "payer": "owner"}])
    said = text_of(draw(claim, a_plan(), a_layout(**COVER).written_for("owner")))
    assert ("Owner pays 11.90 USD" in said, "If it were covered" in said) == (True, False)


def test_a_firm_line_parts_what_the_maker_pays_from_what_others_pay_and_thin_ones_its_parts():
    draft = a_draft(a_claim(labour=[{"operation": "fit", "hours": "0.5"}]))
    page = page_of(amount_strip(draft), draft.width)
    firm = next(one.left for one in ink_on(page) if one.is_upright and one.broad > 1)
    thin = [one.left for one in ink_on(page) if one.is_upright and one.broad < 1]
    left = {one.words: one.left for one in words_on(page)}
    assert left["Extras"] < firm < min(left[name] for name in ("Owner pays", "Shop bears"))
    assert [sum(left[name] < line for line in thin) for name in ("Parts", "Handling", "Labour", "Extras")] == [
        3,
        2,
        1,
        0,
    ]
    assert all(line < firm for line in thin)


@pytest.mark.parametrize(
    ("said", "changes"),
    [
        ("If it is repaired as listed", {"dates__repaired": None}),
        ("If it is repaired as listed", {"dates__repaired": None, "dates__delivered": "2020-03-14"}),
        ("If the maker grants", {"case": "goodwill", "goodwill__because": "Old.", "dates__delivered": "2020-03-14"}),
        ("", {}),
        ("If the parts listed were used", {"case": "declined", "dates__repaired": None}),
    ],
    ids=["not repaired", "not repaired, not covered", "a favour", "repaired", "declined"],
)
def test_an_owner_is_told_on_what_the_amount_hangs(said, changes):
    filter_ = {"name": "Filter", "unit_cost": "11.90", "payer": "owner"}
    claim = a_claim(parts=[filter_], **changes)
    told = text_of(draw(claim, a_plan(), a_layout(**COVER).written_for("owner")))
    assert [condition for condition in CONDITIONS if condition in told] == ([said] if said else [])


def test_an_owner_reads_who_pays_what_and_a_maker_what_is_claimed():
    claim, layout = a_claim(parts=[{"name": "Filter", "unit_cost": "11.90"}]), a_layout(sections=["money"])
    told = [text_of(draw(claim, a_plan(), layout.written_for(reader))) for reader in ("owner", "maker")]
    assert ["Who pays what" in said for said in told] == [True, False]
