"""Sizes of tags, labels, paper and printer dots against published charts."""

from __future__ import annotations

import tomllib
from datetime import date
from decimal import Decimal
from io import BytesIO
from pathlib import Path

import pikepdf
import pypdf
import pytest
from PIL import Image

from claimpack.core.holding.tags import TagFacts
from claimpack.printing.lengths import points
from claimpack.tag.barcodes import module_mm
from claimpack.tag.draw import printer_dots, tag_pdf, tag_png
from claimpack.tag.stock import stock_from

CHARTS = "two public charts of shipping tag sizes"
STOCKS = Path(__file__).parents[2] / "templates" / "tag"


@pytest.fixture
def a_stock():
    def read(name):
        content = (STOCKS / f"{name}.toml").read_text(encoding="utf-8")
        return stock_from(tomllib.loads(content, parse_float=Decimal), f"{name}.toml")

    return read


@pytest.fixture
def tag():
    return TagFacts(
        claim="26-0041", place=1, of=1, maker="Halden", model="CS-70", serial="HC70-118-20417", part="short block",
        part_number="", part_serial="", failed_on=date(2026, 2, 2), held_since=None, hold_until=None, hold_terms="",
        shelf="B3", boxed=False, drained=True, hazard="fuel", cautions=("Drain first.",),
    )  # fmt: skip


@pytest.fixture
def page_size(a_stock, tag):
    def read(name):
        box = pypdf.PdfReader(BytesIO(tag_pdf([tag], a_stock(name)))).pages[0].mediabox
        return pytest.approx((float(box.width), float(box.height)), abs=0.01)

    return read


@pytest.mark.source(CHARTS)
@pytest.mark.parametrize(
    ("width", "height", "in_points"),
    [
        ("2.75 in", "1.375 in", (198, 99)),
        ("3.25 in", "1.625 in", (234, 117)),
        ("3.75 in", "1.875 in", (270, 135)),
        ("4.25 in", "2.125 in", (306, 153)),
        ("5.25 in", "2.625 in", (378, 189)),
        ("5.75 in", "2.875 in", (414, 207)),
    ],
    ids=["no. 1", "no. 2", "no. 3", "no. 4", "no. 6", "no. 7"],
)
def test_shipping_tags_in_points(width, height, in_points):
    assert (points(width), points(height)) == in_points


@pytest.mark.source(CHARTS)
def test_tag_no_5(page_size):
    assert page_size("shipping-tag-5") == (342, 171)
    assert (points("120.65 mm"), points("60.325 mm")) == (pytest.approx(342), pytest.approx(171))


@pytest.mark.source(CHARTS)
def test_tag_no_8(page_size):
    assert page_size("shipping-tag-8") == (450, 225)
    assert (points("158.75 mm"), points("79.375 mm")) == (pytest.approx(450), pytest.approx(225))


@pytest.mark.source("label of 4 x 6 in: 101.6 x 152.4 mm, 72 points an inch")
def test_label_4x6(page_size):
    assert page_size("label-4x6") == (288, 432)
    assert (points("101.6 mm"), points("152.4 mm")) == (pytest.approx(288), pytest.approx(432))


@pytest.mark.source("ANSI/ASME Y14.1 Letter, 8.5 x 11 in, and Legal, 8.5 x 14 in, at 72 points an inch")
def test_letter_and_legal(page_size):
    assert page_size("sheet-letter") == (612, 792)
    assert points("14 in") == 1008


@pytest.mark.source("ISO 216 A4, 210 x 297 mm, A5 and A6, at 72 points an inch")
def test_a4_and_its_halves(page_size):
    assert page_size("sheet-a4") == (595.276, 841.890)
    assert [points(f"{side} mm") for side in (148, 105)] == pytest.approx([419.528, 297.638], abs=0.001)


@pytest.mark.source("4 x 6 in times dots per inch")
@pytest.mark.parametrize(("dpi", "size"), [(203, (812, 1218)), (300, (1200, 1800))])
def test_dots_of_a_4x6_label(a_stock, tag, dpi, size):
    assert Image.open(BytesIO(tag_png(tag, a_stock("label-4x6"), dpi))).size == size


@pytest.mark.source("printer manual: a dot of 0.125 mm, 8 dots a millimetre, sold as 203 dpi")
def test_203_dots_an_inch_are_eight_a_millimetre(a_stock):
    assert printer_dots(a_stock("label-4x6")) == 203.2
    assert module_mm(203.2, 1) == pytest.approx(0.125)


@pytest.mark.source("25.4 mm an inch: 11.81 dots a millimetre, a dot of 0.0847 mm")
def test_300_dots_an_inch_are_three_hundred(a_stock):
    assert printer_dots(a_stock("roll-62mm")) == 300
    assert module_mm(300, 1) == pytest.approx(0.0847, abs=0.0001)


@pytest.mark.source("arithmetic: 2 dots of 0.125 mm are 0.250 mm or 0.709 points")
def test_a_bar_in_a_pdf_for_203_dots_is_a_whole_number_of_them(a_stock, tag):
    long = tag._replace(claim="QRSE-ASHBY-2026-WA-00413")
    with pikepdf.open(BytesIO(tag_pdf([long], a_stock("label-4x6")))) as document:
        boxes = [
            step.operands for step in pikepdf.parse_content_stream(document.pages[0]) if str(step.operator) == "re"
        ]
    bars = [float(box[2]) for box in boxes if 35 < float(box[3]) < 41]
    assert min(bars) == pytest.approx(0.709, abs=0.001)
    assert all(abs(bar / 0.70866 - round(bar / 0.70866)) < 0.01 for bar in bars)
