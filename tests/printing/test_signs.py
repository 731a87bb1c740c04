from __future__ import annotations

import io
import itertools

import pypdfium2
import pytest
from inked import ink_on, page_of, words_on
from PIL import ImageChops
from reportlab.pdfgen.canvas import Canvas

from claimpack.printing.signs import OUTCOME_OF, draw_sign, sign
from claimpack.printing.typeface import register


def grey(outcome: str, size: float = 12):
    """A sign as a grey copier sees it."""
    register()
    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=(size, size))
    draw_sign(canvas, outcome, size, white=False)
    canvas.save()
    return pypdfium2.PdfDocument(stream.getvalue())[0].render(scale=5).to_pil().convert("L")


@pytest.mark.parametrize(("one", "other"), list(itertools.combinations(["pass", "fail", "unknown"], 2)))
def test_signs_differ_without_colour(one, other):
    differ = ImageChops.difference(grey(one), grey(other)).point(lambda level: 255 * (level > 90))
    assert sum(differ.histogram()[255:]) > 300


def test_every_verdict_has_its_sign():
    assert sorted(OUTCOME_OF.values()) == ["fail", "pass", "unknown"]


@pytest.mark.parametrize("size", [8.5, 36])
@pytest.mark.parametrize("outcome", ["pass", "fail", "unknown"])
def test_a_sign_fills_its_square_from_the_middle_and_leaves_it_nowhere(outcome, size):
    page = page_of(sign(outcome, size), size)
    ground, *strokes = ink_on(page)
    half = (ground.right - ground.left + ground.broad) / 2
    assert ground.middle == pytest.approx((size / 2, size / 2), abs=0.01)
    assert size * 0.48 < half <= size / 2 + 0.01
    assert all(0 < one.left < one.right < size and 0 < one.bottom < one.top < size for one in strokes)
    for mark in words_on(page):
        assert ((mark.left + mark.right) / 2, (mark.bottom + mark.top) / 2) == pytest.approx((size / 2,) * 2, rel=0.06)


@pytest.mark.parametrize(("said", "is_white"), [({}, False), ({"white": True}, True)], ids=["on white", "on colour"])
def test_a_tick_on_colour_is_drawn_in_white_and_one_on_white_in_colour(said, is_white):
    disc, tick = ink_on(page_of(sign("pass", 36, **said), 36))
    assert (disc.colour == "#ffffff", tick.colour == "#ffffff") == (is_white, not is_white)


@pytest.mark.parametrize(("outcome", "words"), [("pass", []), ("fail", []), ("unknown", ["?"])])
def test_only_what_is_not_known_is_asked(outcome, words):
    assert [mark.words for mark in words_on(page_of(sign(outcome, 36), 36))] == words
