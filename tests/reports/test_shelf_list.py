from datetime import date
from functools import cache

import pypdfium2
import pytest
import zxingcpp
from inked import words_on
from printed import overprinted, page_texts

from claimpack.printing.papers import PAPERS
from claimpack.reports.shelf_list import ShelfLine, shelf_list_pdf

LINE = ShelfLine("B3", "26-0001/1", "short block", "halden CS-70", "held", "2026-04-02")


@cache
def pages(*lines, shop="Quarry Road"):
    return page_texts(shelf_list_pdf(lines, shop, date(2026, 3, 20), PAPERS["letter"]))


def test_a_part_is_listed_with_all_that_is_told_of_it():
    said = pages(LINE)[0]
    assert [word for word in LINE if word not in said] == []


def test_shelves_stand_in_the_order_of_the_alphabet():
    said = pages(LINE, LINE._replace(shelf="a1", code="26-0002/1"))[0]
    assert said.index("Shelf a1") < said.index("26-0002/1") < said.index("Shelf B3")


def test_a_part_on_no_shelf_is_listed_first():
    said = pages(LINE, LINE._replace(shelf="", code="26-0002/1"))[0]
    assert said.index("On no shelf") < said.index("Shelf B3")


def test_a_long_shelf_goes_on_overleaf_under_its_titles():
    found = pages(*(LINE._replace(code=f"26-{number:04}/1") for number in range(60)))
    assert len(found) > 1
    assert all("Shelf B3 Code Part Unit State Until" in page for page in found)
    assert sum(page.count("short block") for page in found) == 60


def test_a_short_shelf_is_not_torn():
    shelves = [LINE._replace(shelf=f"{shelf}", code=f"26-{shelf}{part}/1") for shelf in "ABCDEFG" for part in range(5)]
    found = pages(*shelves)
    assert all(
        sum(f"26-{shelf}{part}/1" in page for part in range(5)) in (0, 5) for shelf in "ABCDEFG" for page in found
    )


def test_every_page_says_which_of_how_many_it_is():
    found = pages(*(LINE._replace(code=f"26-{number:04}/1") for number in range(60)))
    assert all(f"page {place} of {len(found)}" in page for place, page in enumerate(found, 1))


def test_an_empty_shop_says_so():
    assert "No part" in pages(shop="")[0]


def test_text_is_printed_as_it_is():
    assert "<b>block</b> & Żółć" in pages(LINE._replace(part="<b>block</b> & Żółć"))[0]


def test_eleven_parts_on_as_many_shelves_stand_on_one_page():
    assert len(pages(*(LINE._replace(shelf=f"B{n}", code=f"26-{n:04}/1") for n in range(11)))) == 1


def test_every_part_has_its_code_for_a_telephone():
    content = shelf_list_pdf([LINE, LINE._replace(code="26-0002/1")], "", date(2026, 3, 20), PAPERS["letter"])
    found = zxingcpp.read_barcodes(pypdfium2.PdfDocument(content)[0].render(scale=4).to_pil())
    assert {code.text for code in found} == {"26-0001/1", "26-0002/1"}


def test_no_words_of_a_list_stand_on_others():
    lines = [LINE._replace(code=f"26-{place:04}/1", part="a part of many words " * 9) for place in range(40)]
    assert overprinted(shelf_list_pdf(lines, "Quarry Road", date(2026, 3, 20), PAPERS["letter"])) == []


@pytest.mark.parametrize(("parts", "named"), [(5, 1), (6, 2)])
def test_columns_are_named_once_a_page_for_shelves_of_five_parts_and_for_each_that_has_more(parts, named):
    lines = [LINE._replace(shelf=shelf, code=f"26-{shelf}{part}/1") for shelf in "AB" for part in range(parts)]
    assert pages(*lines)[0].count("Code Part Unit State Until") == named


@pytest.mark.parametrize(
    ("state", "stands_out"),
    [("held", False), ("better kept", False), ("called back", True), ("may go", True), ("released", True)],
)
def test_a_part_that_somebody_has_to_take_off_the_shelf_stands_out(state, stands_out):
    content = shelf_list_pdf([LINE._replace(state=state)], "", date(2026, 3, 20), PAPERS["letter"])
    (said,) = [word for word in words_on(pypdfium2.PdfDocument(content)[0]) if word.words == state]
    assert said.face.endswith("Bold") == stands_out
