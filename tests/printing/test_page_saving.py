from io import BytesIO

import pypdf
import pytest
from reportlab.platypus import KeepTogether, PageBreak, SimpleDocTemplate

from claimpack.printing.document import Titles, document
from claimpack.printing.drawn import drawn, gap
from claimpack.printing.page_saving import MeasuredPages, end_filled, pages_saved
from claimpack.printing.papers import PAPERS

TITLES = Titles("A trial", "", "")


class Pages:
    """Pages set with a share of the usual room between pieces: so full each."""

    def __init__(self, share, *filled):
        self.share, self.filled = share, filled


def block(height):
    return drawn(100, height, lambda canvas, wide, high: canvas.rect(0, 0, wide, high))


def pages(pieces):
    made = document(pieces, PAPERS["letter"], TITLES)
    return len(pypdf.PdfReader(BytesIO(made)).pages)


def test_a_last_page_that_less_room_between_pieces_saves_is_saved():
    assert pages(lambda: [block(500), gap(60), block(130)]) == 1


def test_room_between_pieces_that_are_kept_together_counts_too():
    assert pages(lambda: [block(500), KeepTogether([block(60), gap(60), block(60)])]) == 1


def test_a_last_page_that_no_less_room_saves_keeps_the_usual_room():
    found = pages_saved(lambda share: Pages(share, 0.9, 0.1))
    assert found.share == 1.0


@pytest.mark.parametrize(("last", "share"), [(0.32, 0.7), (1 / 3, 1.0)])
def test_only_a_page_under_a_third_full_is_worth_a_second_try(last, share):
    found = pages_saved(lambda share: Pages(share, 0.9, last) if share == 1.0 else Pages(share, 0.95))
    assert found.share == share


def test_no_more_room_is_taken_than_saves_the_page():
    found = pages_saved(lambda share: Pages(share, 0.9, 0.2) if share > 0.5 else Pages(share, 0.95))
    assert found.share == 0.4


def test_a_first_page_nearly_empty_is_left_as_it_is():
    assert pages_saved(lambda share: Pages(share, 0.2)).share == 1.0


def test_a_letter_or_list_is_worth_a_second_try_where_its_last_page_is_under_half_full():
    assert pages(lambda: [block(300), gap(80), block(60), gap(80), block(240)]) == 1


@pytest.mark.parametrize(
    ("usual", "tries", "kept"),
    [
        ([0.2], [(0.5,)], 0),
        ([0.9, 0.3], [(0.6, 0.6)], 0),
        ([0.9, 0.29], [(0.8, 0.3)], 2),
        ([0.9, 0.1], [(0.8, 0.2), (0.5, 0.5)], 3),
        ([0.9, 0.1], [(0.4, 0.6), (0.7, 0.35)], 3),
        ([0.9, 0.1], [(0.9, 0.2)], 0),
        ([0.9, 0.1], [(0.9, 0.5, 0.4)], 0),
    ],
    ids=[
        "one page",
        "full enough",
        "just enough",
        "as full as before",
        "not fuller than before",
        "in vain",
        "a page more",
    ],
)
def test_a_last_page_nearly_empty_takes_more_of_the_last_pieces_where_that_fills_it(usual, tries, kept):
    def setting(last):
        return Pages(last, *tries[last - 2])

    assert end_filled(setting, Pages(0, *usual), len(tries) + 2, 0.3).share == kept


class Measured(MeasuredPages, SimpleDocTemplate):
    """Like pages of 300 by 300 points, of which the frame leaves 288 to what is set."""


@pytest.mark.parametrize(
    ("pieces", "filled"),
    [
        ([block(144)], [0.5]),
        ([block(288)], [1.0]),
        ([block(72), gap(72), block(72), gap(40)], [0.75]),
        ([block(144), PageBreak(), block(72)], [0.5, 0.25]),
    ],
    ids=["half", "whole", "to the last that leaves ink", "each page from its top"],
)
def test_a_page_is_as_full_as_its_last_ink_lies_deep(pieces, filled):
    pages = Measured(BytesIO(), pagesize=(400, 400), leftMargin=50, rightMargin=50, topMargin=50, bottomMargin=50)
    pages.build(pieces)
    assert pages.filled == pytest.approx(filled)
