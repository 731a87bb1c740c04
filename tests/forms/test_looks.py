from __future__ import annotations

from dataclasses import replace

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name, String

from claimpack.forms.fields import FormField, PdfField
from claimpack.forms.looks import look_of, look_of_place
from claimpack.forms.writings import PageArea, Writing
from claimpack.printing.typeface import BOLD, MONO, REGULAR


def look(widget=(), form=(), writing=None, **told):
    """How a field 100 wide and 20 high looks, with what its widget and its form say."""
    pdf = pikepdf.new()
    pdf.Root.AcroForm = Dictionary({"/Fields": Array(), **dict(form)})
    thing = Dictionary({"/FT": Name.Tx, "/Rect": Array([10, 20, 110, 40]), **dict(widget)})
    field = PdfField(FormField("f", "text", 1, **told), thing, (thing,))
    return look_of(pdf, field, thing, writing or Writing("f"))


def shown_as(said):
    return {"/DA": String(said)}


@pytest.mark.parametrize("rect", [(10, 20, 110, 40), (110, 40, 10, 20), (-50, -10, 50, 10)])
def test_a_field_is_as_large_as_its_rectangle_whichever_corners_it_names(rect):
    found = look({"/Rect": Array(rect)})
    assert (found.width, found.height) == (100, 20)


@pytest.mark.parametrize(("turned", "size"), [(90, (20, 100)), (180, (100, 20)), (270, (20, 100)), (450, (20, 100))])
def test_a_turned_field_is_as_wide_as_its_rectangle_is_high(turned, size):
    found = look({"/MK": Dictionary(R=turned)})
    assert (found.width, found.height, found.turned) == (*size, turned % 360)


@pytest.mark.parametrize(
    ("name", "face"),
    [
        *(("CoBo", MONO), ("CourierNew", MONO), ("DejaVuMono", MONO), ("Cour", MONO), ("MyCourier", MONO)),
        *(("HeBo", BOLD), ("TiBo", BOLD), ("Arial-Bold", BOLD), ("Helv", REGULAR), ("TiRo", REGULAR)),
    ],
)
def test_the_nearest_typeface_is_taken(name, face):
    assert look(shown_as(f"/{name} 9 Tf 0 g")).face == face


def test_a_field_may_leave_its_type_to_the_form():
    of_form = shown_as("/CoBo 8 Tf 1 0 0 rg") | {"/Q": 2}
    left_to_it, own = look(form=of_form), look(shown_as("/HeBo 9 Tf 0 g") | {"/Q": 0}, of_form)
    assert (left_to_it.face, left_to_it.size, left_to_it.ink, left_to_it.align) == (MONO, 8, (1, 0, 0), "right")
    assert (own.face, own.size, own.ink, own.align) == (BOLD, 9, (0,), "left")


def test_where_nobody_says_anything_text_is_black_from_the_left_without_a_frame():
    found = look()
    assert (found.face, found.size, found.ink, found.align) == (REGULAR, 0, (0,), "left")
    assert (found.fill, found.rule, found.border) == ((), (), 0)


@pytest.mark.parametrize(("said", "size"), [("9", 9), ("-9", 9), ("0", 0), ("72", 72), ("400", 72)])
def test_type_has_the_size_of_its_field_up_to_an_inch(said, size):
    assert look(shown_as(f"/Helv {said} Tf")).size == size


def test_what_the_mapping_says_goes_before_the_field():
    found = look(shown_as("/Helv 9 Tf") | {"/Q": 2}, writing=Writing("f", align="centre", size=7))
    assert (found.size, found.align) == (7, "centre")


@pytest.mark.parametrize(("across", "align"), [(0, "left"), (1, "centre"), (2, "right"), (3, "left"), (-1, "left")])
def test_text_stands_where_its_field_says(across, align):
    assert look({"/Q": across}).align == align


@pytest.mark.parametrize(
    ("said", "ink"), [("0.5 g", (0.5,)), ("1 0 0 rg", (1, 0, 0)), ("0 1 1 0 k", (0, 1, 1, 0)), ("9 g", (1,))]
)
def test_text_has_the_colour_of_its_field(said, ink):
    assert look(shown_as(f"/Helv 9 Tf {said}")).ink == ink


def test_ground_and_rule_are_the_fields_and_a_rule_without_a_width_is_a_point_wide():
    marks = Dictionary(BG=Array([0.9, 2, -1]), BC=Array([0]))
    found, wide = look({"/MK": marks}), look({"/MK": marks, "/BS": Dictionary(W=3)})
    assert (found.fill, found.rule, found.border, wide.border) == ((0.9, 1, 0), (0,), 1, 3)


@pytest.mark.parametrize(("comb", "boxes"), [(True, 9), (False, 0)])
def test_a_comb_has_a_box_for_each_of_its_most_characters(comb, boxes):
    assert look(most=9, comb=comb).comb == boxes


def test_a_place_on_a_page_is_written_on_in_a_line_from_the_left_unless_told_otherwise():
    place = PageArea(1, 10, 10, 80, 20, comb=4)
    plain, told = (look_of_place(place, Writing("f", align=align)) for align in ("", "right"))
    assert (plain.align, told.align, plain.width, plain.height, plain.comb) == ("left", "right", 80, 20, 4)
    assert (plain.lines, look_of_place(replace(place, lines=True), Writing("f")).lines) == (False, True)
