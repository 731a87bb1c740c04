"""What a PDF draws beside its words: lines and areas and where they lie, read back by a reader of another make."""

from __future__ import annotations

import io
from collections.abc import Callable
from ctypes import c_float, c_int, c_uint, create_string_buffer
from typing import Any, NamedTuple

import pypdfium2.raw as pdfium
from pypdfium2 import PdfDocument, PdfObject, PdfPage

from claimpack.printing.kept.reading_order import ReadableCanvas
from claimpack.printing.typeface import register

Point = tuple[float, float]


class Ink(NamedTuple):
    """A path: its points in points from the lower left, how broad its line is, and how it is drawn."""

    points: tuple[Point, ...]
    broad: float = 0.0
    is_filled: bool = False
    is_dashed: bool = False
    colour: str = ""

    @property
    def left(self) -> float:
        return min(x for x, _ in self.points)

    @property
    def right(self) -> float:
        return max(x for x, _ in self.points)

    @property
    def bottom(self) -> float:
        return min(y for _, y in self.points)

    @property
    def top(self) -> float:
        return max(y for _, y in self.points)

    @property
    def middle(self) -> Point:
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    @property
    def is_upright(self) -> bool:
        return not self.is_filled and self.right - self.left < 0.01

    @property
    def is_level(self) -> bool:
        return not self.is_filled and self.top - self.bottom < 0.01


class Said(NamedTuple):
    """A run of words: where it stands, its typeface and its colour."""

    words: str
    left: float
    bottom: float
    right: float
    top: float
    face: str
    colour: str


def page_of(piece: Any, width: float, room: float = 700.0) -> PdfPage:
    """A piece of a page alone on one of its own size, in another program's hands."""
    wide, high = piece.wrap(width, room)
    return page_with(lambda canvas: piece.drawOn(canvas, 0, 0), (wide, high))


def page_with(draw: Callable[[Any], Any], size: tuple[float, float]) -> PdfPage:
    """A page that something is drawn on, in another program's hands."""
    written = io.BytesIO()
    register()
    canvas = ReadableCanvas(written, pagesize=size)
    draw(canvas)
    canvas.showPage()
    canvas.save()
    return PdfDocument(written.getvalue())[0]


def ink_on(page: PdfPage) -> list[Ink]:
    """Every line and area, in the order they are drawn."""
    return [_ink(path) for path in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH])]


def words_on(page: PdfPage) -> list[Said]:
    """Every run of words, in the order they are drawn."""
    said = page.get_textpage().get_text_bounded
    runs = list(page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_TEXT]))
    return [
        Said(words, *run.get_bounds(), _face(run), _colour(pdfium.FPDFPageObj_GetFillColor, run))
        for run in runs
        if (words := said(*run.get_bounds()).strip())
    ]


def place_of(page: PdfPage, said: str) -> tuple[float, float, float, float]:
    """Where the first such words stand, also inside a form: left, bottom, right, top."""
    text = page.get_textpage()
    first, count = text.search(said, match_case=True).get_next()
    boxes = [text.get_charbox(place) for place in range(first, first + count)]
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    return min(lefts), min(bottoms), max(rights), max(tops)


def _ink(path: PdfObject) -> Ink:
    fill, is_stroked, broad, x, y = c_int(), c_int(), c_float(), c_float(), c_float()
    pdfium.FPDFPath_GetDrawMode(path, fill, is_stroked)
    pdfium.FPDFPageObj_GetStrokeWidth(path, broad)
    matrix, points = path.get_matrix(), list[Point]()
    for place in range(pdfium.FPDFPath_CountSegments(path)):
        pdfium.FPDFPathSegment_GetPoint(pdfium.FPDFPath_GetPathSegment(path, place), x, y)
        points.append(matrix.on_point(x.value, y.value))
    return Ink(
        tuple(points),
        broad.value if is_stroked else 0.0,
        bool(fill.value),
        pdfium.FPDFPageObj_GetDashCount(path) > 0,
        _colour(pdfium.FPDFPageObj_GetStrokeColor if is_stroked else pdfium.FPDFPageObj_GetFillColor, path),
    )


def _colour(get: Callable[..., Any], thing: PdfObject) -> str:
    red, green, blue, alpha = c_uint(), c_uint(), c_uint(), c_uint()
    get(thing, red, green, blue, alpha)
    return f"#{red.value:02x}{green.value:02x}{blue.value:02x}"


def _face(run: PdfObject) -> str:
    name = create_string_buffer(100)
    pdfium.FPDFFont_GetBaseFontName(pdfium.FPDFTextObj_GetFont(run), name, len(name))
    return name.value.decode()
