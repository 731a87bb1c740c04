"""What is drawn in a field, as pdfium shows it."""

from __future__ import annotations

import numpy as np
import pypdfium2
import pytest

from claimpack.forms.drawing import Drawn, as_pages
from claimpack.forms.looks import Look
from claimpack.forms.setting import set_together

WHITE, BLACK, RED = (255, 255, 255), (0, 0, 0), (255, 0, 0)
REDS = [(1.0, 0.0, 0.0), (0.0, 1.0, 1.0, 0.0)]


def shown(look, text="", tick=False):
    """The room of a field in eight dots a point, from its upper left."""
    setting = set_together([(text, look)])[0] if text else None
    page = pypdfium2.PdfDocument(as_pages([Drawn(look, setting, tick)]))[0]
    return np.asarray(page.render(scale=8).to_pil())


def at(picture, x, y):
    """The colour so many points from the upper left, to the next fifth of its range."""
    return tuple(round(int(part) / 51) * 51 for part in picture[round(8 * y), round(8 * x)])


def inked(picture):
    """Where there is ink: left, top, right, bottom."""
    down, across = np.nonzero(picture.min(axis=2) < 128)
    return tuple(edge / 8 for edge in (across[0:].min(), down.min(), across.max() + 1, down.max() + 1))


@pytest.mark.parametrize(("width", "height"), [(30, 20), (20, 30)])
def test_a_box_is_ticked_with_a_cross_in_its_middle_that_touches_no_edge(width, height):
    picture = shown(Look(width, height), tick=True)
    middle, half = (width / 2, height / 2), 0.6 * 20 / 2
    arms = [(middle[0] + across * half * 0.9, middle[1] + down * half * 0.9) for across in (-1, 1) for down in (-1, 1)]
    assert {at(picture, *arm) for arm in (*arms, middle)} == {BLACK}
    assert at(picture, middle[0], middle[1] - half * 0.9) == WHITE
    left, top, right, bottom = inked(picture)
    assert (left + right, top + bottom) == pytest.approx((width, height), abs=0.3)
    assert right - left == pytest.approx(bottom - top, abs=0.3) == pytest.approx(2 * half + 2.2, abs=0.4)


def test_a_box_that_is_not_ticked_is_left_empty():
    assert shown(Look(30, 20)).min() == 255


def test_a_border_lies_inside_the_room_all_round():
    picture = shown(Look(60, 20, rule=(0.0,), border=2.0))
    edges = [(1, 10), (59, 10), (30, 1), (30, 19), (0.2, 0.2), (59.7, 19.7)]
    assert {at(picture, *edge) for edge in edges} == {BLACK}
    assert {at(picture, *inside) for inside in ((2.5, 10), (57.5, 10), (30, 2.5), (30, 17.5))} == {WHITE}


@pytest.mark.parametrize("look", [{"border": 2.0}, {"rule": (0.0,)}])
def test_a_border_without_a_colour_or_a_width_is_not_drawn(look):
    assert shown(Look(60, 20, **look)).min() == 255


def test_boxes_are_ruled_between_their_characters():
    picture = shown(Look(60, 20, comb=3, rule=(0.0,), border=1.0))
    assert [at(picture, x, 10) for x in (10, 20, 30, 40, 50)] == [WHITE, BLACK, WHITE, BLACK, WHITE]


@pytest.mark.parametrize("red", REDS, ids=["of light", "of printing inks"])
@pytest.mark.parametrize(
    ("look", "drawn"),
    [("fill", {}), ("rule", {}), ("ink", {"tick": True}), ("ink", {"text": "I"})],
    ids=["ground", "rule", "cross", "letters"],
)
def test_ground_rule_cross_and_letters_have_their_colour(look, drawn, red):
    picture = shown(Look(60, 20, border=4.0, size=12.0, **{look: red}), **drawn).astype(int)
    assert (picture[..., 0] - picture[..., 1]).max() > 150
    assert picture[..., 0].min() > 150


@pytest.mark.parametrize("grey", [0.2, 0.6])
def test_grey_is_as_light_as_it_is_told(grey):
    assert at(shown(Look(60, 20, fill=(grey,))), 30, 10) == (round(255 * grey),) * 3
    assert at(shown(Look(60, 20, rule=(grey,), border=4.0)), 30, 2) == (round(255 * grey),) * 3
