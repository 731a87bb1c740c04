from __future__ import annotations

import io

import pytest
from pypdf import PdfReader
from reportlab.lib.enums import TA_LEFT, TA_RIGHT

from claimpack.printing.kept.reading_order import ReadableCanvas
from claimpack.printing.lettering import (
    escaped,
    leading_to,
    marked_up,
    page_text,
    shortened,
    style,
    text,
    under_points,
    width_of,
)
from claimpack.printing.typeface import REGULAR


@pytest.mark.parametrize(
    ("content", "markup"),
    [
        ("<b>&amp;</b>", "&lt;b&gt;&amp;amp;&lt;/b&gt;"),
        ("one\ntwo", "one<br/>two"),
        ("a\tb", "a\u00a0\u00a0\u00a0\u00a0b"),
        ("  deep", "\u00a0\u00a0deep"),
        ("ไทย", "[Thai]"),
    ],
    ids=["markup", "line break", "tab", "indent", "no typeface"],
)
def test_text_becomes_markup_that_prints_it_literally(content, markup):
    assert escaped(content) == markup


@pytest.mark.parametrize("spare", [0, 1, 80])
def test_a_line_that_fits_is_left_alone(spare):
    assert shortened("short", REGULAR, 8, width_of("short", REGULAR, 8) + spare) == "short"


@pytest.mark.parametrize("room", [12, 40, 90])
def test_a_line_too_long_is_cut_to_its_room_and_marked(room):
    cut = shortened("a line that goes on and on and on", REGULAR, 8, room)
    assert cut.endswith("…")
    assert width_of(cut, REGULAR, 8) <= room


@pytest.mark.parametrize("numbers", [["42", "0.2", "0.01"], ["1,240.5", "300"], ["over range", "7.25"]])
def test_decimal_points_stand_under_each_other(numbers):
    def to_the_point(number, piece):
        _, dot, tail = number.partition(".")
        return piece.style.rightIndent + width_of(dot + tail, piece.style.fontName, piece.style.fontSize)

    places = {round(to_the_point(*each), 6) for each in zip(numbers, under_points(numbers, "cell"), strict=True)}
    assert len(places) == 1


@pytest.mark.parametrize("set_as", [text, page_text])
def test_a_line_holds_no_more_than_95_characters(set_as):
    said = (
        "Four teeth of the drive gear broken out. Grease in place, seal whole: no water, no lack of service. "
        "Electric blade clutch: winding burnt, resistance far below its limit. Clutch gap in order, pulley turns "
        "freely. If the payment is on its way already, please take this letter as settled, with our thanks. "
    )
    paragraph = set_as(said * 4)
    paragraph.wrap(600, 10_000)
    lengths = [len(" ".join(words)) for _, words in paragraph.blPara.lines]
    assert 75 <= max(lengths) <= 95


def test_a_paragraph_asked_for_another_width_breaks_its_lines_anew():
    paragraph = text("one two three four five six seven eight nine ten")
    broad, narrow = (paragraph.wrap(width, 1000)[1] for width in (300, 60))
    assert narrow > broad
    assert paragraph.wrap(300, 1000)[1] == broad


@pytest.mark.parametrize(("set_as", "sizes"), [(text, (9.5, 8.5, 7.5)), (page_text, (10.5, 9.5, 8))])
def test_a_packet_is_set_smaller_than_letters_and_lists(set_as, sizes):
    assert tuple(set_as("x", name).style.fontSize for name in ("body", "cell", "small")) == sizes


def test_figures_under_each_other_are_set_flush_right():
    assert {piece.style.alignment for piece in under_points(["42", "0.2"], "cell")} == {TA_RIGHT}


@pytest.mark.parametrize(("where", "links"), [("", 0), ("mailto:desk@example.com", 1)])
def test_words_that_lead_elsewhere_are_a_link_that_says_so(where, links):
    written = io.BytesIO()
    canvas = ReadableCanvas(written)
    paragraph = leading_to(where, text("desk@example.com <b>"))
    paragraph.wrap(300, 100)
    paragraph.drawOn(canvas, 0, 0)
    canvas.showPage()
    canvas.save()
    page = PdfReader(written).pages[0]
    assert [note.get_object()["/Contents"] for note in page.get("/Annots", [])] == ["desk@example.com <b>"] * links
    assert [part.role for part in canvas.document.holds] == ["P"]


HEBREW = "\N{HEBREW LETTER SHIN}\N{HEBREW LETTER LAMED}\N{HEBREW LETTER VAV}\N{HEBREW LETTER FINAL MEM}"


@pytest.mark.parametrize(("said", "side"), [(HEBREW, TA_LEFT), (f"{HEBREW} " * 40, TA_RIGHT), (HEBREW * 40, TA_RIGHT)])
def test_lines_that_run_to_the_left_are_set_flush_right_where_there_are_several(said, side):
    paragraph = text(said)
    paragraph.wrap(120, 1000)
    assert paragraph.style.alignment == side
    assert (len(paragraph.blPara.lines) > 2) == (side == TA_RIGHT)


def test_a_line_that_runs_to_the_left_and_just_fits_stays_one():
    paragraph = text(HEBREW)
    paragraph.wrap(width_of(HEBREW, REGULAR, 9.5), 1000)
    assert len(paragraph.blPara.lines) == 1


@pytest.mark.parametrize("is_page", [False, True])
def test_text_is_set_flush_left_unless_it_is_to_be_flush_right(is_page):
    set_as = page_text if is_page else text
    sides = [set_as("x").style, set_as("x", right=True).style, style("body", page=is_page), marked_up("<b>x</b>").style]
    assert [each.alignment for each in sides] == [TA_LEFT, TA_RIGHT, TA_LEFT, TA_LEFT]
