"""Pictures before they are drawn: boxes, lines, areas and words on a plane, measured in points from the upper left."""

from __future__ import annotations

from typing import Literal, NamedTuple

from claimpack.printing.fitting import cut
from claimpack.printing.papers import Point
from claimpack.printing.typeface import BOLD, REGULAR, printable

Fill = Literal["blank", "dots", "stripes", "checks", "full", "band"]
"""How an area is filled: five that tell apart without colour, from light to dark, and a tint for a band."""

Stroke = Literal["firm", "thin", "rule", "dashed", "none"]
Anchor = Literal["start", "middle", "end"]

FILLS: dict[int, tuple[Fill, ...]] = {
    2: ("blank", "full"),
    3: ("blank", "stripes", "full"),
    4: ("blank", "stripes", "checks", "full"),
    5: ("blank", "dots", "stripes", "checks", "full"),
}
"""Fills for so many kinds, light to dark."""


class Box(NamedTuple):
    """A filled rectangle with an outline."""

    left: float
    top: float
    width: float
    height: float
    fill: Fill = "full"


class Line(NamedTuple):
    """A line through points."""

    points: tuple[Point, ...]
    stroke: Stroke = "firm"


class Patch(NamedTuple):
    """A filled shape inside points."""

    points: tuple[Point, ...]
    fill: Fill = "band"


class Dot(NamedTuple):
    """A full dot."""

    at: Point
    radius: float = 3.2


class Lettering(NamedTuple):
    """Words at a point: their base line, and which side of them it is at."""

    said: str
    at: Point
    side: Anchor = "start"
    strong: bool = False
    quiet: bool = False
    size: float = 9.0


Shape = Box | Line | Patch | Dot | Lettering


class ChartPicture(NamedTuple):
    """A picture, in the order it is drawn."""

    width: float
    height: float
    shapes: tuple[Shape, ...]


# Words as wide as their room fit it, whatever the last digit says.
_HAIR = 0.01


def width_of(said: str, size: float = 9.0, strong: bool = False) -> float:
    """How wide words are, in points."""
    from claimpack.printing.lettering import width_of as width_in

    return width_in(printable(said), BOLD if strong else REGULAR, size)


def fitted(said: str, room: float, size: float = 9.0, strong: bool = False) -> str:
    """Words as far as they fit in the room, with a mark where some are left out."""
    return cut(" ".join(said.split()), lambda line: width_of(line, size, strong) <= room + _HAIR)
