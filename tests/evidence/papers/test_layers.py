from __future__ import annotations

import pypdfium2
import pytest
from evidence.drawn_papers import SECRET, a_paper, switched_off, told_by
from pikepdf import Array, Dictionary, Name

from claimpack.errors import BadInput
from claimpack.evidence.papers.papers import LEFT_OUT

WORDS = b"BT /F1 12 Tf 20 100 Td (SECRET) Tj ET"


def off(content=WORDS):
    return lambda pdf: switched_off(pdf, content)


def a_form(pdf, layer):
    form = pdf.make_stream(WORDS, Type=Name.XObject, Subtype=Name.Form, BBox=Array([0, 0, 99, 99]), OC=layer)
    pdf.pages[0].Resources["/XObject"] = Dictionary(Off=form)
    pdf.pages[0].contents_add(b"/Off Do")


def a_note(pdf, layer):
    look = pdf.make_stream(WORDS, Type=Name.XObject, Subtype=Name.Form, BBox=Array([0, 0, 99, 99]))
    note = Dictionary(Subtype=Name.Stamp, Rect=Array([0, 0, 99, 99]), AP=Dictionary(N=look), OC=layer)
    pdf.pages[0].Annots = Array([pdf.make_indirect(note)])


def on_a_layer(draw):
    return lambda pdf: draw(pdf, switched_off(pdf, b""))


HIDDEN = {
    "text": off(),
    "text by lines": off(b"BT /F1 12 Tf 14 TL 20 100 Td (SECRET) ' 1 2 (SECRET) \" [(SEC) 2 (RET) (SECRET)] TJ ET"),
    "inside other marks": off(b"/P BMC " + WORDS + b" EMC " + WORDS),
    "a form": on_a_layer(a_form),
    "a stamp": on_a_layer(a_note),
}


@pytest.mark.parametrize("hide", HIDDEN.values(), ids=HIDDEN)
def test_what_stands_on_a_layer_switched_off_never_leaves_the_shop(tmp_path, hide):
    paper = a_paper(tmp_path, hide)
    assert SECRET not in told_by(paper)
    assert "Receipt" in pypdfium2.PdfDocument(paper.pdf)[0].get_textpage().get_text_range()


def test_the_note_says_that_something_was_left_out(tmp_path):
    assert a_paper(tmp_path, off()).notes == (LEFT_OUT,)


def test_a_layer_that_is_shown_stays(tmp_path):
    def on(pdf):
        switched_off(pdf, WORDS)
        pdf.Root.OCProperties.D.OFF = Array()

    paper = a_paper(tmp_path, on)
    assert "SECRET" in pypdfium2.PdfDocument(paper.pdf)[0].get_textpage().get_text_range()
    assert paper.notes == ()


def test_what_a_hidden_layer_sets_still_holds_for_what_follows(tmp_path):
    def change(pdf):
        switched_off(pdf, b"1 0 0 rg 0 0 9 9 re f")
        pdf.pages[0].contents_add(b"100 300 50 50 re f")

    picture = pypdfium2.PdfDocument(a_paper(tmp_path, change).pdf)[0].render().to_pil()
    assert (picture.getpixel((125, 175)), picture.getpixel((4, 495))) == ((255, 0, 0), (255, 255, 255))


@pytest.mark.parametrize(
    ("rule", "shown"),
    [
        ({"P": Name.AnyOn}, True),
        ({"P": Name.AllOn}, False),
        ({"P": Name.AnyOff}, True),
        ({"P": Name.AllOff}, False),
        ({"OCGs": []}, True),
        ({"VE": [Name.Not, "off"]}, True),
        ({"VE": [Name.And, "on", "off"]}, False),
        ({"VE": [Name.Or, "on", "off"]}, True),
    ],
    ids=str,
)
def test_layers_named_together_are_shown_as_their_rule_says(tmp_path, rule, shown):
    def change(pdf):
        layer = switched_off(pdf, WORDS)
        on = pdf.make_indirect(Dictionary(Type=Name.OCG, Name="on"))
        several = Dictionary(Type=Name.OCMD, OCGs=Array([layer, on]))
        places = {"on": on, "off": layer}
        for key, value in rule.items():
            several[f"/{key}"] = Array([places.get(it, it) for it in value]) if isinstance(value, list) else value
        pdf.pages[0].Resources.Properties["/Layer"] = several

    assert (SECRET in told_by(a_paper(tmp_path, change))) is shown


@pytest.mark.parametrize("rule", [{"OCGs": []}, {"VE": [Name.And]}], ids=["members", "expression"])
def test_a_layer_that_names_itself_is_refused(tmp_path, rule):
    def change(pdf):
        several = pdf.make_indirect(Dictionary(Type=Name.OCMD))
        for key, value in rule.items():
            several[f"/{key}"] = Array([*value, several])
        switched_off(pdf, WORDS)
        pdf.pages[0].Resources.Properties["/Layer"] = several

    with pytest.raises(BadInput, match="nested"):
        told_by(a_paper(tmp_path, change))


def nested(depth):
    """Words on a layer that is named by another, which is named by another."""

    def change(pdf):
        layer = switched_off(pdf, WORDS)
        for _ in range(depth):
            layer = pdf.make_indirect(Dictionary(Type=Name.OCMD, OCGs=layer))
        pdf.pages[0].Resources.Properties["/Layer"] = layer

    return change


def test_layers_are_looked_into_as_deep_as_no_program_nests_them(tmp_path):
    assert SECRET not in told_by(a_paper(tmp_path, nested(32)))
    with pytest.raises(BadInput, match="nested"):
        a_paper(tmp_path, nested(33))


def test_where_every_layer_begins_switched_off_those_named_are_shown(tmp_path):
    def change(pdf):
        layer = switched_off(pdf, WORDS)
        pdf.Root.OCProperties["/D"] = Dictionary(BaseState=Name.OFF, ON=Array([layer]))

    assert SECRET in told_by(a_paper(tmp_path, change))
