"""Draw the forms of two invented makers: one to be filled in its fields, one that went through a scanner.

    python maker_forms.py ../../templates/forms

The same program gives the same bytes.
"""

from __future__ import annotations

import argparse
import io
from pathlib import Path
from typing import Any

import numpy as np
import pikepdf
import pypdfium2
from PIL import Image, ImageFilter
from reportlab.lib.colors import Color, HexColor, black
from reportlab.lib.pagesizes import letter
from reportlab.lib.units import mm
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from claimpack.printing.typeface import BOLD, MONO, REGULAR, register

WIDTH, HEIGHT = letter
RUST, RULE, LABEL = HexColor("#8a3a1c"), HexColor("#9a8f88"), HexColor("#4b4440")
LEFT, RIGHT = 40.0, WIDTH - 40.0
CELL = 20.0


class Sheet:
    """A page of the first form: labels small in the upper left of ruled boxes, a field in each."""

    def __init__(self, canvas: Canvas) -> None:
        self.canvas = canvas
        self.form = canvas.acroForm

    def label(self, x: float, y: float, text: str) -> None:
        """A label in small print."""
        self.canvas.setFillColor(LABEL)
        self.canvas.setFont(REGULAR, 6.3)
        self.canvas.drawString(x, y, text)

    def band(self, y: float, text: str) -> None:
        """The heading of a part of the form."""
        self.canvas.setFillColor(RUST)
        self.canvas.rect(LEFT, y, RIGHT - LEFT, 12.5, stroke=0, fill=1)
        self.canvas.setFillColor(HexColor("#ffffff"))
        self.canvas.setFont(BOLD, 8)
        self.canvas.drawString(LEFT + 5, y + 3.4, text)

    def box(self, x: float, y: float, width: float, height: float) -> None:
        """A ruled box."""
        self.canvas.setStrokeColor(RULE)
        self.canvas.setLineWidth(0.6)
        self.canvas.rect(x, y, width, height, stroke=1, fill=0)

    def text(self, name: str, x: float, y: float, width: float, height: float, size: float = 10, **more: Any) -> None:
        """A field for text, without a frame of its own."""
        self.form.textfield(
            name=name, x=x, y=y, width=width, height=height, fontName="Helvetica", fontSize=size, textColor=black,
            borderWidth=0, borderColor=None, fillColor=None, maxlen=more.pop("most", 0) or None, **more,
        )  # fmt: skip

    def titled(self, name: str, title: str, x: float, y: float, width: float, height: float = 26, **more: Any) -> None:
        """A box with its label and a field below it."""
        self.box(x, y, width, height)
        self.label(x + 3, y + height - 8, title)
        self.text(name, x + 1, y + 1, width - 2, height - (13 if "fieldFlags" in more else 10), **more)

    def comb(self, name: str, title: str, x: float, y: float, boxes: int, cell: float = 14.0) -> None:
        """Boxes for one character each, with a label above."""
        self.label(x, y + 19, title)
        self.box(x, y, boxes * cell, 16)
        for place in range(1, boxes):
            self.canvas.setLineWidth(0.35)
            self.canvas.line(x + place * cell, y, x + place * cell, y + 16)
        self.text(name, x, y, boxes * cell, 16, size=10, most=boxes, fieldFlags="comb")

    def tick(self, name: str, title: str, x: float, y: float) -> None:
        """A box to tick and what it means."""
        self.form.checkbox(
            name=name, x=x, y=y, size=9, buttonStyle="cross", shape="square", borderWidth=0.6, borderColor=RULE,
            fillColor=None, textColor=black,
        )  # fmt: skip
        self.canvas.setFillColor(LABEL)
        self.canvas.setFont(REGULAR, 7.5)
        self.canvas.drawString(x + 12, y + 1.8, title)

    def choice(self, group: str, value: str, title: str, x: float, y: float) -> None:
        """One of several buttons of which one is set."""
        self.form.radio(
            name=group, value=value, x=x, y=y - 1, size=13, buttonStyle="circle", shape="circle", borderWidth=0.6,
            borderColor=RULE, fillColor=None, textColor=black,
        )  # fmt: skip
        self.canvas.setFillColor(LABEL)
        self.canvas.setFont(REGULAR, 7.5)
        self.canvas.drawString(x + 16, y + 1.8, title)

    def table(self, y: float, rows: int, columns: tuple[tuple[str, str, float], ...], high: float = 15) -> float:
        """A table with a field in each cell; columns are name, title and width. Gives the lower edge."""
        x = LEFT
        for name, title, width in columns:
            self.label(x + 3, y + 3, title)
            for row in range(1, rows + 1):
                self.box(x, y - row * high, width, high)
                self.text(f"{name}.{row}", x + 1, y - row * high + 0.5, width - 2, high - 1, size=9)
            x += width
        return y - rows * high


PARTS = (
    ("parts.number", "Part number", 108.0), ("parts.name", "Description", 200.0), ("parts.quantity", "Qty", 44.0),
    ("parts.price", "Price each", 60.0), ("parts.amount", "Amount", 60.0), ("parts.handling", "Handling", 60.0),
)  # fmt: skip
LABOUR = (
    ("labour.code", "Operation code", 108.0), ("labour.name", "Operation", 200.0), ("labour.hours", "Hours", 44.0),
    ("labour.rate", "Rate", 60.0), ("labour.amount", "Amount", 60.0), ("labour.technician", "Technician", 60.0),
)  # fmt: skip
TOTALS = (
    ("parts", "Parts"), ("handling", "Handling"), ("labour", "Labor"), ("extras", "Freight and other"),
    ("tax", "Tax"), ("claimed", "TOTAL CLAIMED"),
)  # fmt: skip


def fillable() -> bytes:
    """The form of Halden: fields, combs, boxes to tick, two tables."""
    register()
    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=letter, invariant=1)
    canvas.setTitle("Halden warranty claim, form W-7")
    canvas.setAuthor("Halden")
    sheet = Sheet(canvas)
    _head(sheet)
    sheet.band(696, "1  DEALER")
    sheet.titled("dealer.name", "Dealer", LEFT, 666, 230)
    sheet.titled("dealer.claim", "Dealer's claim number", LEFT + 230, 666, 152)
    sheet.titled("dealer.phone", "Telephone", LEFT + 382, 666, 150)
    sheet.comb("dealer.number", "Dealer number", LEFT, 640, 8)
    sheet.titled("approval.number", "Prior approval number", LEFT + 230, 636, 152)
    sheet.titled("approval.amount", "Approved up to", LEFT + 382, 636, 150)
    sheet.band(616, "2  UNIT")
    sheet.titled("unit.model", "Model", LEFT, 586, 110)
    sheet.titled("unit.kind", "Kind of unit", LEFT + 110, 586, 120)
    sheet.titled("unit.hours", "Hour meter", LEFT + 230, 586, 60)
    sheet.label(LEFT + 302, 604, "Used as (one)")
    for place, (value, title) in enumerate(
        (("Consumer", "Consumer"), ("Commercial", "Commercial"), ("Rental", "Rental"))
    ):
        sheet.choice("unit.use", value, title, LEFT + 302 + place * 78, 590)
    sheet.comb("unit.serial", "Serial number of the unit, without hyphens", LEFT, 558, 16)
    sheet.comb("unit.engine", "Serial number of the engine, without hyphens", LEFT + 302, 558, 16)
    sheet.band(538, "3  OWNER AND DATES")
    sheet.titled("owner.name", "Owner", LEFT, 508, 230)
    sheet.titled("owner.address", "Address", LEFT + 230, 508, 302)
    sheet.tick("owner.first", "The owner bought the unit new", LEFT + 4, 489)
    sheet.tick("proof", "Proof of purchase is attached", LEFT + 150, 489)
    for place, (name, title) in enumerate(
        (("purchased", "Date of purchase (MM DD YYYY)"), ("failed", "Date of failure"), ("repaired", "Date of repair"))
    ):
        sheet.comb(f"dates.{name}", title, LEFT + place * 188, 458, 8)
    sheet.band(438, "4  FAILURE")
    sheet.titled("failed.number", "Failed part, number", LEFT, 408, 150)
    sheet.titled("failed.name", "Failed part, name", LEFT + 150, 408, 220)
    sheet.titled("failed.held", "Kept on shelf", LEFT + 370, 408, 162)
    for place, name in enumerate(("complaint", "cause", "correction")):
        x, width = LEFT + place * (RIGHT - LEFT) / 3, (RIGHT - LEFT) / 3
        sheet.titled(f"failure.{name}", name.capitalize(), x, 318, width, 90, size=8, fieldFlags="multiline")
    sheet.band(300, "5  PARTS")
    below = sheet.table(288, 4, PARTS)
    sheet.band(below - 18, "6  LABOR")
    below = sheet.table(below - 30, 3, LABOUR)
    _totals(sheet, below - 8)
    canvas.showPage()
    canvas.save()
    return _tidied(stream.getvalue())


def _head(sheet: Sheet) -> None:
    canvas = sheet.canvas
    canvas.setFillColor(RUST)
    canvas.setFont(BOLD, 24)
    canvas.drawString(LEFT, 738, "HALDEN")
    canvas.setFont(BOLD, 13)
    canvas.drawRightString(RIGHT, 746, "Warranty claim")
    canvas.setFillColor(LABEL)
    canvas.setFont(REGULAR, 7)
    canvas.drawRightString(RIGHT, 734, "Form W-7, edition 2025. Fill in every box that applies, one form a unit.")
    sheet.label(RIGHT - 108, 721, "Sheet")
    sheet.text("sheet", RIGHT - 90, 716, 90, 14, size=9)
    canvas.setStrokeColor(RUST)
    canvas.setLineWidth(1.5)
    canvas.line(LEFT, 714, RIGHT, 714)


def _totals(sheet: Sheet, top: float) -> None:
    canvas = sheet.canvas
    for place, (name, title) in enumerate(TOTALS):
        y = top - (place + 1) * 14
        strong = place == len(TOTALS) - 1
        canvas.setFillColor(LABEL)
        canvas.setFont(BOLD if strong else REGULAR, 8)
        canvas.drawRightString(RIGHT - 86, y + 4, title)
        sheet.box(RIGHT - 80, y, 80, 14)
        sheet.text(f"total.{name}", RIGHT - 79, y + 0.5, 78, 13, size=9)
    sheet.titled("total.currency", "Currency", LEFT, top - 30, 60)
    canvas.setFillColor(LABEL)
    canvas.setFont(REGULAR, 7)
    for place, line in enumerate((
        "The dealer states that the above is true and that the failed parts are kept",
        "until Halden has seen them or lets them go. A false claim is charged back.",
    )):  # fmt: skip
        canvas.drawString(LEFT + 70, top - 14 - place * 9, line)
    for x, width, title in ((LEFT, 210.0, "Signed for the dealer"), (LEFT + 220, 100.0, "Date")):
        canvas.setStrokeColor(RULE)
        canvas.line(x, top - 74, x + width, top - 74)
        sheet.label(x, top - 82, title)


# The second form, in millimetres from the upper left of the page.
LINES = (
    (20, 44, 90, "DEALER"), (118, 44, 78, "DEALER CODE"), (20, 56, 90, "ADDRESS"), (118, 56, 78, "CLAIM NO."),
    (20, 76, 58, "MODEL"), (84, 76, 60, "SERIAL NO."), (150, 76, 46, "ENGINE HOURS"),
    (20, 88, 90, "CUSTOMER"), (118, 88, 78, "TELEPHONE"),
    (20, 100, 40, "PURCHASED"), (66, 100, 40, "FAILED"), (112, 100, 40, "REPAIRED"), (158, 100, 38, "OUR APPROVAL"),
)  # fmt: skip
BOXES = ((150, 64.5, "HOMEOWNER"), (176, 64.5, "BUSINESS"))
STORIES = ((112, "WHAT THE CUSTOMER SAYS"), (136, "CAUSE FOUND"), (160, "WHAT WAS DONE"))
ROWS, ROW, FIRST_ROW = 6, 6.5, 193.0
COLUMNS = ((20, "PART NO. / OPERATION"), (62, "DESCRIPTION"), (138, "QTY / HRS"), (158, "EACH"), (177, "AMOUNT"))
EDGES = (19.0, 61.0, 137.0, 157.0, 176.0, 197.0)
BELOW = (("PARTS + HANDLING", 239.0), ("LABOUR", 245.5), ("OTHER", 252.0), ("CLAIMED", 258.5))


def printed() -> bytes:
    """The form of Orrin & Vale as it was printed, before anybody scanned it."""
    register()
    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=letter, invariant=1)
    canvas.setFont(BOLD, 19)
    canvas.drawString(20 * mm, HEIGHT - 24 * mm, "ORRIN & VALE")
    canvas.setFont(MONO, 9)
    canvas.drawString(20 * mm, HEIGHT - 30 * mm, "APPLICATION FOR WARRANTY PAYMENT            OV 112")
    canvas.setLineWidth(1.6)
    canvas.line(20 * mm, HEIGHT - 33 * mm, 196 * mm, HEIGHT - 33 * mm)
    for x, y, width, title in LINES:
        _ruled(canvas, x, y, width, title)
    for x, y, title in BOXES:
        canvas.setLineWidth(0.8)
        canvas.rect(x * mm, HEIGHT - (y + 4) * mm, 4 * mm, 4 * mm)
        canvas.setFont(MONO, 7)
        canvas.drawString((x + 5.5) * mm, HEIGHT - (y + 3) * mm, title)
    for y, title in STORIES:
        canvas.setLineWidth(0.8)
        canvas.rect(19 * mm, HEIGHT - (y + 22) * mm, 178 * mm, 22 * mm)
        canvas.setFont(MONO, 6.5)
        canvas.drawString(20.5 * mm, HEIGHT - (y + 3.2) * mm, title)
    _grid(canvas)
    canvas.setFont(MONO, 7)
    canvas.drawString(20 * mm, HEIGHT - 266 * mm, "SIGNED ______________________   DATE ______________")
    canvas.showPage()
    canvas.save()
    return stream.getvalue()


def _ruled(canvas: Canvas, x: float, y: float, width: float, title: str) -> None:
    canvas.setLineWidth(0.7)
    canvas.line(x * mm, HEIGHT - y * mm, (x + width) * mm, HEIGHT - y * mm)
    canvas.setFont(MONO, 6)
    canvas.drawString(x * mm, HEIGHT - (y + 2.6) * mm, title)


def _grid(canvas: Canvas) -> None:
    canvas.setLineWidth(0.8)
    bottom = FIRST_ROW + ROWS * ROW
    for line in range(ROWS + 1):
        y = HEIGHT - (FIRST_ROW + line * ROW) * mm
        canvas.line(EDGES[0] * mm, y, EDGES[-1] * mm, y)
    for x in EDGES:
        canvas.line(x * mm, HEIGHT - FIRST_ROW * mm, x * mm, HEIGHT - bottom * mm)
    canvas.setFont(MONO, 6)
    for x, title in COLUMNS:
        canvas.drawString(x * mm, HEIGHT - (FIRST_ROW - 1.5) * mm, title)
    for title, y in BELOW:
        canvas.setFont(MONO, 7)
        canvas.drawRightString(155 * mm, HEIGHT - (y + 4.2) * mm, title)
        canvas.rect(157 * mm, HEIGHT - (y + ROW) * mm, 40 * mm, ROW * mm)


def scanned(page: bytes, dpi: int = 144) -> bytes:
    """A page as a scanner in an office makes it: grey, a little soft, specks, the shadow of the lid at an edge."""
    with pypdfium2.PdfDocument(page) as document:
        picture = document[0].render(scale=dpi / 72).to_pil().convert("L")
    chance = np.random.default_rng(112)
    shades = np.asarray(picture.filter(ImageFilter.GaussianBlur(0.55)), dtype=np.float32)
    shades = 34 + shades * (209 / 255) + chance.normal(0, 1.6, shades.shape)
    shades[chance.random(shades.shape) < 0.00003] = 90
    shades[:, :14] -= np.linspace(46, 0, 14)
    soft = Image.fromarray(np.clip(shades, 0, 255).astype(np.uint8))
    jpeg = io.BytesIO()
    soft.save(jpeg, "JPEG", quality=52, dpi=(dpi, dpi))
    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=letter, invariant=1)
    canvas.setTitle("Orrin & Vale, application for warranty payment OV 112")
    canvas.setFillColor(Color(0, 0, 0))
    canvas.drawImage(ImageReader(io.BytesIO(jpeg.getvalue())), 0, 0, WIDTH, HEIGHT)
    canvas.showPage()
    canvas.save()
    return _tidied(stream.getvalue())


def _tidied(content: bytes) -> bytes:
    stream = io.BytesIO()
    with pikepdf.open(io.BytesIO(content)) as pdf:
        pdf.save(stream, deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    return stream.getvalue()


def main() -> None:
    """Write both."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folder", type=Path)
    folder = parser.parse_args().folder
    (folder / "halden-w7.pdf").write_bytes(fillable())
    (folder / "orrin-vale-112.pdf").write_bytes(scanned(printed()))


if __name__ == "__main__":
    main()
