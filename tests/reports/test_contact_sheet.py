import io

import pytest
from claim_folders import picture
from PIL import Image
from printed import overprinted, page_texts

from claimpack.printing.papers import PAPERS
from claimpack.reports.contact_sheet import (
    SheetPicture,
    SheetTitles,
    cells,
    contact_sheet_pdf,
    contact_sheet_png,
    grid_for,
)

ASKED = ("serial plate", "whole unit")
TITLES = SheetTitles("Claim 26-0001", "Halden CS-70", "Quarry Road", "Quarry Road")
LETTER = PAPERS["letter"]


def shown(number, shot, **changes):
    taken = SheetPicture(number, shot, f"photos/{number}.jpg", "2026-02-05 09:12", "", picture(160, 120), 160, 120)
    return taken._replace(**changes)


def places(*pictures):
    return [(cell.title, cell.picture.number if cell.picture else None) for cell in cells(pictures, ASKED)]


def pages(*pictures):
    return page_texts(contact_sheet_pdf(cells(pictures, ASKED), TITLES, LETTER))


def test_shots_stand_in_the_order_of_the_plan_and_gaps_stay_empty():
    assert places(shown(1, "damage"), shown(2, "Whole unit")) == [
        ("serial plate", None),
        ("whole unit", 2),
        ("damage", 1),
    ]


def test_every_picture_of_a_shot_stands_there():
    assert places(shown(1, "serial plate"), shown(2, "serial plate"))[:2] == [("serial plate", 1), ("serial plate", 2)]


def test_a_picture_without_a_shot_is_shown_and_told():
    assert places(shown(1, ""))[-1] == ("no shot named", 1)


def test_the_pdf_tells_number_file_time_and_doubt():
    said = pages(shown(3, "serial plate", doubt="is too dark"))[0]
    wanted = ("3 serial plate", "photos/3.jpg", "2026-02-05 09:12 · is too dark", "whole unit missing", "page 1 of 1")
    assert [word for word in wanted if word not in said] == []


def test_many_pictures_go_on_overleaf():
    found = pages(*(shown(number, "") for number in range(1, 30)))
    assert (len(found), f"page {len(found)} of {len(found)}" in found[-1]) == (3, True)


def test_the_same_pictures_give_the_same_bytes():
    placed = cells([shown(1, "")], ASKED)
    assert contact_sheet_pdf(placed, TITLES, LETTER) == contact_sheet_pdf(placed, TITLES, LETTER)


def test_the_png_shows_the_picture_and_an_empty_frame():
    placed = cells([shown(1, "serial plate", jpeg=picture(160, 120, (200, 0, 0)))], ASKED)
    sheet = Image.open(io.BytesIO(contact_sheet_png(placed, TITLES, LETTER)))
    red = [place for place in (250, 800) if sheet.getpixel((300, place))[0] > 150 > sheet.getpixel((300, place))[1]]
    assert (sheet.size, red) == ((935, 1210), [250])


@pytest.mark.parametrize(("count", "columns"), [(1, 1), (4, 2), (6, 2), (7, 3), (9, 3), (30, 3)])
def test_few_pictures_are_as_large_as_the_page_allows(count, columns):
    found = grid_for(count, LETTER)
    assert (found[0], found[1] > 160) == (columns, True)


def test_no_words_of_a_sheet_stand_on_others():
    pictures = [shown(number, "damage", file=f"photos/{number}{'-long' * 20}.jpg") for number in range(1, 14)]
    assert overprinted(contact_sheet_pdf(cells(pictures, ASKED), TITLES, LETTER)) == []
