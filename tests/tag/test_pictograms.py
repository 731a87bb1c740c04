from __future__ import annotations

import pytest
from PIL import Image, ImageDraw

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


def colours(drawing, *spots):
    """Black or white at spots of the square, as fractions of it, where whatever comes last covers the rest."""
    picture = Image.new("1", (600, 600), 1)
    pen = ImageDraw.Draw(picture)
    for mark in drawing.marks:
        corners = mark.corners if isinstance(mark, Polygon) else ((mark.x, mark.y), (mark.right, mark.bottom))
        shape = pen.polygon if isinstance(mark, Polygon) else pen.rectangle
        shape([(x * 10, y * 10) for x, y in corners], fill=int(isinstance(mark, Polygon) and mark.white))
    return ["white" if picture.getpixel((100 + 300 * x, 200 + 300 * y)) else "black" for x, y in spots]


@pytest.mark.parametrize(
    ("hazard", "white", "black"),
    [
        ("fuel", [(0.5, 0.4), (0.3, 0.7)], [(0.52, 0.7)]),
        ("lithium battery", [(0.2, 0.7), (0.3, 0.28), (0.7, 0.56)], [(0.5, 0.35), (0.49, 0.7)]),
        ("wet battery", [(0.2, 0.7), (0.5, 0.56)], [(0.3, 0.56), (0.69, 0.5), (0.69, 0.62), (0.62, 0.56)]),
        ("none", [(0.5, 0.3), (0.5, 0.78)], [(0.5, 0.66)]),
    ],
)
def test_a_sign_is_white_on_black_and_black_within(signed, hazard, white, black):
    drawing = signed(hazard)
    assert set(colours(drawing, *white)) == {"white"}
    assert set(colours(drawing, *black, (0.04, 0.04), (0.96, 0.96), (0.04, 0.5))) == {"black"}


def test_the_tick_is_black_on_white():
    ticked = Drawing(60, 60, 0.35)
    tick_box(ticked, SQUARE, ticked=True)
    assert colours(ticked, (0.42, 0.6), (0.2, 0.2), (0.98, 0.5)) == ["black", "white", "black"]
