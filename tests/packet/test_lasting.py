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
