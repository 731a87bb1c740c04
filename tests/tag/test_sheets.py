"""Several tags on a sheet: where each stands, where it is cut, how the sheet is turned."""

from __future__ import annotations

import itertools
import re
from io import BytesIO

import pypdf
import pytest
from inked import words_on
from pypdfium2 import PdfDocument

from claimpack.errors import BadInput
from claimpack.tag.draw import tag_pdf
from claimpack.tag.stock import stock_from

SHEET = {
    "width": "400 pt",
    "height": "300 pt",
    "left": "20 pt",
    "top": "30 pt",
    "rows": 2,
    "columns": 2,
    "gap_across": "10 pt",
    "gap_down": "14 pt",
}
LEFTS, TOPS = (20, 130), (30, 104)


@pytest.fixture
def sheet(stock_data):
    """A sheet of four tags of 100 by 60 points that show the number of the claim alone."""

    def made(*, turned=False, **changes):
        data = stock_data("sheet-letter") | {"width": "100 pt", "height": "60 pt", "margin": "5 pt", "turned": turned}
        data["block"] = [{"what": "claim", "x": "5 pt", "y": "5 pt", "width": "90 pt", "height": "50 pt"}]
        return stock_from(data | {"sheet": SHEET | changes}, "own.toml")

    return made


def lines_of(content):
    """The lines of a page from where to where, in points from its upper left corner."""
    drawn = pypdf.PdfReader(BytesIO(content)).pages[0].get_contents().get_data()
    found = re.findall(rb"(\S+) (\S+) m (\S+) (\S+) l", drawn)
    return {(float(x), -float(y), float(to), -float(down)) for x, y, to, down in found}


def test_tags_stand_in_rows_and_columns_with_the_gaps_between_them(sheet, a_tag):
    page = PdfDocument(tag_pdf([a_tag()] * 4, sheet()))[0]
    labels = [word for word in words_on(page) if word.words == "claim"]
    places = [(word.left, 300 - word.top) for word in labels]
    assert places == [pytest.approx((left + 5, top + 5), abs=3) for top, left in itertools.product(TOPS, LEFTS)]


def test_a_cross_of_ten_points_marks_each_corner_to_be_cut(sheet, a_tag):
    corners = itertools.product((20, 120, 130, 230), (30, 90, 104, 164))
    arms = {arm for x, y in corners for arm in ((x - 5, y, x + 5, y), (x, y + 5, x, y - 5))}
    assert lines_of(tag_pdf([a_tag()] * 4, sheet())) == arms


def test_a_sheet_that_comes_cut_is_not_marked(sheet, a_tag):
    assert lines_of(tag_pdf([a_tag()], sheet(cut_marks=False))) == set()


@pytest.mark.parametrize("turned", [True, False])
def test_a_turned_sheet_is_shown_as_it_is_read(sheet, a_tag, turned):
    page = pypdf.PdfReader(BytesIO(tag_pdf([a_tag()], sheet(turned=turned)))).pages[0]
    assert (page.rotation, float(page.mediabox.width)) == ((270, 300) if turned else (0, 400))


def test_a_turned_roll_is_shown_as_it_leaves_the_printer(a_stock, a_tag):
    assert pypdf.PdfReader(BytesIO(tag_pdf([a_tag()], a_stock("roll-62mm")))).pages[0].rotation == 0


@pytest.mark.parametrize(("side", "just", "too_small"), [("width", "229.99", "229.98"), ("height", "163.99", "163.98")])
def test_tags_a_hundredth_of_a_point_larger_than_their_sheet_fit_it(sheet, side, just, too_small):
    assert sheet(**{side: f"{just} pt"}).sheet
    with pytest.raises(BadInput, match="2 rows of 2 tags do not fit"):
        sheet(**{side: f"{too_small} pt"})
