"""Papers as scanners, editors and people with something to hide leave them, and all that one of them tells."""

from __future__ import annotations

import io
from pathlib import Path

import pikepdf
from evidence.pictures import camera_exif, gradient
from pikepdf import Array, Dictionary, Name, Pdf
from reportlab.pdfgen.canvas import Canvas

from claimpack.evidence.papers.papers import PreparedPaper, printed_here

SECRET = b"SECRET"


def a_paper(tmp_path, change=lambda pdf: None) -> PreparedPaper:
    """A receipt of one page, changed, and read."""
    path = Path(tmp_path) / "r.pdf"
    canvas = Canvas(str(path), pagesize=(300, 500))
    canvas.drawString(20, 200, "Receipt")
    canvas.save()
    with pikepdf.open(path, allow_overwriting_input=True) as pdf:
        change(pdf)
        pdf.save(path, stream_decode_level=pikepdf.StreamDecodeLevel.none)
    return printed_here(path.read_bytes(), "r.pdf")


def told_by(paper: PreparedPaper) -> bytes:
    """Everything in a paper: its objects, and its streams as they are stored and without compression."""
    with pikepdf.open(io.BytesIO(paper.pdf)) as pdf:
        streams = [found for found in pdf.objects if isinstance(found, pikepdf.Stream)]
        told = [found.unparse(resolved=True) for found in pdf.objects if not isinstance(found, pikepdf.Stream)]
        told += [pikepdf.Dictionary(dict(found.items())).unparse() for found in streams]
        told += [found.read_raw_bytes() for found in streams]
        return b"\n".join([*told, *(found.get_stream_buffer().__bytes__() for found in _plain(streams))])


def _plain(streams):
    return [stream for stream in streams if stream.get("/Filter") in (None, Name.FlateDecode)]


def pictures_in(paper: PreparedPaper) -> list[pikepdf.PdfImage]:
    with pikepdf.open(io.BytesIO(paper.pdf)) as pdf:
        found = [thing for thing in pdf.objects if isinstance(thing, pikepdf.Stream)]
        return [pikepdf.PdfImage(thing).as_pil_image() for thing in found if thing.get("/Subtype") == "/Image"]


def photo(**options) -> bytes:
    """A JPEG with location and maker notes."""
    buffer = io.BytesIO()
    gradient().save(buffer, "JPEG", exif=camera_exif(), comment=SECRET, **options)
    return buffer.getvalue().replace(b"MAKERNOTE", SECRET + b"123")


def placed(pdf: Pdf, content: bytes, **entries: object) -> pikepdf.Stream:
    """A picture of 120 x 80 put on the first page."""
    size = {"Type": Name.XObject, "Subtype": Name.Image, "Width": 120, "Height": 80, "BitsPerComponent": 8}
    picture = pdf.make_stream(content, **{**size, "ColorSpace": Name.DeviceRGB, **entries})
    resources = pdf.pages[0].Resources
    resources["/XObject"] = Dictionary({**dict(resources.get("/XObject", {})), "/Im": picture})
    pdf.pages[0].contents_add(b"q 120 0 0 80 50 300 cm /Im Do Q")
    return picture


def switched_off(pdf: Pdf, content: bytes) -> pikepdf.Object:
    """Content drawn on a layer that is switched off."""
    layer = pdf.make_indirect(Dictionary(Type=Name.OCG, Name="SECRET layer"))
    pdf.Root.OCProperties = Dictionary(OCGs=Array([layer]), D=Dictionary(OFF=Array([layer])))
    pdf.pages[0].Resources["/Properties"] = Dictionary(Layer=layer)
    pdf.pages[0].contents_add(b"/OC /Layer BDC " + content + b" EMC")
    return layer
