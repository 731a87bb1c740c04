from __future__ import annotations

from builders import a_claim, a_plan
from drawn_packets import a_layout, draw, text_of

from claimpack.core.holding.hold import HoldRule

HELD = [{"part": "short block", "number": "70-1", "shelf": "B3", "boxed": True, "drained": True, "since": "2026-02-24"}]


def held(layout="letter", plan=None, parts=HELD) -> str:
    sections = ["held", "declaration"]
    return text_of(draw(a_claim(held=parts), plan or a_plan(), a_layout(layout, sections=sections)))


def test_a_held_part_is_told_with_its_shelf_and_days():
    plan = a_plan(hold={"for": "P90D", "of": "repaired"})
    said = held(plan=plan)
    assert "short block 26-0001/1 70-1 B3 yes yes 2026-02-24 2026-05-25" in said
    assert "90 days from the day it was repaired, " in said


def test_a_hold_whose_start_is_not_known_is_told_by_its_terms():
    assert "90 days from the day it is filed" in held(plan=a_plan(hold={"for": "P90D", "of": "filed"}))


def test_a_plan_without_a_hold_keeps_parts_until_the_maker_releases_them():
    assert HoldRule().terms in held()


def test_what_is_not_noted_is_said():
    assert "no not noted" in held(parts=[{"part": "rotor", "hazard": "fuel"}])


def test_cautions_are_those_of_the_hazard():
    said = held(parts=[{"part": "pack", "hazard": "lithium battery"}])
    assert "49 CFR 173.185(f)" in said
    assert "drain fuel" not in said


def test_the_word_caution_stands_once_above_all_of_them():
    assert held(parts=[{"part": "pack", "hazard": "lithium battery"}]).count("Caution") == 1


def test_terms_and_cautions_are_in_the_layouts_language():
    said = held("carta-a4", a_plan(hold={"for": "P3M", "of": "filed"}))
    assert "3 meses desde el día en que se presenta la reclamación" in said
    assert "Peligro de incendio" in said


def test_a_claim_without_held_parts_has_no_such_section():
    assert "Held parts" not in held(parts=[])


def test_a_part_that_never_held_fuel_is_not_asked_whether_it_was_drained():
    assert "no not noted" not in held(parts=[{"part": "guide", "hazard": "none"}])
