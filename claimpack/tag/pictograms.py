"""The project's own plain signs: what is dangerous about a part, and the tick of a box."""

from __future__ import annotations

from math import cos, pi, sin

from claimpack.printing.papers import Point
from claimpack.tag.drawing import Area, Drawing

_FLAME: tuple[Point, ...] = (
    (0.52, 0.10),
    (0.62, 0.24),
    (0.72, 0.38),
    (0.79, 0.54),
    (0.78, 0.70),
    (0.69, 0.83),
    (0.58, 0.90),
    (0.44, 0.90),
    (0.31, 0.83),
    (0.23, 0.70),
    (0.23, 0.56),
    (0.31, 0.42),
    (0.37, 0.52),
    (0.43, 0.45),
    (0.48, 0.29),
)
_EMBER: tuple[Point, ...] = (
    (0.52, 0.52),
    (0.60, 0.64),
    (0.62, 0.74),
    (0.56, 0.83),
    (0.46, 0.83),
    (0.40, 0.74),
    (0.43, 0.64),
)
_CELL: tuple[Point, ...] = (
    (0.14, 0.34),
    (0.24, 0.34),
    (0.24, 0.24),
    (0.38, 0.24),
    (0.38, 0.34),
    (0.62, 0.34),
    (0.62, 0.24),
    (0.76, 0.24),
    (0.76, 0.34),
    (0.86, 0.34),
    (0.86, 0.80),
    (0.14, 0.80),
)
_CRACK: tuple[Point, ...] = (
    (0.46, 0.30),
    (0.56, 0.30),
    (0.49, 0.50),
    (0.60, 0.50),
    (0.44, 0.84),
    (0.50, 0.60),
    (0.39, 0.60),
)
_MINUS: tuple[Point, ...] = ((0.22, 0.53), (0.40, 0.53), (0.40, 0.59), (0.22, 0.59))
_PLUS: tuple[Point, ...] = (
    (0.60, 0.53),
    (0.66, 0.53),
    (0.66, 0.47),
    (0.72, 0.47),
    (0.72, 0.53),
    (0.78, 0.53),
    (0.78, 0.59),
    (0.72, 0.59),
    (0.72, 0.65),
    (0.66, 0.65),
    (0.66, 0.59),
    (0.60, 0.59),
)
_STROKE: tuple[Point, ...] = ((0.43, 0.14), (0.57, 0.14), (0.545, 0.62), (0.455, 0.62))
_TICK: tuple[Point, ...] = ((0.10, 0.52), (0.24, 0.38), (0.40, 0.56), (0.78, 0.12), (0.92, 0.25), (0.41, 0.85))


def sign(drawing: Drawing, hazard: str, area: Area) -> None:
    """A white sign on a black square: a flame, a cracked battery, a wet battery, or a mark of attention."""
    drawing.fill(area)
    if hazard == "fuel":
        _lay(drawing, area, _FLAME, white=True)
        _lay(drawing, area, _EMBER, white=False)
    elif hazard in ("lithium battery", "wet battery"):
        _lay(drawing, area, _CELL, white=True)
        for corners in (_CRACK,) if hazard == "lithium battery" else (_MINUS, _PLUS):
            _lay(drawing, area, corners, white=False)
    else:
        _lay(drawing, area, _STROKE, white=True)
        _lay(drawing, area, _round(0.5, 0.78, 0.085), white=True)


def tick_box(drawing: Drawing, area: Area, ticked: bool) -> None:
    """A square to tick, or a ticked one."""
    drawing.frame(area, max(1.0, area.height / 12))
    if ticked:
        _lay(drawing, area.inset(area.width * 0.14, area.height * 0.14), _TICK, white=False)


def _lay(drawing: Drawing, area: Area, corners: tuple[Point, ...], white: bool) -> None:
    drawing.polygon(*((area.x + x * area.width, area.y + y * area.height) for x, y in corners), white=white)


def _round(x: float, y: float, radius: float) -> tuple[Point, ...]:
    return tuple((x + radius * cos(step * pi / 8), y + radius * sin(step * pi / 8)) for step in range(16))
