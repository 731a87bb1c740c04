"""What is drawn on a tag, in points from its upper left corner; the PDF and the picture are both drawn from it."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache, lru_cache
from typing import NamedTuple

from claimpack.printing.papers import Point
from claimpack.printing.scripts.lines import in_faces, in_order
from claimpack.printing.typeface import not_printed, printable, register, unprintable


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle: its upper left corner, width and height, in points."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """The right edge."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """The lower edge."""
        return self.y + self.height

    def inset(self, across: float, down: float) -> Area:
        """The area less a border left and right, above and below."""
        return Area(self.x + across, self.y + down, self.width - 2 * across, self.height - 2 * down)

    def below(self, height: float) -> Area:
        """What is left under a strip of that height."""
        return Area(self.x, self.y + height, self.width, self.height - height)

    def after(self, width: float) -> Area:
        """What is left to the right of a strip of that width."""
        return Area(self.x + width, self.y, self.width - width, self.height)


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text from the left end of its baseline."""

    x: float
    baseline: float
    text: str
    face: str
    size: float
    white: bool


@dataclass(frozen=True, slots=True)
class Polygon:
    """A filled polygon."""

    corners: tuple[Point, ...]
    white: bool


@dataclass(frozen=True, slots=True)
class Modules:
    """Bars or squares of a barcode: rows of whole dots, `dot` points each; x, y is the corner of the first cell.

    Alt says in words what the code says.
    """

    x: float
    y: float
    dot: float
    cells: tuple[tuple[int, int, int, int], ...]
    alt: str = ""


@dataclass
class Drawing:
    """Everything on one tag, in the order it is laid down, and what the reader should be told about it."""

    width: float
    height: float
    dot: float
    texts: list[Text] = field(default_factory=list)
    marks: list[Area | Polygon | Modules] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def text(self, text: Text) -> None:
        """Lay down a line of text."""
        self.texts.append(text)

    def fill(self, area: Area) -> None:
        """Blacken an area."""
        self.marks.append(area)

    def frame(self, area: Area, line: float) -> None:
        """Draw the outline of an area, the line inside it."""
        self.fill(Area(area.x, area.y, area.width, line))
        self.fill(Area(area.x, area.bottom - line, area.width, line))
        self.fill(Area(area.x, area.y, line, area.height))
        self.fill(Area(area.right - line, area.y, line, area.height))

    def polygon(self, *corners: Point, white: bool = False) -> None:
        """Fill a polygon."""
        self.marks.append(Polygon(corners, white))

    def cells(self, x: float, y: float, cells: tuple[tuple[int, int, int, int], ...], alt: str) -> None:
        """Lay down barcode cells: left, top, width and height in dots each; the corner moves onto a whole dot."""
        # a code between two dots would have bars of uneven width
        corner = round(x / self.dot) * self.dot, round(y / self.dot) * self.dot
        self.marks.append(Modules(*corner, self.dot, cells, alt))

    def note(self, note: str) -> None:
        """Remember what the reader should be told."""
        if note not in self.notes:
            self.notes.append(note)

    def printable(self, text: str) -> str:
        """The text as it can be printed; what cannot is noted."""
        for name in unprintable([text]):
            self.note(not_printed(name))
        return printable(text)


@cache
def _advance(face: str, mark: str) -> float:
    from reportlab.pdfbase import pdfmetrics

    register()
    return float(pdfmetrics.stringWidth(mark, face, 1000)) / 1000


def width_of(text: str, face: str, size: float) -> float:
    """The width of a line of text in points."""
    return _width(face, text) * size


@lru_cache(maxsize=20_000)
def _width(face: str, text: str) -> float:
    return sum(_advance(one, mark) for one, run in in_faces(in_order(text), face) for mark in run)


class Glyph(NamedTuple):
    """A letter, its typeface, and where it begins on its baseline."""

    mark: str
    face: str
    x: float
    y: float


def letters(text: Text) -> list[Glyph]:
    """The letters of a line from left to right as they are seen."""
    at, found = text.x, []
    for face, run in in_faces(in_order(text.text), text.face):
        for mark in run:
            found.append(Glyph(mark, face, at, text.baseline))
            at += _advance(face, mark) * text.size
    return found
