from __future__ import annotations

import io

import pikepdf
import pytest
from packets import Parts, a_packet, receipt
from pikepdf import Array, Dictionary, Name
from reportlab.pdfgen.canvas import Canvas

from claimpack.packet.lasting import passing
from claimpack.printing.typeface import REGULAR, register


def found(draw=lambda canvas: None, change=lambda pdf, resources: None) -> str:
    """What is found of a paper drawn so, and changed so."""
    with pikepdf.open(io.BytesIO(receipt(draw))) as pdf:
        change(pdf, pdf.pages[0].obj.Resources)
        return passing(pdf.pages[0].as_form_xobject())


def in_a_typeface_it_carries(canvas: Canvas) -> None:
    register()
    canvas.setFont(REGULAR, 9)
    canvas.drawString(20, 20, "Paid in full")


def test_text_in_a_typeface_that_it_carries_lasts():
    assert found(in_a_typeface_it_carries) == ""


def test_text_in_a_typeface_that_it_does_not_carry_may_look_different():
    assert found(lambda canvas: canvas.drawString(20, 20, "x")) == "it does not carry its typeface Helvetica"


@pytest.mark.parametrize(
    "draw",
    [
        lambda canvas: canvas.setFillColorCMYK(0, 1, 0, 0),
        lambda canvas: canvas.setStrokeColorCMYK(0, 1, 0, 0),
    ],
    ids=["filled", "drawn"],
)
def test_printing_inks_may_look_different(draw):
    assert found(draw) == "it is coloured for one printing press"


@pytest.mark.parametrize(
    ("kind", "entries"),
    [
        ("/ColorSpace", Name.DeviceCMYK),
        ("/ColorSpace", Array([Name.Indexed, Name.DeviceCMYK, 1, pikepdf.String("abcd")])),
        ("/ExtGState", Dictionary(TR=Name.Identity)),
    ],
    ids=["a colour", "a palette", "a curve"],
)
def test_what_is_made_for_one_press_may_look_different(kind, entries):
    def change(_pdf, resources):
        resources[kind] = Dictionary(One=entries)

    assert found(change=change).endswith("for one printing press")


def a_picture(**entries):
    def change(pdf, resources):
        settings = {"Width": 1, "Height": 1, "ColorSpace": Name.DeviceGray, "BitsPerComponent": 8} | entries
        resources.XObject = Dictionary(Im=pdf.make_stream(b"\0", Subtype=Name.Image, **settings))

    return change


def test_a_picture_in_grey_lasts():
    assert found(change=a_picture()) == ""


@pytest.mark.parametrize(
    "entries", [{"Interpolate": True}, {"ColorSpace": Name.DeviceCMYK}, {"Filter": Name.JPXDecode}]
)
def test_a_picture_that_readers_may_show_differently_does_not(entries):
    assert found(change=a_picture(**entries)) != ""


def status(packet: bytes) -> str:
    with pikepdf.open(io.BytesIO(packet)) as pdf:
        return str(pdf.open_metadata().pdfa_status)


def test_a_packet_with_such_a_paper_does_not_say_that_it_lasts():
    assert status(a_packet()) == ""


def test_a_packet_of_lasting_papers_says_so():
    assert status(Parts(papers={"papers/receipt.pdf": receipt(in_a_typeface_it_carries)}).assembled()) == "3B"


def looked_through(content: bytes = b"", entries=lambda pdf: {}, **resources) -> str:
    """What is found of a form with such drawing, with entries of its own, and with what it refers to by name."""
    pdf = pikepdf.new()
    made = {f"/{kind}": Dictionary(One=make(pdf) if callable(make) else make) for kind, make in resources.items()}
    return passing(pdf.make_stream(content, Subtype=Name.Form, Resources=Dictionary(made), **entries(pdf)))


PRESS = "it is coloured for one printing press"
NO_TYPEFACE = "it does not carry its typeface Helvetica"
GRAPHIC = {"Subtype": Name.Image, "Width": 1, "Height": 1, "BitsPerComponent": 8}
OF_PRESS = Array([Name.Separation, Name.Gold, Name.DeviceCMYK])
HELVETICA = Dictionary(Type=Name.Font, Subtype=Name.Type1, BaseFont=Name.Helvetica)


def carried(**more):
    """A typeface of many letters that it carries."""

    def make(pdf):
        described = Dictionary(FontFile2=pdf.make_stream(b""))
        inner = Dictionary(Subtype=Name.CIDFontType2, BaseFont=Name.Noto, FontDescriptor=described, **more)
        return Dictionary(Type=Name.Font, Subtype=Name.Type0, DescendantFonts=Array([inner]))

    return make


@pytest.mark.parametrize(
    ("content", "resources", "said"),
    [
        (b"BT (x) Tj ET", {}, "its text names no typeface"),
        (b"BT /One 9 Tf (x) Tj ET", {"Font": HELVETICA}, NO_TYPEFACE),
        (b"BT /One 9 Tf [(x)] TJ ET", {"Font": HELVETICA}, NO_TYPEFACE),
        (b"BT /One 9 Tf (x) ' ET", {"Font": HELVETICA}, NO_TYPEFACE),
        (b"BT /One 9 Tf ET", {"Font": HELVETICA}, ""),
        (b"BT /One 9 Tf (x) Tj ET", {"Font": Dictionary(Subtype=Name.Type3)}, ""),
        (b"BT /One 9 Tf (x) Tj ET", {"Font": carried(CIDToGIDMap=Name.Identity)}, ""),
        (b"BT /One 9 Tf (x) Tj ET", {"Font": carried()}, "its typeface does not say which letter is which"),
        (b"/Perceptual ri", {}, ""),
        (b"/Vivid ri", {}, "it asks for colours in an unknown way"),
        (b"BI /W 1 /H 1 /BPC 8 /CS /CMYK ID abcd EI", {}, PRESS),
        (b"BI /W 1 /H 1 /BPC 8 /CS /G ID a EI", {}, ""),
        (b"0 0 0 1 k", {}, PRESS),
        (b"0 0 1 rg", {}, ""),
    ],
)
def test_drawing_lasts_where_it_carries_its_typefaces_and_names_its_colours(content, resources, said):
    assert looked_through(content, **resources) == said


@pytest.mark.parametrize(
    ("space", "said"),
    [
        (Name.DeviceRGB, ""),
        (Name.DeviceCMYK, PRESS),
        (Array([Name.ICCBased, 1]), ""),
        (Array([Name.Indexed, Name.DeviceRGB, 1, b""]), ""),
        (Array([Name.Indexed, Name.DeviceCMYK, 1, b""]), PRESS),
        (Array([Name.Separation, Name.Gold, Name.DeviceRGB]), ""),
        (OF_PRESS, PRESS),
        (Array([Name.DeviceN, Array([Name.Gold]), Name.DeviceCMYK]), PRESS),
        (Array([Name.Pattern]), ""),
        (Array([Name.Pattern, Name.DeviceCMYK]), PRESS),
        (Name.Pattern, ""),
    ],
)
def test_a_colour_lasts_where_what_it_is_made_of_does(space, said):
    assert looked_through(ColorSpace=space) == said
    assert looked_through(Shading=Dictionary(ColorSpace=space)) == said
    assert looked_through(Pattern=Dictionary(Shading=Dictionary(ColorSpace=space))) == said
    assert looked_through(XObject=lambda pdf: pdf.make_stream(b"", **GRAPHIC, ColorSpace=space)) == said
    assert looked_through(entries=lambda _: {"Group": Dictionary(S=Name.Transparency, CS=space)}) == said


def test_a_form_or_a_pattern_in_a_form_is_looked_through_too():
    press = {"Subtype": Name.Form, "Resources": Dictionary()}
    assert looked_through(XObject=lambda pdf: pdf.make_stream(b"0 0 0 1 k", **press)) == PRESS
    assert looked_through(Pattern=lambda pdf: pdf.make_stream(b"0 0 0 1 K", Resources=Dictionary())) == PRESS
    assert looked_through(XObject=lambda pdf: pdf.make_stream(b"BT /One 9 Tf ET", Subtype=Name.Form)) == ""


def test_a_form_within_a_form_takes_typefaces_from_around_it():
    inner = {"XObject": lambda pdf: pdf.make_stream(b"BT /One 9 Tf (x) Tj ET", Subtype=Name.Form)}
    assert looked_through(Font=HELVETICA, **inner) == NO_TYPEFACE


def test_a_form_that_holds_itself_is_looked_through_once():
    pdf = pikepdf.new()
    form = pdf.make_stream(b"/One Do", Subtype=Name.Form)
    form.Resources = Dictionary(XObject=Dictionary(One=form))
    assert passing(form) == ""


OWN_WAY = "it holds a picture that each reader may show in its own way"


@pytest.mark.parametrize(
    ("entries", "said"),
    [
        ({"ImageMask": True, "ColorSpace": Name.DeviceCMYK}, ""),
        ({"Interpolate": True}, OWN_WAY),
        ({"Interpolate": False}, ""),
        ({"Alternates": Array([])}, OWN_WAY),
        ({"Subtype": Name.PS}, "it holds a program for one kind of printer"),
    ],
)
def test_a_picture_lasts_where_every_reader_shows_the_same(entries, said):
    settings = GRAPHIC | entries
    assert looked_through(XObject=lambda pdf: pdf.make_stream(b"a", **settings)) == said


def test_the_mask_of_a_picture_is_a_picture_too():
    def masked(pdf):
        mask = pdf.make_stream(b"a", **GRAPHIC, ColorSpace=Name.DeviceGray, Interpolate=True)
        return pdf.make_stream(b"a", **GRAPHIC, ColorSpace=Name.DeviceGray, SMask=mask)

    assert looked_through(XObject=masked) == OWN_WAY


@pytest.mark.parametrize(("key", "is_press"), [("TR", True), ("TR2", True), ("HT", True), ("HTP", True), ("CA", False)])
def test_a_state_of_drawing_made_for_one_press_does_not_last(key, is_press):
    assert bool(looked_through(ExtGState=Dictionary({f"/{key}": 1}))) == is_press


def test_what_cannot_be_looked_through_is_not_said_to_last():
    assert looked_through(Font=Dictionary(), content=b"Tf") == "it could not be looked through"
