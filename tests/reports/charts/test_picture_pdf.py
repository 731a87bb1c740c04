import io

import pypdfium2
import pytest
from reportlab.pdfgen.canvas import Canvas

from claimpack.reports.charts.picture import FILLS, Box, ChartPicture, Dot, Lettering, Line, Patch
from claimpack.reports.charts.picture_pdf import ChartPiece


def rendered(*shapes):
    stream = io.BytesIO()
    canvas = Canvas(stream, pagesize=(100, 100), invariant=1)
    ChartPiece(ChartPicture(100, 100, shapes)).drawOn(canvas, 0, 0)
    canvas.save()
    return pypdfium2.PdfDocument(stream.getvalue())[0].render(scale=3).to_pil().convert("L")


def ink(picture):
    counts = picture.histogram()
    return sum((255 - grey) * count for grey, count in enumerate(counts))


def test_fills_grow_darker_from_young_to_old():
    darkness = [ink(rendered(Box(10, 10, 80, 80, fill))) for fill in FILLS[5]]
    assert darkness == sorted(darkness)
    assert len(set(darkness)) == 5


def test_a_pattern_stays_inside_its_box():
    picture = rendered(Box(40, 40, 20, 20, "checks"))
    assert picture.crop((0, 0, 116, 300)).getextrema() == (255, 255)


def test_a_box_lies_where_it_is_measured_from_the_top():
    picture = rendered(Box(0, 0, 100, 20))
    assert picture.getpixel((150, 30)) < 128 < picture.getpixel((150, 90))


@pytest.mark.parametrize(
    "shape",
    [
        Line(((0, 50), (100, 50))),
        Line(((0, 50), (100, 50)), "dashed"),
        Patch(((0, 0), (100, 0), (100, 100))),
        Dot((50, 50)),
        Lettering("words", (50, 50), "middle"),
    ],
)
def test_every_shape_leaves_ink(shape):
    assert ink(rendered(shape)) > 0


def test_letters_no_typeface_has_are_told_by_name():
    assert ink(rendered(Lettering("ไทย", (10, 50)))) > ink(rendered(Lettering("x", (10, 50))))


@pytest.mark.parametrize("fill", ["dots", "stripes", "checks"])
def test_a_pattern_fills_its_box_evenly(fill):
    picture = rendered(Box(10, 30, 80, 40, fill))
    quarters = [ink(picture.crop((x, y, x + 114, y + 54))) for x in (33, 153) for y in (93, 153)]
    assert max(quarters) < 1.2 * min(quarters)


def test_only_a_dashed_line_has_gaps():
    full, dashed = (
        [rendered(Line(((0, 50), (100, 50)), stroke)).getpixel((x, 150)) for x in range(300)]
        for stroke in ("firm", "dashed")
    )
    assert (max(full) < 200, max(dashed), min(dashed) < 200) == (True, 255, True)
