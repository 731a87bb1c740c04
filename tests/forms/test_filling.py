from __future__ import annotations

import io

import pikepdf
import pytest
from made_forms import (
    a_form,
    changed,
    filled,
    ink,
    one_field,
    pixels,
    refusal,
    text_field,
    values,
    without_fields,
)
from pikepdf import Array, Dictionary, Name
from pypdf import PdfReader

from claimpack.forms.filling import fill, filled_here
from claimpack.forms.writings import PageArea, Writing
from claimpack.printing.typeface import not_printed

OWNER = Writing("owner", "Marrow Lane")


def test_a_value_is_in_its_field_and_on_the_page():
    made = filled(one_field(), OWNER)
    assert (values(made), ink(one_field(), 50, 80, 200, 20)) == ({"owner": "Marrow Lane"}, None)
    assert ink(made, 50, 80, 200, 20)[0] == pytest.approx(2.5, abs=1)


def test_every_character_of_a_comb_has_ink_in_its_box_and_none_on_the_lines_between():
    made = filled(one_field(maxlen=10, fieldFlags="comb"), Writing("owner", "8080808080"))
    boxes = [ink(made, 50 + 20 * place, 80, 20, 20) for place in range(10)]
    assert {tuple(box) for box in boxes} == {boxes[0], boxes[1]}
    assert all(5 < left < right < 15 for left, right in boxes)


def test_amounts_end_at_the_right_edge():
    made = filled(one_field(), Writing("owner", "147.20", align="right"))
    assert ink(made, 50, 80, 200, 20)[1] == pytest.approx(198, abs=1)


def test_nothing_is_left_to_the_reader_to_draw():
    def act(pdf):
        pdf.Root.AcroForm.NeedAppearances = True

    with pikepdf.open(io.BytesIO(filled(changed(one_field(), act), OWNER))) as pdf:
        assert "/NeedAppearances" not in pdf.Root.AcroForm


def test_the_same_input_gives_the_same_bytes():
    assert filled(one_field(), OWNER) == filled(one_field(), OWNER)


@pytest.mark.parametrize("form", [one_field(), one_field().replace(b"/ID", b"/IX")], ids=["with an ID", "without"])
def test_a_filled_form_is_taken_by_its_id_neither_for_the_makers_nor_for_one_of_other_words(form):
    made = [form, filled(form, OWNER), filled(form, Writing("owner", "Ann"))]
    # ISO 32000-1, 14.4: the first of the two stays with a file whatever is changed in it
    assert len({str(PdfReader(io.BytesIO(content)).trailer.get("/ID", [""])[0]) for content in made}) == 3


def test_what_a_person_wrote_is_drawn_as_it_is_in_any_letters():
    made = filled(one_field(), Writing("owner", "Ærøskøbing (Ö) \\ <b>"))
    assert values(made) == {"owner": "Ærøskøbing (Ö) \\ <b>"}


def test_scripts_and_xfa_of_a_form_are_left_out():
    script = Dictionary(S=Name.JavaScript, JS="app.alert(1)")

    def act(pdf):
        pdf.Root.OpenAction = script
        pdf.Root.AcroForm.XFA = pdf.make_stream(b"<xdp/>")
        pdf.Root.AcroForm.Fields[0].AA = Dictionary(C=script)

    made = filled(changed(one_field(), act), OWNER)
    assert b"app.alert" not in changed(made, lambda _: None, object_stream_mode=pikepdf.ObjectStreamMode.disable)
    with pikepdf.open(io.BytesIO(made)) as pdf:
        assert ("/OpenAction" in pdf.Root, "/XFA" in pdf.Root.AcroForm) == (False, False)


def test_every_further_sheet_has_fields_of_its_own():
    made = fill(one_field(), "form.pdf", ((OWNER,), (Writing("owner", "Ann"),))).pdf
    assert values(made) == {"owner": "Marrow Lane", "owner (sheet 2)": "Ann"}
    assert ink(made, 50, 80, 200, 20, page=1) != ink(made, 50, 80, 200, 20)


def test_a_box_is_ticked_for_every_reader():
    form = a_form(lambda form: form.checkbox(name="new", x=100, y=100, size=20, buttonStyle="cross"))
    ticked, plain = (filled(form, Writing("new", tick=tick)) for tick in (True, False))
    assert (values(ticked), values(plain)) == ({"new": "/Yes"}, {"new": "/Off"})
    assert pixels(ticked).sum() > pixels(plain).sum()


def test_a_box_without_a_look_of_its_own_gets_a_cross():
    def act(pdf):
        del pdf.Root.AcroForm.Fields[0].AP

    form = changed(a_form(lambda form: form.checkbox(name="new", x=100, y=100, size=20, borderColor=None)), act)
    assert ink(filled(form, Writing("new", tick=True)), 104, 84, 12, 12) == pytest.approx((0, 12), abs=1)
    assert ink(filled(form, Writing("new", tick=False)), 104, 84, 12, 12) is None


def test_lines_go_into_a_field_of_one_line_with_commas_between():
    assert values(filled(one_field(), Writing("owner", "8 Marrow Lane\nAshby"))) == {"owner": "8 Marrow Lane, Ashby"}


def test_text_too_long_for_its_room_is_told():
    told = filled_here(one_field(), "form.pdf", ((Writing("owner", "long " * 99),),)).notes
    assert told == ("owner: the text is longer than the form has room for; it ends in …",)


def test_several_lines_of_too_many_characters_end_in_a_mark_and_are_told():
    made = filled_here(one_field(maxlen=8, fieldFlags="multiline"), "form.pdf", ((Writing("owner", "Piston seized"),),))
    assert (values(made.pdf), len(made.notes)) == ({"owner": "Piston…"}, 1)


def test_a_field_that_the_form_asks_for_and_nobody_fills_is_told():
    form = a_form(lambda form: [text_field(form, name, y, fieldFlags="required") for name, y in (("a", 20), ("b", 60))])
    told = filled_here(form, "form.pdf", ((Writing("a", "x"),),)).notes
    assert told == ("b: the form asks for it, and nothing is written there",)


def test_a_letter_without_a_typeface_is_told():
    assert filled_here(one_field(), "form.pdf", ((Writing("owner", "ไทย"),),)).notes[0] == not_printed("Thai")


@pytest.mark.parametrize(
    ("written", "says"),
    [
        (Writing("onwer", "A"), "there is no field 'onwer'. Did you mean 'owner'?"),
        (Writing("owner", "HC70-118-20417"), "field 'owner' takes 8 characters, and 'HC70-118-20417' has 14"),
        (Writing("at", "A", place=PageArea(2, 0, 0, 9, 9)), "at: there is no page 2; the form has 1"),
        (Writing("at", "A", place=PageArea(1, 290, 0, 20, 9)), "at: the place reaches over the edge of page 1"),
        (
            Writing("at", "ABC", place=PageArea(1, 0, 0, 20, 9, comb=2)),
            "at: it has 2 boxes, and 'ABC' has 3 characters",
        ),
    ],
)
def test_what_a_form_does_not_take_is_named_and_nothing_is_filled(written, says):
    assert says in refusal(one_field(maxlen=8, fieldFlags="comb"), written)


def test_everything_wrong_is_told_at_once():
    assert "2 things are wrong" in refusal(one_field(), Writing("a", "x"), Writing("b", "y"))


@pytest.mark.parametrize("turned", [0, 90, 180, 270])
def test_a_place_is_measured_on_the_page_as_it_is_read(turned):
    page = (200.0, 300.0) if turned % 180 else (300.0, 200.0)
    made = filled(without_fields(page=page, turned=turned), Writing("at", "Ann", place=PageArea(1, 200, 150, 80, 20)))
    shown = pixels(made)
    assert (shown.shape, shown.sum() == shown[300:340, 400:560].sum() > 0) == ((400, 600), True)


@pytest.mark.parametrize("turned", [90, 270])
def test_a_field_that_stands_turned_is_written_along(turned):
    def act(pdf):
        pdf.Root.AcroForm.Fields[0].MK = Dictionary(R=turned)

    upright = one_field(x=50, y=20, width=20, height=150)
    shown = pixels(filled(changed(upright, act), Writing("owner", "Marrow Lane")))
    down, across = shown.any(axis=1).sum(), shown.any(axis=0).sum()
    assert down > 3 * across > 0


@pytest.mark.parametrize("turned", [0, 90, 180, 270])
def test_a_place_is_measured_from_what_is_shown_of_the_page(turned):
    def act(pdf):
        pdf.pages[0].CropBox = Array([250, 150, 50, 20])

    form = changed(without_fields(turned=turned), act)
    shown = pixels(filled(form, Writing("at", "Ann", place=PageArea(1, 20, 20, 80, 20))))
    assert shown.sum() == shown[40:80, 40:200].sum() > 0


def test_places_stand_whatever_the_page_left_set():
    def act(pdf):
        pdf.pages[0].contents_add(b"0 0 0 0 0 0 cm")

    made = filled(changed(without_fields(), act), Writing("at", "Ann", place=PageArea(1, 20, 20, 80, 20)))
    assert ink(made, 20, 20, 80, 20)


def test_the_ground_and_frame_of_a_field_stay():
    form = a_form(lambda form: form.textfield(name="owner", x=50, y=100, width=200, height=20, borderWidth=1))
    made = filled(form, OWNER)
    assert ink(made, 49, 79, 202, 22)[1] == pytest.approx(201, abs=1.5)


@pytest.mark.parametrize("rect", [(0, 0, 0, 0), (50, 100, 250, 101), (50, 100, 51, 120)])
def test_fields_of_no_size_take_their_value_unseen(rect):
    def act(pdf):
        pdf.Root.AcroForm.Fields[0].Rect = Array(rect)

    made = filled(changed(one_field(), act), OWNER)
    assert (values(made), pixels(made, scale=8).any()) == ({"owner": "Marrow Lane"}, False)


def test_one_field_shown_twice_is_drawn_twice():
    def act(pdf):
        (field,) = pdf.Root.AcroForm.Fields
        other = pdf.make_indirect(
            Dictionary(Type=Name.Annot, Subtype=Name.Widget, Rect=[50, 20, 250, 40], Parent=field, DA=field.DA)
        )
        mine = pdf.make_indirect(
            Dictionary(Type=Name.Annot, Subtype=Name.Widget, Rect=field.Rect, Parent=field, DA=field.DA)
        )
        field.Kids = Array([mine, other])
        pdf.pages[0].Annots = Array([mine, other])

    made = filled(changed(one_field(), act), OWNER)
    first, second = (ink(made, 50, y, 200, 20) for y in (80, 160))
    assert first == second is not None


@pytest.mark.parametrize(("tick", "crossed"), [(True, True), (False, False)])
def test_a_place_is_ticked_with_a_cross_or_left_empty(tick, crossed):
    made = filled(without_fields(), Writing("new", tick=tick, place=PageArea(1, 20, 20, 20, 20)))
    assert (ink(made, 22, 22, 16, 16) is not None) is crossed
