"""Small packets for tests: drawn pages, photos and a receipt made by other libraries than the one under test."""

from __future__ import annotations

import hashlib
import io
import json
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache
from typing import Any

import pikepdf
from builders import TODAY, a_claim, a_plan
from pikepdf import Array, Dictionary, Name
from PIL import Image
from reportlab.pdfgen.canvas import Canvas

from claimpack.core.judging.assessment import assess
from claimpack.file_contents import hash_of
from claimpack.packet.assemble import PacketTitles, assemble
from claimpack.packet.sealing.embedded import Enclosed
from claimpack.packet.sealing.manifest import Original
from claimpack.printing.kept.reading_order import Element, Ink

RECEIPT = "papers/receipt.pdf"
PHOTOS = {"photos/plate.jpg": "navy", "photos/damage.jpg": "firebrick"}
TITLES = PacketTitles("Claim 26-0001", "Quarry Road Small Engine", "CS-70, short block", "en", TODAY)


@dataclass(frozen=True)
class Slot:
    page_index: int = 3
    x: float = 72
    y: float = 72
    width: float = 400
    height: float = 600
    paper_file: str = RECEIPT
    paper_page: int = 0
    number: int = 0


@dataclass(frozen=True)
class Drawn:
    pdf: bytes
    slots: tuple[Slot, ...] = (Slot(),)
    document: Element = field(
        default_factory=lambda: Element("Document", holds=[Element("Figure", "receipt", holds=[Ink(3, 0)])])
    )


def jpeg(colour: str, edge: int = 40) -> bytes:
    """A picture of one colour."""
    written = io.BytesIO()
    Image.new("RGB", (edge, edge), colour).save(written, "JPEG")
    return written.getvalue()


def image(pdf: pikepdf.Pdf, content: bytes) -> pikepdf.Stream:
    """A JPEG as an object of a PDF."""
    width, height = Image.open(io.BytesIO(content)).size
    entries = Dictionary(Type=Name.XObject, Subtype=Name.Image, Width=width, Height=height)
    entries.ColorSpace, entries.BitsPerComponent, entries.Filter = Name.DeviceRGB, 8, Name.DCTDecode
    stream = pikepdf.Stream(pdf, content)
    stream.stream_dict = entries
    stream.write(content, filter=Name.DCTDecode)
    return pdf.make_indirect(stream)


def drawn_pages(photos: dict[str, bytes] | None = None, words: str = "page") -> bytes:
    """Four pages with text and a link each; both photos on the third; a bookmark to the second."""
    pdf = pikepdf.new()
    font = pdf.make_indirect(Dictionary(Type=Name.Font, Subtype=Name.Type1, BaseFont=Name.Helvetica))
    for number in range(1, 5):
        page = pdf.add_blank_page(page_size=(612, 792))
        page.obj.Resources = Dictionary(Font=Dictionary(F1=font), XObject=Dictionary())
        content = f"BT /F1 12 Tf 72 720 Td ({words} {number}) Tj ET".encode()
        if number == 3:
            for place, picture in enumerate(
                (photos or {file: jpeg(colour) for file, colour in PHOTOS.items()}).values()
            ):
                page.obj.Resources.XObject[f"/Im{place}"] = image(pdf, picture)
                content += f" q 200 0 0 200 72 {80 + 250 * place} cm /Im{place} Do Q".encode()
        page.obj.Contents = pdf.make_stream(content)
        page.obj.Annots = Array(
            [Dictionary(Type=Name.Annot, Subtype=Name.Link, Rect=[72, 700, 90, 720], Dest=Name.Top)]
        )
    with pdf.open_outline() as outline:
        outline.root.append(pikepdf.OutlineItem("Reasons", 1))
    return saved(pdf)


def receipt(draw: Callable[[Canvas], Any] = lambda canvas: canvas.drawString(20, 20, "Paid in full")) -> bytes:
    """A paper of one page, 200 by 400 points."""
    written = io.BytesIO()
    canvas = Canvas(written, pagesize=(200, 400), invariant=True)
    draw(canvas)
    canvas.showPage()
    canvas.save()
    return written.getvalue()


def enclosed(**changes: Any) -> Enclosed:
    """The claim and its assessment; changes go to the claim."""
    assessment = assess(a_claim(**changes), [a_plan()], TODAY)
    pictures = {hash_of(jpeg(colour)): file for file, colour in PHOTOS.items()}
    originals = [Original(file=file, sha256=hash_of(file.encode()), bytes=len(file), role="photo") for file in PHOTOS]
    return Enclosed(assessment, "letter", originals, pictures)


@dataclass(frozen=True)
class Parts:
    """What a packet is assembled from."""

    drawn: Drawn = field(default_factory=lambda: Drawn(drawn_pages()))
    papers: dict[str, bytes] = field(default_factory=lambda: {RECEIPT: receipt()})
    titles: PacketTitles = TITLES
    enclosed: Enclosed = field(default_factory=enclosed)

    def assembled(self) -> bytes:
        """The packet."""
        return assemble(self.drawn, self.papers, self.titles, self.enclosed)


@cache
def a_packet() -> bytes:
    """A whole packet of four pages: two photos on the third, the receipt on the fourth."""
    return Parts().assembled()


def saved(pdf: pikepdf.Pdf) -> bytes:
    """A PDF as bytes."""
    written = io.BytesIO()
    pdf.save(written, deterministic_id=True)
    return written.getvalue()


def tampered(act: Callable[[pikepdf.Pdf], Any]) -> bytes:
    """The packet after somebody changed it in a PDF editor."""
    with pikepdf.open(io.BytesIO(a_packet())) as pdf:
        act(pdf)
        return saved(pdf)


def attached(packet: bytes, name: str) -> Any:
    """An attachment of a packet, as JSON."""
    with pikepdf.open(io.BytesIO(packet)) as pdf:
        return json.loads(pdf.attachments[name].get_file().read_bytes())


def replace_attachment(pdf: pikepdf.Pdf, name: str, change: Callable[[dict[str, Any]], Any]) -> bytes:
    """Put a changed JSON file in the place of the one attached, told of as that was; gives what it holds now."""
    content = json.loads(pdf.attachments[name].get_file().read_bytes())
    change(content)
    written = json.dumps(content).encode()
    old = pdf.attachments[name].obj
    told = old.EF.F.Params
    old.EF.F = old.EF.UF = pdf.make_stream(written, Type=old.EF.F.Type, Subtype=old.EF.F.Subtype, Params=told)
    told.Size, told.CheckSum = len(written), pikepdf.String(hashlib.md5(written, usedforsecurity=False).digest())
    return written
