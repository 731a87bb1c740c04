from __future__ import annotations

import re
from decimal import Decimal

import pytest
from builders import TODAY, a_claim, a_plan
from drawn_packets import a_draft, a_layout, draw, text_of
from printed import places_of
from pypdfium2 import PdfDocument

from claimpack.core.judging.assessment import Circumstances, assess
from claimpack.core.pricing.retail import Retail
from claimpack.packet.drawing.evidence import PageEvidence
from claimpack.packet.drawn_pages import draw_pages
from claimpack.packet.pages.money import money_section
from claimpack.printing.drawn import HEADING, opening

PAYS = {"labour_rate": "92.00", "parts_handling": "0.20", "extras_cap": "50.00"}
OPERATIONS = [{"code": "block", "name": "Replace block", "hours": "1.6"}]


def money(layout: str = "letter", **changes) -> str:
    plan = a_plan(pays=PAYS, operation=OPERATIONS)
    return text_of(draw(a_claim(**changes), plan, a_layout(layout, sections=["money"])))


def test_a_part_is_told_with_number_quantity_price_amount_and_handling():
    parts = [{"number": "70-1001", "name": "Short block", "quantity": "2", "unit_cost": "318.40"}]
    assert "70-1001 Short block 2 318.40 636.80 127.36" in money(parts=parts)


def test_a_part_sent_by_the_maker_is_listed_at_no_charge():
    parts = [{"number": "70-1400", "name": "Valve", "source": "maker"}]
    assert "70-1400 Valve Sent by the maker at no charge. 1 0.00 0.00 0.00" in money(parts=parts)


def test_labour_is_told_by_schedule_clock_and_claim():
    labour = [{"operation": "block", "hours": "1.9", "technician": "Ida R."}]
    said = money(labour=labour)
    assert "Ida R. 1.6 1.90 1.6 92.00 147.20" in said
    assert "Schedule 1.6 h; 0.30 h worked beyond it are not claimed." in said


def test_hours_under_each_other_have_as_many_decimals():
    labour = [{"operation": "block", "hours": "1.6", "technician": "Ida R."}, {"operation": "clean", "hours": "0.25"}]
    said = money(labour=labour)
    assert "Ida R. 1.6 1.60 1.6" in said
    assert "– 0.25 0.3" in said


def test_free_work_has_no_schedule():
    assert "0.50 h from start to end" in money(
        labour=[{"operation": "test", "started": "2026-02-23T09:10:00", "ended": "2026-02-23T09:40:00"}]
    )


def test_what_the_owner_and_the_shop_pay_is_told_apart():
    parts = [{"number": "F1", "name": "Filter", "unit_cost": "11.90", "payer": "owner"}]
    said = money(parts=parts, extras=[{"what": "Freight", "amount": "60.00"}])
    assert "Not claimed" in said
    assert "Filter (F1) 1 11.90 owner 11.90" in said
    assert "this part of Freight is above it. 1 shop 10.00" in said


def test_the_amount_stands_before_the_lines():
    said = money(parts=[{"name": "Block", "unit_cost": "100.00"}], extras=[{"what": "Freight", "amount": "12.50"}])
    assert said.index("Amount claimed 132.50 USD Parts 100.00 Handling 20.00") < said.index(
        "Claimed from the maker: Parts"
    )


def test_without_a_plan_lines_are_told_without_prices():
    said = money(maker="nobody", parts=[{"name": "Block", "unit_cost": "100.00"}])
    assert "Not priced: no one plan is found" in said
    assert "Block 1 maker" in said
    assert "100.00" not in said


def test_notes_are_in_the_layouts_language():
    parts = [{"name": "Valve", "source": "maker"}]
    assert "Enviada por el fabricante sin cargo." in money("carta-a4", parts=parts)


@pytest.mark.parametrize("reader", ["maker", "owner"])
def test_the_heading_the_amount_and_the_start_of_the_first_table_stand_on_one_page(reader):
    parts = [{"number": f"70-{nth}", "name": "Short block", "unit_cost": "3.40"} for nth in range(9)]
    draft = a_draft(a_claim(parts=parts), a_plan(pays=PAYS, operation=OPERATIONS), a_layout().written_for(reader))
    kept, *pieces = money_section(draft)
    table = next(piece for piece in pieces if getattr(piece, "repeatRows", 0))
    assert kept.height > HEADING + opening(table, draft.width)


@pytest.mark.parametrize("maker", ["halden", "nobody"], ids=["priced", "not priced"])
def test_numbers_of_a_table_end_under_each_other(maker):
    # every number of a column is of another width
    used = {"maker": ("2 318.40", "10 1.50"), "owner": ("2 318.40", "10 1.50"), "shop": ("100 21.25", "1000 1318.40")}
    parts = [
        {"number": "70-1", "name": "Seal", "payer": payer, "quantity": said.split()[0], "unit_cost": said.split()[1]}
        for payer, lines in used.items()
        for said in lines
    ]
    labour = [{"operation": name, "hours": hours} for name, hours in (("block", "1.6"), ("gear", "12.5"))]
    extras = [{"what": "freight", "amount": amount} for amount in ("5.00", "12.50")]
    plan = a_plan(pays=PAYS, operation=[*OPERATIONS, {"code": "gear", "name": "Gear", "hours": "12.0"}])
    drawn = draw(a_claim(maker=maker, parts=parts, labour=labour, extras=extras), plan, a_layout(sections=["money"]))
    found = [place for page in PdfDocument(drawn.pdf) for place in places_of(page)]
    numbers = [(said, place[2]) for said, place in found if re.fullmatch(r"[\d,]+(\.\d+)?", said)]
    lines = numbers[[said for said, _ in numbers].index("2") :]
    assert [said for said, right in lines if sum(abs(right - other) < 1.2 for _, other in lines) < 2] == []


@pytest.mark.parametrize(
    ("handling", "said"),
    [
        ("0.20", "Handling 20 %"),
        ("0", "Handling"),
        ([{"rate": "0.20"}], "Handling 20 %"),
        ([{"up_to": "100.00", "rate": "0.20"}, {"rate": "0.10"}], "Handling"),
    ],
)
def test_over_the_handling_stands_its_rate_where_there_is_one_for_every_part(handling, said):
    plan = a_plan(pays=PAYS | {"parts_handling": handling})
    parts = [{"number": "70-1", "name": "Ring", "unit_cost": "10.00"}]
    shown = text_of(draw(a_claim(parts=parts), plan, a_layout(sections=["money"]))).replace("\N{NO-BREAK SPACE}", " ")
    assert f"Each Amount {said} 70-1 Ring" in shown


def test_lines_of_what_is_not_covered_are_told_for_the_case_of_cover():
    plan = a_plan(pays=PAYS, excluded={"defects": ["wear"]})
    claim = a_claim(failure__defect="wear", parts=[{"name": "Ring", "unit_cost": "8.00"}])
    said = text_of(draw(claim, plan, a_layout(sections=["money"])))
    assert ("If it were covered: Parts" in said, "Claimed from the maker" in said) == (True, False)


@pytest.mark.parametrize("reader", ["maker", "owner"])
def test_an_owner_is_told_the_prices_of_what_the_owner_pays_alone(reader):
    parts = [
        {"name": "Ring", "unit_cost": "8.25", "quantity": "2"},
        {"name": "Filter", "unit_cost": "11.90", "payer": "owner"},
    ]
    said = text_of(draw(a_claim(parts=parts), a_plan(pays=PAYS), a_layout(sections=["money"]).written_for(reader)))
    assert "11.90 owner 11.90" in said
    assert ("8.25" in said, "16.50" in said) == (reader == "maker", reader == "maker")


@pytest.mark.parametrize("reader", ["maker", "owner"])
def test_without_a_plan_an_owner_is_told_the_amounts_of_the_owners_own_extras_alone(reader):
    extras = [
        {"what": "Freight", "amount": "12.50"},
        {"what": "Pickup", "amount": "30.00", "payer": "owner"},
    ]
    claim = a_claim(
        maker="nobody", extras=extras, labour=[{"operation": "block"}, {"operation": "fit", "hours": "0.5"}]
    )
    said = text_of(draw(claim, None, a_layout(sections=["money"]).written_for(reader)))
    assert ("12.50" in said, "Pickup owner 30.00" in said) == (reader == "maker", True)
    assert "block maker fit 0.5 h maker" in said


def test_every_line_claimed_stands_in_the_table_of_its_kind_alone():
    parts, labour = [{"name": "Ring", "unit_cost": "8.25"}], [{"operation": "block", "hours": "1.6"}]
    said = money(parts=parts, labour=labour, extras=[{"what": "Freight", "amount": "12.50"}])
    assert [said.count(name) for name in ("Ring", "Replace block", "Freight")] == [1, 1, 1]
    assert said.index("maker: Parts") < said.index("Ring") < said.index("maker: Labour") < said.index("Replace block")
    assert said.index("Replace block") < said.index("maker: Extras") < said.index("Freight")


@pytest.mark.parametrize("reader", ["maker", "owner"])
@pytest.mark.parametrize(("tax", "is_told"), [("0.07", True), ("0", False)])
def test_the_shops_tax_stands_among_what_the_owner_pays_where_there_is_one(reader, tax, is_told):
    claim = a_claim(parts=[{"name": "Filter", "unit_cost": "10.00", "payer": "owner"}])
    charged = Circumstances(retail=Retail(tax=Decimal(tax)))
    judged = assess(claim, [a_plan(pays=PAYS)], TODAY, charged)
    layout = a_layout(sections=["money"]).written_for(reader)
    assert ("7 % on what the owner pays. owner 0.70" in text_of(draw_pages(judged, layout, PageEvidence()))) == is_told
