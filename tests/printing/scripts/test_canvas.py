from __future__ import annotations

from importlib.util import find_spec
from itertools import pairwise

import pytest
from inked import page_with, words_on

from claimpack.printing.typeface import BOLD, REGULAR

MIXED = "Hana \N{CJK UNIFIED IDEOGRAPH-82B1} 7"


with_its_letters = pytest.mark.skipif(find_spec("justmytype_intl_cjk") is None, reason="the extra `fonts` is not here")


@pytest.mark.parametrize("said", ["Hana 7", pytest.param(MIXED, marks=with_its_letters)])
@pytest.mark.parametrize(("draw", "share"), [("drawString", 0.0), ("drawCentredString", 0.5), ("drawRightString", 1.0)])
def test_a_line_begins_has_its_middle_or_ends_where_it_is_told_whatever_its_letters(draw, share, said):
    def pen(canvas):
        canvas.setFont(REGULAR, 10)
        getattr(canvas, draw)(100, 50, said)

    words = words_on(page_with(pen, (200, 100)))
    left, right = min(one.left for one in words), max(one.right for one in words)
    assert left + (right - left) * share == pytest.approx(100, abs=1.2)
    assert all(before.right <= after.left + 0.1 for before, after in pairwise(words))


def test_behind_letters_of_another_script_the_typeface_is_again_what_it_was():
    def pen(canvas):
        canvas.setFont(BOLD, 10)
        canvas.drawString(10, 50, f"{MIXED[:-2]}")
        canvas.drawString(10, 20, "next")

    assert words_on(page_with(pen, (200, 100)))[-1].face == "NotoSans-Bold"


@with_its_letters
def test_letters_of_another_script_are_drawn_in_a_typeface_that_has_them():
    def pen(canvas):
        canvas.setFont(REGULAR, 10)
        canvas.drawString(10, 50, MIXED)

    faces = [one.face for one in words_on(page_with(pen, (200, 100)))]
    assert ["NotoSans-Regular" in face for face in faces] == [True, False, True]
