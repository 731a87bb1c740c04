"""Pictures on a PDF page."""

from __future__ import annotations

from typing import Any

from reportlab.platypus import Flowable

from claimpack.printing.kept.reading_order import Element, ink_of
from claimpack.printing.palette import ACCENT, BAND, CHART_RULE, INK, QUIET, WHITE
from claimpack.printing.papers import Point
from claimpack.printing.typeface import BOLD, REGULAR, printable, register
from claimpack.reports.charts.picture import Box, ChartPicture, Dot, Fill, Lettering, Line, Patch, Shape

_STROKES = {"firm": (ACCENT, 1.6), "thin": (INK, 0.8), "rule": (CHART_RULE, 0.5), "dashed": (INK, 0.9)}
_STRIPE = 4.5


class ChartPiece(Flowable):  # type: ignore[misc]  # the PDF engine has no types
    """A picture that stands between paragraphs; alt says in words what it shows."""

    def __init__(self, picture: ChartPicture, alt: str = "") -> None:
        super().__init__()
        self._part = Element("Figure", alt) if alt else None
        self.picture = picture
        self.width, self.height = picture.width, picture.height

    def wrap(self, _width: float, _height: float) -> tuple[float, float]:
        """The room it takes."""
        return self.width, self.height

    def draw(self) -> None:
        """Draw it."""
        register()
        self.canv.saveState()
        self.canv.translate(0, self.height)
        with ink_of(self.canv, self._part):
            for shape in self.picture.shapes:
                _draw(self.canv, shape)
        self.canv.restoreState()


def _draw(canvas: Any, shape: Shape) -> None:
    if isinstance(shape, Box):
        _box(canvas, shape)
    elif isinstance(shape, Line):
        ink, width = _STROKES[shape.stroke]
        canvas.setStrokeColor(ink)
        canvas.setLineWidth(width)
        canvas.setDash(*((3, 2.5) if shape.stroke == "dashed" else ()))
        canvas.drawPath(_path(canvas, shape.points), stroke=1, fill=0)
        canvas.setDash()
    elif isinstance(shape, Patch):
        canvas.setFillColor(BAND)
        canvas.drawPath(_path(canvas, shape.points), stroke=0, fill=1)
    elif isinstance(shape, Dot):
        canvas.setFillColor(INK)
        canvas.circle(shape.at[0], -shape.at[1], shape.radius, stroke=0, fill=1)
    else:
        _words(canvas, shape)


def _path(canvas: Any, points: tuple[Point, ...]) -> Any:
    path = canvas.beginPath()
    for place, (x, y) in enumerate(points):
        (path.lineTo if place else path.moveTo)(x, -y)
    return path


def _words(canvas: Any, words: Lettering) -> None:
    canvas.setFillColor(QUIET if words.quiet else INK)
    canvas.setFont(BOLD if words.strong else REGULAR, words.size)
    put = {"start": canvas.drawString, "middle": canvas.drawCentredString, "end": canvas.drawRightString}[words.side]
    put(words.at[0], -words.at[1], printable(words.said))


def _box(canvas: Any, box: Box) -> None:
    bottom = -box.top - box.height
    canvas.setFillColor(ACCENT if box.fill == "full" else WHITE)
    canvas.rect(box.left, bottom, box.width, box.height, stroke=0, fill=1)
    canvas.setStrokeColor(ACCENT)
    canvas.setFillColor(ACCENT)
    if box.fill not in ("blank", "full"):
        canvas.saveState()
        inside = canvas.beginPath()
        inside.rect(box.left, bottom, box.width, box.height)
        canvas.clipPath(inside, stroke=0, fill=0)
        _pattern(canvas, box, bottom, box.fill)
        canvas.restoreState()
    canvas.setLineWidth(0.8)
    canvas.rect(box.left, bottom, box.width, box.height, stroke=1, fill=0)


def _pattern(canvas: Any, box: Box, bottom: float, fill: Fill) -> None:
    """Dots, stripes, or stripes both ways; the box has been made the clip."""
    right, top = box.left + box.width, bottom + box.height
    if fill == "dots":
        for column in range(int(box.width / _STRIPE) + 1):
            for row in range(int(box.height / _STRIPE) + 1):
                at = (box.left + 2.2 + column * _STRIPE, bottom + 2.2 + row * _STRIPE)
                canvas.circle(*at, 0.9, stroke=0, fill=1)
        return
    canvas.setLineWidth(1.2)
    x = box.left - box.height
    while x < right:
        canvas.line(x, bottom, x + box.height, top)
        if fill == "checks":
            canvas.line(x, top, x + box.height, bottom)
        x += _STRIPE if fill == "stripes" else _STRIPE * 0.9
