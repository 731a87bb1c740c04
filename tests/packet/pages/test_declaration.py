from __future__ import annotations

import pytest
from builders import a_claim
from drawn_packets import a_layout, draw, text_of
from inked import ink_on, words_on
from pypdfium2 import PdfDocument

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


@pytest.mark.parametrize("paper", ["letter", "carta-a4"])
def test_two_rows_of_three_lines_to_sign_on_share_the_width_and_say_below_what_goes_there(paper):
    layout = a_layout(paper, sections=["declaration"])
    page = PdfDocument(draw(layout=layout).pdf)[0]
    left, _, width, _ = layout.body
    lines = [one for one in ink_on(page) if one.is_level and one.broad == pytest.approx(0.6)]
    assert {round(a.top - b.top) for a, b in zip(lines[:3], lines[3:], strict=True)} == {46}
    fifth = (width - 36) / 5
    wanted = [
        (left, left + 2 * fifth),
        (left + 2 * fifth + 18, left + 4 * fifth + 18),
        (left + width - fifth, left + width),
    ]
    assert [(one.left, one.right) for one in lines] == [pytest.approx(ends, abs=0.1) for ends in wanted * 2]
    labels = words_on(page)[-6:]
    assert [(said.left - one.left, one.top - said.top) for said, one in zip(labels, lines, strict=True)] == [
        (pytest.approx(0.5, abs=0.6), pytest.approx(3.5, abs=1.5))
    ] * 6


def test_the_lines_to_sign_on_stand_under_what_is_signed():
    page = PdfDocument(draw(layout=a_layout(sections=["declaration"])).pdf)[0]
    lines = [one.top for one in ink_on(page) if one.is_level and one.broad == pytest.approx(0.6)]
    (signed,) = (one for one in words_on(page) if "added none" in one.words)
    assert 20 < signed.bottom - max(lines) < 60
