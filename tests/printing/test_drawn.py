from __future__ import annotations

import io

import pytest
from inked import ink_on, page_of
from printed import page_texts
from pypdf import PdfReader
from reportlab.platypus import SimpleDocTemplate

from claimpack.printing.drawn import DrawnPiece, bookmark, drawn, gap, next_page, opening, section, subsection
from claimpack.printing.lettering import text
from claimpack.printing.tables import TableColumn, grid, ruled_table


def made(*pieces) -> bytes:
    stream = io.BytesIO()
    SimpleDocTemplate(stream, pagesize=(400, 400), leftMargin=50, rightMargin=50, topMargin=50, bottomMargin=50).build(
        list(pieces)
    )
    return stream.getvalue()


def printed(*pieces) -> list[str]:
    return page_texts(made(*pieces))


def nothing(canvas, width, height):
    """Leave no ink."""


def test_a_section_begins_on_the_page_of_its_first_lines():
    pages = printed(drawn(280, 250, nothing), *section("key", "Heading", 280, [text("First line.")]))
    assert pages == ["", "Heading First line."]


def test_a_section_begins_where_it_stands_when_there_is_room():
    pages = printed(drawn(280, 150, nothing), *section("key", "Heading", 280, [text("First line.")]))
    assert pages == ["Heading First line."]


def test_a_section_waits_for_room_for_what_it_is_told_to_keep_together():
    tall = drawn(280, 200, nothing)
    pages = printed(drawn(280, 90, nothing), *section("key", "Heading", 280, [gap(1), tall], first=200))
    assert pages == ["", "Heading"]


def test_a_smaller_heading_stays_with_the_first_row_of_its_table():
    table = ruled_table([TableColumn("What", 1)], [["one " * 150], ["two"]], 280)
    pages = printed(drawn(280, 200, nothing), *subsection("Smaller", 280, [table]))
    assert pages[1].startswith("Smaller What one")


def test_a_gap_at_the_end_of_a_page_does_not_go_on_overleaf():
    pages = printed(drawn(280, 270, nothing), gap(40))
    assert len(pages) == 1


def test_a_gap_after_a_full_page_leaves_the_next_one_alone():
    pages = printed(drawn(280, 287.9, nothing), gap(250), text("two"), drawn(280, 200, nothing))
    assert pages == ["", "two"]


def test_a_long_table_opens_with_its_titles_and_two_rows():
    table = ruled_table([TableColumn("What", 1)], [["one"]] * 20, 280)
    assert opening(table, 280) < table.wrap(280, 1000)[1] / 5


def test_a_short_table_is_kept_whole():
    table = ruled_table([TableColumn("What", 1)], [["one"], ["two"], ["three"]], 280)
    assert opening(table, 280) == table.wrap(280, 1000)[1]


def test_a_section_begins_on_the_page_of_the_first_smaller_heading_in_it():
    body = subsection("Smaller", 280, [ruled_table([TableColumn("What", 1)], [["one"], ["two"], ["three"]], 280)])
    pages = printed(drawn(280, 225, nothing), *section("key", "Heading", 280, body))
    assert pages[1].startswith("Heading Smaller What one")


def test_a_piece_without_height_leaves_no_ink():
    called = []
    printed(text("x"), DrawnPiece(lambda _width, _height: (0, 0), lambda *_: called.append(1)))
    assert called == []


def test_under_a_heading_runs_a_rule_that_begins_with_a_bar():
    rule = section("key", "Heading", 280, [text("First line.")])[3]
    edges = [(one.left, one.bottom, one.right, one.top) for one in ink_on(page_of(rule, 280))]
    assert edges == [pytest.approx((0, 1, 36, 3), abs=0.01), pytest.approx((36, 1, 280, 1.5), abs=0.01)]


@pytest.mark.parametrize(("rows", "is_kept"), [(8, True), (9, False)])
def test_a_table_of_up_to_two_inches_is_kept_whole_and_of_a_taller_one_titles_and_two_rows(rows, is_kept):
    table = ruled_table([TableColumn("What", 1)], [["one"]] * rows, 280)
    few = ruled_table([TableColumn("What", 1)], [["one"]] * 2, 280)
    assert opening(table, 280) == pytest.approx((table if is_kept else few).wrap(280, 1000)[1])


@pytest.mark.parametrize(("height", "kept"), [(37.5, 150), (38, 76)])
def test_a_table_of_just_150_points_is_kept_whole_and_of_a_taller_one_two_rows(height, kept):
    assert opening(grid([[text("one")]] * 4, [280], [], height=height), 280) == kept


def test_a_text_needs_an_inch_and_a_drawing_all_of_itself():
    assert opening(text("line\n" * 40), 280) == 72
    assert opening(text("line"), 280) == 13
    assert opening(drawn(280, 200, nothing), 280) == 200


def test_what_stands_below_a_section_in_the_outline_is_shown_on_opening():
    pieces = bookmark("windows", "Windows"), bookmark("engine", "Engine", 1), text("Twelve months.")
    outline = PdfReader(io.BytesIO(made(*pieces))).root_object["/Outlines"]
    assert (outline["/First"]["/Title"], outline["/First"]["/Count"]) == ("Windows", 1)


@pytest.mark.parametrize("height", [100, 288])
def test_a_page_ends_where_it_is_told_however_full_it_is(height):
    assert printed(drawn(280, height, nothing), next_page(), text("two")) == ["", "two"]


@pytest.mark.parametrize("height", [100, 288])
def test_a_place_in_the_outline_is_on_its_page_however_full_it_is(height):
    read = PdfReader(io.BytesIO(made(drawn(280, height, nothing), bookmark("end", "End"))))
    assert (len(read.pages), [read.get_destination_page_number(one) for one in read.outline]) == (1, [0])
