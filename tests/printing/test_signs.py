from __future__ import annotations

import io
import itertools

import pypdfium2
import pytest
from PIL import ImageChops
from reportlab.pdfgen.canvas import Canvas

from claimpack.printing.signs import OUTCOME_OF, draw_sign
from claimpack.printing.typeface import register


def grey(outcome: str, size: float = 12):
    """A sign as a grey copier sees it."""
    register()
    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=(size, size))
    draw_sign(canvas, outcome, size)
    canvas.save()
    return pypdfium2.PdfDocument(stream.getvalue())[0].render(scale=5).to_pil().convert("L")


@pytest.mark.parametrize(("one", "other"), list(itertools.combinations(["pass", "fail", "unknown"], 2)))
def test_signs_differ_without_colour(one, other):
    differ = ImageChops.difference(grey(one), grey(other)).point(lambda level: 255 * (level > 90))
    assert sum(differ.histogram()[255:]) > 300


def test_every_verdict_has_its_sign():
    assert sorted(OUTCOME_OF.values()) == ["fail", "pass", "unknown"]
