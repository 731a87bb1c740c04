from __future__ import annotations

import pytest

from claimpack.tag.drawing import Area, Drawing, Polygon
from claimpack.tag.pictograms import sign, tick_box

SQUARE = Area(10, 20, 30, 30)


@pytest.fixture
def signed():
    def draw(hazard):
        drawing = Drawing(60, 60, 0.35)
        sign(drawing, hazard, SQUARE)
        return drawing

    return draw


@pytest.mark.parametrize("hazard", ["fuel", "lithium battery", "wet battery", "none"])
def test_a_sign_stays_on_its_square(signed, hazard):
    corners = [corner for mark in signed(hazard).marks if isinstance(mark, Polygon) for corner in mark.corners]
    assert all(10 < x < 40 and 20 < y < 50 for x, y in corners)


def test_each_hazard_has_a_sign_of_its_own(signed):
    drawn = [str(signed(hazard).marks) for hazard in ("fuel", "lithium battery", "wet battery", "none")]
    assert len(set(drawn)) == 4


def test_a_box_is_ticked_or_left_to_tick():
    empty, ticked = Drawing(60, 60, 0.35), Drawing(60, 60, 0.35)
    tick_box(empty, SQUARE, ticked=False)
    tick_box(ticked, SQUARE, ticked=True)
    assert len(ticked.marks) == len(empty.marks) + 1
