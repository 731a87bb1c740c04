from __future__ import annotations

from builders import a_claim
from drawn_packets import a_layout, draw, text_of

from claimpack.packet.drawing.evidence import ShopFacts


def test_the_shop_states_its_facts_and_the_tool_adds_none():
    said = text_of(draw(layout=a_layout(sections=["declaration"]), shop=ShopFacts(name="Quarry Road")))
    assert "Quarry Road The shop states that the facts in this packet are true to its knowledge" in said
    assert "The program that drew these pages added none" in said


def test_there_are_lines_for_technician_and_service_writer():
    said = text_of(draw(layout=a_layout(sections=["declaration"])))
    assert "Technician: name Signature Date Service writer: name Signature Date" in said


def test_where_no_day_of_repair_is_given_no_repair_is_declared():
    said = text_of(draw(a_claim(dates__repaired=None), layout=a_layout(sections=["declaration"])))
    assert "It does not state that the unit is repaired" in said
    assert "those of this repair" not in said


def test_of_a_part_sold_over_the_counter_no_unit_and_no_work_is_declared():
    declared = a_layout(sections=["declaration"])
    said = text_of(draw(a_claim(case="part", part_sold={"name": "coil", "sold": "2026-01-05"}), layout=declared))
    assert "the pictures show that part" in said
    assert ("this unit" in said, "time worked" in said) == (False, False)
