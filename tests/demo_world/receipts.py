"""Make the receipts of the sample claims: ordinary papers of invented sellers, in the shapes that shops are handed.

    python receipts.py ../../sample_claims

Unit, serial numbers, buyer and dates come from each claim.toml, so that receipt and claim agree. The same claims give
the same bytes.
"""

from __future__ import annotations

import argparse
import io
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image, ImageDraw, ImageFilter, ImageFont
from reportlab.lib.colors import Color, HexColor
from reportlab.lib.pagesizes import A4, landscape, letter
from reportlab.lib.units import mm
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

import claimpack
from claimpack.core.claims.claim import Claim
from claimpack.core.values.money import rounded
from claimpack.folder.claim_folder import read_claim_folder
from claimpack.printing import typeface

ROLL = (80 * mm, 130 * mm)
FONTS = Path(claimpack.__file__).parent / "fonts"
INK, GREY = HexColor("#202326"), HexColor("#6b7176")


@dataclass(frozen=True)
class Receipt:
    """What one receipt says beside the facts of its claim; `form` is sheet, roll or scan, `turn` the page's /Rotate.

    `sold_to` is the first buyer's name, where the claim's owner is another.
    """

    folder: str
    seller: str
    street: str
    number: str
    price: str
    extras: tuple[tuple[str, str], ...] = ()
    tax: str = "0.081"
    tax_name: str = "Sales tax"
    colour: str = "#33454f"
    currency: str = "USD"
    paid: str = "Card, approved"
    form: str = "sheet"
    size: tuple[float, float] = letter
    turn: int = 0
    terms: tuple[str, ...] = ()
    file: str = "receipt.pdf"
    sold_to: str = ""

    def amounts(self) -> tuple[Decimal, Decimal, Decimal]:
        """Subtotal, tax and total."""
        net = sum((Decimal(amount) for _, amount in self.extras), Decimal(self.price))
        tax = rounded(net * Decimal(self.tax), self.currency)
        return net, tax, net + tax

    def money(self, amount: Decimal) -> str:
        """An amount as this seller prints it."""
        return f"¥{amount:,.0f}" if self.currency == "JPY" else f"${amount:,.2f}"


MIX = ("Two-stroke oil, 1 l", "14.90")
RECEIPTS: tuple[Receipt, ...] = (
    Receipt("26-0041-short-block", "Thornmoor Tools & Hire", "12 Cooper Yard, Ashby", "TT-88213", "1149.00",
            (("Diamond disc 350 mm", "128.00"), MIX), colour="#7a4a12", terms=(
                "Trade account 4471: thirty days net, paid in full at the counter.",
                "The unit was filled, started and explained to the buyer on the day of sale.",
                "Warranty registration: hand this page to the counter, or register with the maker within 30 days.",
                "Returns within 14 days, unused and in the carton. Discs and oil are not taken back.",
                "Goods stay the property of the seller until they are paid for.")),
    Receipt("26-0052-one-day-late", "Pell Hardware", "High Street 40, Ashby", "004 17 2291", "329.00", (MIX,),
            form="roll", size=ROLL),
    Receipt("26-0057-missing-date", "Ashby Farm & Garden", "Market Square, Ashby", "31877", "879.00",
            (("Weather cover", "39.50"), ("Delivery to the house", "25.00")), colour="#2c5a3c", size=landscape(letter),
            paid="Bank transfer"),
    Receipt("26-0063-statutory-coil", "Calder Coast Saw & Rental", "Pier Row 9, Port Fennick, California", "C-20714",
            "1129.00", (("Air filter, spare", "18.40"),), tax="0.0775", form="scan",
            sold_to="Ruben Castellow"),
    Receipt("26-0068-hour-limit", "Ashby Farm & Garden", "Market Square, Ashby", "33540", "4890.00",
            (("Mulching kit", "189.00"), ("Delivery and first run", "60.00")), colour="#2c5a3c", turn=90,
            size=landscape(letter), paid="Bank transfer"),
    Receipt("26-0071-replaced-seal", "Hillam Pump Supply", "Wharf 2, Ashby", "HP 5-1406", "1395.00",
            (("Suction hose 80 mm, 6 m", "164.00"), ("Strainer", "31.20")), colour="#1d4f7a"),
    Receipt("26-0074-three-parts", "Hillam Pump Supply", "Wharf 2, Ashby", "HP 5-3388", "2140.00",
            (("Pressure hose, 20 m", "148.00"), ("Nozzle set", "37.80")), colour="#1d4f7a", size=A4),
    Receipt("26-0080-mower-engine", "Ashby Farm & Garden", "Market Square, Ashby", "33102", "4640.00",
            (("Ramp, pair", "145.00"), ("Delivery and first run", "60.00")), colour="#2c5a3c"),
    Receipt("26-0083-accents-yen", "Tessaly Pumps Japan, Harbour Store", "Pier 3", "J-250620-07",
            "98600", (("Suction hose 50 mm, 4 m", "8400"),), tax="0.10", tax_name="Consumption tax", currency="JPY",
            colour="#35306b", size=A4),
    Receipt("26-0090-battery", "Pell Hardware", "High Street 40, Ashby", "002 11 0418", "289.00",
            (("Charger 40 V", "69.00"),), form="roll", size=ROLL),
    Receipt("26-0110-approval-first", "Thornmoor Tools & Hire", "12 Cooper Yard, Ashby", "TT-91407", "1179.00", (MIX,),
            colour="#7a4a12"),
    Receipt("26-0112-stock-unit", "Halden Distribution", "Foundry Lane 40, Northgate", "HD-25-6630", "241.00",
            colour="#0c5456", paid="Dealer account QR-1184", file="invoice.pdf"),
    Receipt("26-0114-counter-part", "Quarry Road Small Engine", "18 Quarry Road, Ashby", "QR-4471", "92.40",
            form="roll", size=ROLL),
    Receipt("26-0118-goodwill", "Pell Hardware", "High Street 40, Ashby", "004 21 0930", "335.00", form="roll",
            size=ROLL),
)  # fmt: skip


def lines_of(receipt: Receipt, claim: Claim) -> list[tuple[str, str]]:
    """What was sold and for how much: the unit with its serial numbers, then the rest."""
    serials = ", ".join(f"{serial.role} {serial.value}" for serial in claim.unit.serials)
    unit = f"{claim.unit.model} {claim.unit.kind}"
    if claim.case == "part":
        unit, serials = claim.part_sold.name, f"part {claim.part_sold.number}"
    sold = [(unit, receipt.money(Decimal(receipt.price))), (f"Serial: {serials}", "")]
    return sold + [(what, receipt.money(Decimal(amount))) for what, amount in receipt.extras]


def totals_of(receipt: Receipt) -> list[tuple[str, str]]:
    """The lines below the goods."""
    percent = f"{Decimal(receipt.tax) * 100:f}".rstrip("0").rstrip(".")
    net, tax, total = map(receipt.money, receipt.amounts())
    return [("Subtotal", net), (f"{receipt.tax_name} {percent} %", tax), ("Total", total)]


def sold_on(claim: Claim) -> date | None:
    """The day on the paper: the unit was sold, or invoiced to the dealer, or the part was sold."""
    return claim.dates.purchased or claim.unit.invoiced or claim.part_sold.sold


def buyer(receipt: Receipt, claim: Claim) -> tuple[str, ...]:
    """Who bought it: the owner or the one before, or for a unit in stock the dealer."""
    owner = claim.owner
    if receipt.sold_to:
        return (receipt.sold_to,)
    return (owner.name, *owner.address.splitlines()) if owner.name else ("Quarry Road Small Engine", "18 Quarry Road")


def heads_of(receipt: Receipt, claim: Claim) -> list[tuple[str, str]]:
    """Number, dates and payment."""
    dates = claim.dates
    heads = [("Invoice", receipt.number), ("Date of sale", str(sold_on(claim))), ("Paid", receipt.paid)]
    if dates.delivered and dates.delivered != dates.purchased:
        heads.insert(2, ("Delivered", str(dates.delivered)))
    return heads


@dataclass(frozen=True)
class Pen:
    """How a line of text looks; `right` lets it end at its place instead of beginning there."""

    size: float = 10.5
    font: str = typeface.REGULAR
    colour: Color = INK
    right: bool = False


SMALL, STRONG, AMOUNT = Pen(9, colour=GREY), Pen(11, typeface.BOLD), Pen(right=True)
SUM, FOOT = Pen(12.5, typeface.BOLD, right=True), Pen(9.5, typeface.ITALIC, GREY)
SLIP, SLIP_AMOUNT = Pen(8.4, typeface.MONO), Pen(8.4, typeface.MONO, right=True)
WHITE = HexColor("#ffffff")


def write(pdf: Canvas, text: str, at: tuple[float, float], pen: Pen) -> None:
    """One line of text."""
    pdf.setFont(pen.font, pen.size)
    pdf.setFillColor(pen.colour)
    (pdf.drawRightString if pen.right else pdf.drawString)(*at, text)


def header(pdf: Canvas, receipt: Receipt, width: float, height: float) -> None:
    """The seller's name over a band, the word Invoice, and the seller's line at the foot."""
    pdf.setFillColor(HexColor(receipt.colour))
    pdf.rect(0, height - 78, width, 78, stroke=0, fill=1)
    write(pdf, receipt.seller, (54, height - 44), Pen(20, typeface.BOLD, WHITE))
    write(pdf, receipt.street, (54, height - 62), Pen(9.5, colour=HexColor("#f0eee6")))
    write(pdf, "INVOICE", (width - 54, height - 46), Pen(15, typeface.BOLD, WHITE, right=True))
    pdf.setStrokeColor(HexColor(receipt.colour))
    pdf.line(54, 60, width - 54, 60)
    write(pdf, f"{receipt.seller} · {receipt.street}", (54, 46), SMALL)


def parties(pdf: Canvas, receipt: Receipt, claim: Claim, width: float, height: float) -> float:
    """The buyer at the left, number and dates at the right; the height left below them."""
    top = height - 122
    write(pdf, "Sold to", (54, top), SMALL)
    for row, line in enumerate(buyer(receipt, claim), start=1):
        write(pdf, line, (54, top - row * 16), STRONG if row == 1 else Pen())
    for row, (what, value) in enumerate(heads_of(receipt, claim)):
        write(pdf, what, (width - 240, top - row * 17), SMALL)
        write(pdf, value, (width - 54, top - row * 17), AMOUNT)
    return top - 112


def goods(pdf: Canvas, receipt: Receipt, claim: Claim, width: float, top: float) -> float:
    """The goods and their total; the height left below them."""
    write(pdf, "Goods", (54, top + 24), SMALL)
    write(pdf, "Amount", (width - 54, top + 24), Pen(9, colour=GREY, right=True))
    pdf.setStrokeColor(HexColor(receipt.colour))
    pdf.line(54, top + 17, width - 54, top + 17)
    for what, amount in lines_of(receipt, claim):
        write(pdf, what, (54, top) if amount else (66, top + 3), Pen() if amount else SMALL)
        write(pdf, amount, (width - 54, top), AMOUNT)
        top -= 18 if amount else 17
    pdf.line(width - 260, top + 6, width - 54, top + 6)
    for what, amount in totals_of(receipt):
        last = what == "Total"
        top -= 19
        write(pdf, what, (width - 260, top), STRONG if last else Pen())
        write(pdf, amount, (width - 54, top), SUM if last else AMOUNT)
    return top


def stamp(pdf: Canvas, claim: Claim, at: tuple[float, float]) -> None:
    """The seller's rubber stamp, put down by hand."""
    pdf.saveState()
    pdf.translate(*at)
    pdf.rotate(7)
    red = HexColor("#a8322a")
    pdf.setStrokeColor(red)
    pdf.setLineWidth(2)
    pdf.roundRect(0, 0, 150, 44, 6)
    write(pdf, "PAID", (14, 15), Pen(20, typeface.BOLD, red))
    write(pdf, str(sold_on(claim)), (80, 17), Pen(10.5, typeface.MONO, red))
    pdf.restoreState()


def sheet(pdf: Canvas, receipt: Receipt, claim: Claim) -> None:
    """An invoice on a sheet; a second page where the seller has terms."""
    pages = 2 if receipt.terms else 1
    width, height = receipt.size
    if receipt.turn == 90:
        # stored on its side, as scanners do; the engine stores such a page with its sides exchanged
        pdf.setPageRotation(90)
        pdf.translate(height, 0)
        pdf.rotate(90)
    header(pdf, receipt, width, height)
    left = goods(pdf, receipt, claim, width, parties(pdf, receipt, claim, width, height))
    stamp(pdf, claim, (70, left - 20))
    write(pdf, "Thank you. Keep this invoice: it proves the date of sale.", (54, left - 60), FOOT)
    write(pdf, f"Page 1 of {pages}", (width - 54, 46), Pen(9, colour=GREY, right=True))
    pdf.showPage()
    if receipt.terms:
        second_page(pdf, receipt, width, height)


def second_page(pdf: Canvas, receipt: Receipt, width: float, height: float) -> None:
    """The seller's terms."""
    header(pdf, receipt, width, height)
    write(pdf, f"Invoice {receipt.number}: terms of sale", (54, height - 118), Pen(13, typeface.BOLD))
    for row, line in enumerate(receipt.terms, start=1):
        write(pdf, f"{row}.  {line}", (54, height - 122 - row * 22), Pen(10))
    write(pdf, "Page 2 of 2", (width - 54, 46), Pen(9, colour=GREY, right=True))
    pdf.showPage()


def till_lines(receipt: Receipt, claim: Claim) -> list[tuple[str, str]]:
    """The lines of a till slip, each with what stands at its right edge."""
    unit, serials, *rest = lines_of(receipt, claim)
    parts = serials[0].removeprefix("Serial: ").split(", ")
    heads = [(f"{what}: {value}", "") for what, value in heads_of(receipt, claim)]
    goods_sold = [unit, *((f"  {part}", "") for part in parts), *rest]
    return [*heads, ("-", ""), *goods_sold, ("-", ""), *totals_of(receipt), ("-", ""), ("Sold to", ""),
            (buyer(receipt, claim)[0], "")]  # fmt: skip


def roll(pdf: Canvas, receipt: Receipt, claim: Claim) -> None:
    """A till slip."""
    width, height = receipt.size
    pdf.setFont(typeface.BOLD, 13)
    pdf.setFillColor(INK)
    pdf.drawCentredString(width / 2, height - 30, receipt.seller)
    pdf.setFont(typeface.REGULAR, 8)
    pdf.drawCentredString(width / 2, height - 43, receipt.street)
    top = height - 70
    for what, amount in till_lines(receipt, claim):
        if what == "-":
            write(pdf, "-" * 40, (12, top), SLIP)
        else:
            write(pdf, what, (12, top), SLIP)
            write(pdf, amount, (width - 12, top), SLIP_AMOUNT)
        top -= 14
    pdf.setFont(typeface.ITALIC, 8)
    pdf.drawCentredString(width / 2, top - 18, "Keep this slip for warranty")
    pdf.showPage()


def slip_picture(receipt: Receipt, claim: Claim) -> Image.Image:
    """A till slip as a flatbed sees it: a little askew, creased, uneven, on a grey lid."""
    slip = Image.new("L", (900, 1300), 246)
    draw = ImageDraw.Draw(slip)
    bold, mono = (ImageFont.truetype(str(FONTS / f"NotoSans{kind}.ttf"), size) for kind, size in
                  (("-Bold", 46), ("Mono-Regular", 27)))  # fmt: skip
    draw.text((450, 90), receipt.seller, font=bold, fill=40, anchor="mm")
    draw.text((450, 150), receipt.street, font=mono.font_variant(size=24), fill=70, anchor="mm")
    for row, (what, amount) in enumerate(till_lines(receipt, claim)):
        top = 240 + row * 50
        draw.text((60, top), "-" * 48 if what == "-" else what, font=mono, fill=60)
        draw.text((840, top), amount, font=mono, fill=60, anchor="ra")
    draw.line((0, 628, 900, 622), fill=214, width=4)
    page = Image.new("L", (1275, 1650), 208)
    turned = slip.rotate(1.7, expand=True, fillcolor=208, resample=Image.Resampling.BICUBIC)
    page.paste(turned, (170, 130))
    noise = Image.fromarray(np.random.default_rng(20714).integers(0, 256, (page.height, page.width), np.uint8))
    return Image.blend(page.filter(ImageFilter.GaussianBlur(0.8)), noise, 0.025)


def scan(pdf: Canvas, receipt: Receipt, claim: Claim) -> None:
    """A page that holds nothing but a picture."""
    data = io.BytesIO()
    slip_picture(receipt, claim).save(data, "JPEG", quality=60)
    pdf.drawImage(ImageReader(data), 0, 0, *receipt.size)
    pdf.showPage()


FORMS: dict[str, Any] = {"sheet": sheet, "roll": roll, "scan": scan}


def make(receipt: Receipt, claims: Path) -> Path:
    """Write one receipt into its claim's papers folder."""
    folder = claims / receipt.folder
    target = folder / "papers" / receipt.file
    target.parent.mkdir(parents=True, exist_ok=True)
    typeface.register()
    pdf = Canvas(str(target), pagesize=receipt.size, invariant=1, pageCompression=1)
    pdf.setTitle(f"Invoice {receipt.number}")
    pdf.setAuthor(receipt.seller)
    FORMS[receipt.form](pdf, receipt, read_claim_folder(folder).claim)
    pdf.save()
    return target


def main() -> None:
    """Write every receipt below the folder named on the command line."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("claims", type=Path)
    claims = parser.parse_args().claims
    for receipt in RECEIPTS:
        target = make(receipt, claims)
        print(f"{target}  {target.stat().st_size // 1024} kB")


if __name__ == "__main__":
    main()
