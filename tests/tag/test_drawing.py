from __future__ import annotations

import pytest
from PIL import ImageFont, ImageOps

from claimpack.printing.typeface import BOLD, typeface_file
from claimpack.tag.barcodes import qr_modules
from claimpack.tag.draw import tag_picture
from claimpack.tag.drawing import Area, Drawing, Text, letters, width_of
from claimpack.tag.stock import stock_from


def test_an_area_is_cut_from_above_and_from_the_left():
    area = Area(10, 20, 100, 50)
    assert (area.below(8).y, area.below(8).bottom) == (28, 70)
    assert (area.after(30).x, area.after(30).right) == (40, 110)
    assert area.inset(5, 3) == Area(15, 23, 90, 44)


def test_a_text_is_as_wide_as_another_reader_of_the_typeface_says():
    font = ImageFont.truetype(typeface_file(BOLD), 1000, layout_engine=ImageFont.Layout.BASIC)
    assert width_of("26-0041", BOLD, 1000) == pytest.approx(font.getlength("26-0041"), abs=2)


def test_each_character_begins_where_the_one_before_it_ends():
    places = letters(Text(10, 40, "AB", BOLD, 12, white=False))
    assert [(one.x, one.y) for one in places] == [(10, 40), (pytest.approx(10 + width_of("A", BOLD, 12)), 40)]


def test_barcode_cells_begin_on_a_whole_dot():
    drawing = Drawing(100, 100, 0.5)
    drawing.cells(10.2, 10.3, ((0, 0, 2, 2),), "26-0001/1")
    assert (drawing.marks[0].x, drawing.marks[0].y) == (10, 10.5)


def test_a_note_is_taken_once():
    drawing = Drawing(100, 100, 0.5)
    for _ in range(2):
        drawing.note("try one first")
    assert drawing.notes == ["try one first"]


def test_a_frame_lies_inside_its_area_along_every_edge():
    drawing = Drawing(100, 100, 0.5)
    drawing.frame(Area(10, 20, 30, 40), 2)
    edges = {(mark.x, mark.y, mark.right, mark.bottom) for mark in drawing.marks}
    assert edges == {(10, 20, 40, 22), (10, 58, 40, 60), (10, 20, 12, 60), (38, 20, 40, 60)}


def test_a_polygon_is_black_unless_it_is_to_be_white():
    drawing = Drawing(100, 100, 0.5)
    drawing.polygon((0, 0), (1, 0), (1, 1))
    drawing.polygon((0, 0), (1, 0), (1, 1), white=True)
    assert [mark.white for mark in drawing.marks] == [False, True]


def test_in_a_picture_an_area_covers_its_dots_and_no_more(stock_data, a_tag):
    band = {"what": "band", "x": "20 pt", "y": "30 pt", "width": "100 pt", "height": "20 pt"}
    stock = stock_from(stock_data("label-4x6") | {"block": [band]}, "own.toml")
    black = ImageOps.invert(tag_picture(a_tag(), stock, 203).convert("L"))
    assert black.getbbox() == tuple(round(edge / 72 * 203) for edge in (20, 30, 120, 50))


def test_in_a_picture_a_code_covers_the_dots_of_its_modules_and_no_more(stock_data, a_tag):
    qr = {"what": "qr", "x": "20 pt", "y": "30 pt", "width": "90 pt", "height": "90 pt", "module": "0.5 mm"}
    stock = stock_from(stock_data("label-4x6") | {"block": [qr]}, "own.toml")
    left, top, right, bottom = ImageOps.invert(tag_picture(a_tag(), stock, 203).convert("L")).getbbox()
    # half a millimetre is four dots of a printer that has eight in one
    assert (right - left, bottom - top) == (4 * len(qr_modules(a_tag().code)),) * 2
