from __future__ import annotations

from io import BytesIO

import pytest
from inked import words_on
from pypdf import PdfReader
from pypdfium2 import PdfDocument
from reportlab.platypus import PageBreak

from claimpack.errors import BadInput
from claimpack.printing.document import Titles, body_width, document
from claimpack.printing.lettering import page_text, style
from claimpack.printing.papers import PAPERS, page_of
from claimpack.printing.tables import box_to_tick, ruled

TITLES = Titles("A letter", "Quarry Road", "Quarry Road")


def made(*pieces, titles=TITLES, paper="letter"):
    return document(lambda: list(pieces), PAPERS[paper], titles)


def read(pdf):
    return PdfReader(BytesIO(pdf))


def said(*pieces, **how):
    return [" ".join(page.extract_text().split()) for page in read(made(*pieces, **how)).pages]


@pytest.mark.parametrize("name", ["a4", "A4"])
def test_a_paper_is_known_in_any_case(name):
    assert page_of(name) == pytest.approx((210 / 25.4 * 72, 297 / 25.4 * 72), abs=0.001)


@pytest.mark.parametrize("name", ["", "a5", "letter "])
def test_a_paper_that_is_none_names_those_there_are(name):
    with pytest.raises(BadInput) as caught:
        page_of(name)
    assert caught.value.do == "Choose one of: letter, a4, legal."


@pytest.mark.parametrize("content", ["<b>bold</b> & <img src='x'/> &lt;", "100 % <br/> ]]> <!-- -->"])
def test_markup_is_printed_as_it_was_typed(content):
    assert content in said(page_text(content))[0]


def test_a_line_end_ends_the_line():
    lines = read(made(page_text("18 Quarry Road\nAshby"))).pages[0].extract_text().splitlines()
    assert {"18 Quarry Road", "Ashby"} <= {line.strip() for line in lines}


def test_what_no_typeface_has_is_printed_by_its_name():
    assert "[Thai]" in said(page_text("ไทย"))[0]


def test_an_empty_document_has_a_page_that_says_which_of_how_many():
    assert said(page_text("")) == ["Quarry Road page 1 of 1"]


def test_every_page_says_which_of_how_many_it_is():
    found = said(page_text("one"), PageBreak(), page_text("two"), PageBreak(), page_text("three"))
    assert [f"page {number} of 3" in page for number, page in enumerate(found, start=1)] == [True] * 3


def test_a_name_too_long_for_the_foot_is_cut_before_the_number_of_the_page():
    foot = said(page_text("x"), titles=TITLES._replace(foot="Quarry Road Small Engine " * 12))[0]
    assert "Engine Quarry Road Small En… page 1 of 1" in foot


def test_the_same_pieces_give_the_same_bytes():
    assert made(page_text("one")) == made(page_text("one"))


def test_a_file_is_known_by_what_it_holds_and_not_by_the_hour():
    one, other = (read(made(page_text(said))).trailer["/ID"] for said in ("one", "two"))
    assert one != other


def test_a_document_says_its_title_and_whose_it_is():
    facts = read(made(page_text("x"), titles=Titles("<Slip> & é", "", ""))).metadata
    assert (facts.title, facts.author) == ("<Slip> & é", "claimpack")


def test_titles_are_repeated_on_every_page():
    rows = [[page_text("Code"), page_text("Part")]] + [[page_text(f"{row}"), box_to_tick()] for row in range(80)]
    found = said(ruled(rows, [200.0, 200.0], titled=1))
    assert (len(found) > 1, all("Code Part" in page for page in found)) == (True, True)


def test_a_word_longer_than_a_line_is_broken_and_whole():
    found = "".join(said(page_text("x" * 300))[0].split()).removeprefix("QuarryRoadpage1of1")
    assert found == "x" * 300


def test_a_style_is_made_once():
    assert style("code", right=True, page=True) is style("code", right=True, page=True)


def test_text_runs_between_the_margins():
    assert body_width(PAPERS["letter"]) == 612 - 60 - 60 - 12


@pytest.mark.parametrize(("margin", "up"), [(60.0, 30), (50.0, 25), (36.0, 22)])
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_foot_stands_under_the_text_from_where_it_begins_to_where_it_may_end(paper, margin, up):
    page = PdfDocument(document(lambda: [page_text("Here we are. " * 50)], PAPERS[paper], TITLES, margin))[0]
    words = words_on(page)
    text = [one for one in words if "Here we" in one.words]
    shop, number = (next(one for one in words if said in one.words) for said in ("Quarry", "page 1 of 1"))
    assert shop.left == pytest.approx(margin + 6, abs=1)
    assert min(one.left for one in text) == pytest.approx(margin + 6, abs=1)
    assert number.right == pytest.approx(PAPERS[paper][0] - margin - 6, abs=2)
    assert (shop.bottom, number.bottom) == pytest.approx((up - 1.8, up - 1.8), abs=0.8)
    assert max(one.top for one in text) == pytest.approx(PAPERS[paper][1] - margin, abs=6)


def test_a_page_of_narrow_margins_ends_clear_of_its_foot():
    page = PdfDocument(document(lambda: [page_text("line\n" * 200)], PAPERS["letter"], TITLES, 20.0))[0]
    assert 40 < min(one.bottom for one in words_on(page) if one.words == "line") < 65
