from __future__ import annotations

import pytest
from made_forms import a_form, changed, locked, one_field, signed, text_field, without_fields, xfa_alone
from pikepdf import Array, Dictionary, Name, String

from claimpack.errors import BadInput
from claimpack.forms.fields import FormField, FormFields, fields_here, fields_of


def found(content):
    return fields_here(content, "form.pdf").fields


def refusal(content):
    with pytest.raises(BadInput) as caught:
        fields_here(content, "form.pdf")
    return caught.value.what


def test_a_text_field_tells_its_name_page_and_most_characters():
    assert found(one_field(maxlen=12)) == (FormField("owner", "text", 1, most=12),)


@pytest.mark.parametrize(
    ("flags", "told"),
    [
        ("comb", {"comb": True, "most": 9}),
        ("multiline", {"lines": True, "most": 9}),
        ("required", {"required": True, "most": 9}),
        ("comb required", {"comb": True, "required": True, "most": 9}),
        ("multiline comb", {"lines": True, "most": 9}),
    ],
)
def test_boxes_lines_and_what_must_be_filled_in_are_told(flags, told):
    assert found(one_field(maxlen=9, fieldFlags=flags)) == (FormField("owner", "text", 1, **told),)


def test_boxes_to_tick_buttons_and_lists_tell_what_they_may_be_set_to():
    def draw(form):
        form.checkbox(name="new", x=10, y=10)
        form.radio(name="use", value="Rental", x=40, y=10)
        form.radio(name="use", value="Own", x=70, y=10)
        form.choice(name="state", options=[("Good", "g"), ("Bad", "b")], value="g", x=10, y=60, width=80, height=20)

    told = {field.name: (field.kind, field.options) for field in found(a_form(draw))}
    assert told == {
        "new": ("check box", ("Yes",)),
        "use": ("radio buttons", ("Rental", "Own")),
        "state": ("drop-down", ("g", "b")),
    }


def test_names_are_told_with_those_above_them():
    def act(pdf):
        (field,) = pdf.Root.AcroForm.Fields
        above = pdf.make_indirect(Dictionary(T=String("dealer"), Kids=Array([field])))
        field.Parent = above
        pdf.Root.AcroForm.Fields = Array([above])

    assert [field.name for field in found(changed(one_field(), act))] == ["dealer.owner"]


def test_a_pdf_without_fields_has_none():
    assert fields_of(without_fields(2), "form.pdf") == FormFields((), ((300.0, 200.0),) * 2)


def test_a_page_is_measured_as_it_is_read():
    assert fields_here(without_fields(turned=90), "form.pdf").sizes == ((200.0, 300.0),)


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"GIF89a", "form.pdf is not a PDF"),
        (b"%PDF-1.7\nnothing", "form.pdf is a damaged PDF: its fields cannot be read"),
        (xfa_alone(), "form.pdf has its fields in XFA alone"),
        (locked(), "form.pdf is protected with a password"),
        (signed(), "form.pdf is signed already"),
    ],
    ids=["no PDF", "damaged", "XFA", "locked", "signed"],
)
def test_what_cannot_be_filled_is_refused_by_name(content, says):
    assert refusal(content) == says


def test_fields_that_lead_back_to_themselves_are_refused():
    def act(pdf):
        (field,) = pdf.Root.AcroForm.Fields
        above = pdf.make_indirect(Dictionary(T=String("a"), FT=Name.Tx))
        above.Kids = Array([field, above])
        pdf.Root.AcroForm.Fields = Array([above])

    assert "damaged PDF" in refusal(changed(one_field(), act))


def test_fields_written_in_the_list_itself_are_told_each():
    def act(pdf):
        two = [Dictionary(T=String(name), FT=Name.Tx) for name in ("a", "b")]
        pdf.Root.AcroForm.Fields = Array(two)
        del pdf.pages[0].Annots

    content = a_form(lambda form: text_field(form, "owner"))
    assert [field.name for field in found(changed(content, act))] == ["a", "b"]


def test_a_page_is_as_large_as_what_is_shown_of_it():
    def act(pdf):
        pdf.pages[0].CropBox = Array([50, 20, 250, 150])

    assert fields_here(changed(without_fields(), act), "form.pdf").sizes == ((200, 130),)


def test_a_form_whose_fields_hold_words_already_may_be_filled():
    assert found(one_field(value="as before")) == (FormField("owner", "text", 1),)


def test_boxes_without_a_most_number_of_characters_are_none():
    def act(pdf):
        (field,) = pdf.Root.AcroForm.Fields
        field.Ff = 1 << 24

    assert found(changed(one_field(), act)) == (FormField("owner", "text", 1),)


@pytest.mark.parametrize(("deep", "is_told"), [(16, True), (17, False)])
def test_names_nested_deeper_than_any_form_has_them_are_refused(deep, is_told):
    def act(pdf):
        (field,) = pdf.Root.AcroForm.Fields
        for _ in range(deep):
            above = pdf.make_indirect(Dictionary(T=String("a"), Kids=Array([field])))
            field.Parent, field = above, above
        pdf.Root.AcroForm.Fields = Array([field])

    content = changed(one_field(), act)
    if is_told:
        assert [field.name for field in found(content)] == ["a." * deep + "owner"]
    else:
        assert "damaged PDF" in refusal(content)


def test_a_field_without_a_name_is_none():
    def act(pdf):
        del pdf.Root.AcroForm.Fields[0].T

    assert found(changed(one_field(), act)) == ()
