"""Marks over a picture: where ring, box, arrow and number lie, and how they are drawn, sharp at any size.

Positions are points from the lower left of the page; a mark never leaves the box of its picture.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from claimpack.core.facts.pictures import Mark
from claimpack.printing import typeface
from claimpack.printing.papers import Point

# A white casing around every black line keeps a mark visible on dark and light parts alike.
LINE, CASING = 2.0, 4.6
INK, PAPER = (0.84, 0.0, 0.42), (1.0, 1.0, 1.0)
"""Magenta, which no machine is painted in, on white: seen on dark and on bright metal, and in a grey copy."""

_EDGE = CASING / 2
# a number of two digits can be read in it on paper
_NUMBER_RADIUS = 7.0
# A mark smaller than this is not seen on paper.
_SMALLEST = 12.0
_HEAD, _HEAD_HALF = 9.0, 4.5
# A number stands beside its mark, preferably to the upper right, where fewest parts are covered.
_WAYS = ((1, 1), (-1, 1), (1, -1), (-1, -1), (1, 0), (-1, 0), (0, 1), (0, -1))


@dataclass(frozen=True, slots=True)
class Frame:
    """A rectangle in points: its lower left corner and its extent."""

    x: float
    y: float
    width: float
    height: float

    def inside(self, margin: float) -> Frame:
        """The rectangle less a margin on every side, never less than a point."""
        across, up = min(margin, self.width / 2), min(margin, self.height / 2)
        return Frame(self.x + across, self.y + up, self.width - 2 * across, self.height - 2 * up)

    def nearest(self, point: Point) -> Point:
        """The point of the rectangle nearest to one."""
        x = min(max(point[0], self.x), self.x + self.width)
        return x, min(max(point[1], self.y), self.y + self.height)

    def holds(self, point: Point) -> bool:
        """Whether a point lies in the rectangle or on its edge."""
        near = self.nearest(point)
        return math.dist(near, point) < 1e-6


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle by its centre and radius."""

    centre: Point
    radius: float


@dataclass(frozen=True, slots=True)
class Arrow:
    """A line that ends in a head at its tip."""

    tip: Point
    tail: Point


@dataclass(frozen=True, slots=True)
class Badge:
    """A number in a disc."""

    centre: Point
    radius: float
    number: int


MarkShape = Ring | Frame | Arrow


@dataclass(frozen=True, slots=True)
class PlacedMark:
    """A mark where it is drawn, and its number beside it."""

    shape: MarkShape
    badge: Badge


def place_marks(marks: Sequence[Mark], picture: Frame) -> tuple[PlacedMark, ...]:
    """Where every mark and its number lie, in the order given; numbers start at 1 and keep clear of each other."""
    shapes = [place(mark, picture) for mark in marks]
    badges: list[Badge] = []
    for number, shape in enumerate(shapes, 1):
        badges.append(_badge(number, shape, picture, badges))
    return tuple(PlacedMark(shape, badge) for shape, badge in zip(shapes, badges, strict=True))


def place(mark: Mark, picture: Frame) -> MarkShape:
    """Where a mark lies: a ring or a box (a square) as large as its size says, an arrow with its tip at the point.

    A mark that would leave the picture is moved, cut or made shorter; what it points at stays in it.
    """
    room = picture.inside(_EDGE)
    # marks count from the upper left as people look at a picture, pages from the lower left
    at = room.nearest((picture.x + float(mark.x) * picture.width, picture.y + (1 - float(mark.y)) * picture.height))
    # a share of the width for both directions, or a ring would be an ellipse on a tall picture
    extent = max(float(mark.size) * picture.width, _SMALLEST)
    if mark.shape == "ring":
        return _ring(at, extent, room)
    return _box(at, extent, room) if mark.shape == "box" else _arrow(at, extent, room)


def _ring(at: Point, diameter: float, room: Frame) -> Ring:
    radius = min(diameter, room.width, room.height) / 2
    # moved inward as far as it must, and no further than it still holds its point
    inside = room.inside(radius).nearest(at)
    # Moved further, a ring in a corner would no longer hold its point; there the picture's edge cuts it.
    reach = radius / 2
    return Ring(Frame(at[0] - reach, at[1] - reach, radius, radius).nearest(inside), radius)


def _box(at: Point, side: float, room: Frame) -> Frame:
    # a box at the very edge keeps the least size that is seen
    left = min(at[0], room.x + room.width - min(_SMALLEST, room.width))
    top = max(at[1], room.y + min(_SMALLEST, room.height))
    right = min(left + side, room.x + room.width)
    bottom = max(top - side, room.y)
    return Frame(left, bottom, right - left, top - bottom)


def _arrow(tip: Point, length: float, room: Frame) -> Arrow:
    middle = (room.x + room.width / 2, room.y + room.height / 2)
    # the arrow comes from the middle, where there is room for its tail
    across, up = (1 if tip[i] < middle[i] else -1 for i in (0, 1))
    reach = max(length, 2 * _SMALLEST) / math.sqrt(2)
    return Arrow(tip, room.nearest((tip[0] + across * reach, tip[1] + up * reach)))


def _badge(number: int, shape: MarkShape, picture: Frame, others: Sequence[Badge]) -> Badge:
    radius = min(_NUMBER_RADIUS, picture.width / 4, picture.height / 4)
    room = picture.inside(radius)
    places = list(_beside(shape, radius + CASING / 2))
    # a number half outside the picture is no number
    fitting = [place for place in places if room.holds(place)] or [room.nearest(place) for place in places]
    # two numbers over each other are neither
    free = [place for place in fitting if all(math.dist(place, other.centre) >= 2 * radius for other in others)]
    return Badge((free or fitting)[0], radius, number)


def _beside(shape: MarkShape, distance: float) -> Iterator[Point]:
    if isinstance(shape, Arrow):
        along = math.atan2(shape.tail[1] - shape.tip[1], shape.tail[0] - shape.tip[0])
        for turn in (0.0, 1.2, -1.2, 2.0, -2.0):
            angle = along + turn
            yield shape.tail[0] + distance * math.cos(angle), shape.tail[1] + distance * math.sin(angle)
        yield shape.tail
    elif isinstance(shape, Ring):
        for across, up in _WAYS:
            reach = (shape.radius + distance) / math.hypot(across, up)
            yield shape.centre[0] + across * reach, shape.centre[1] + up * reach
    else:
        half = (shape.width / 2, shape.height / 2)
        for across, up in _WAYS:
            x = shape.x + half[0] + across * (half[0] + distance * (0.75 if up else 1))
            yield x, shape.y + half[1] + up * (half[1] + distance * (0.75 if across else 1))


def mark_notes(marks: Sequence[Mark]) -> tuple[tuple[int, str], ...]:
    """The notes to print below a picture, each with the number of its mark; marks without a note are left out."""
    return tuple((number, mark.note) for number, mark in enumerate(marks, 1) if mark.note)


def draw_marks(canvas: Any, marks: Sequence[Mark], x: float, y: float, width: float, height: float) -> None:
    """Draw marks as vectors over a picture that was drawn with its lower left at x, y; all in points."""
    if not marks:
        return
    typeface.register()
    placed = place_marks(marks, Frame(x, y, width, height))
    canvas.saveState()
    edge = canvas.beginPath()
    edge.rect(x, y, width, height)
    canvas.clipPath(edge, stroke=0, fill=0)
    canvas.setLineCap(1)
    canvas.setLineJoin(1)
    # all casings before all lines, so that no casing cuts another mark in two
    for (colour, stroke), mark in itertools.product(((PAPER, CASING), (INK, LINE)), placed):
        _stroke(canvas, mark.shape, colour, stroke)
    for mark in placed:
        _draw_badge(canvas, mark.badge)
    canvas.restoreState()


def _stroke(canvas: Any, shape: MarkShape, colour: tuple[float, float, float], stroke: float) -> None:
    canvas.setStrokeColorRGB(*colour)
    canvas.setFillColorRGB(*colour)
    canvas.setLineWidth(stroke)
    if isinstance(shape, Ring):
        canvas.circle(*shape.centre, shape.radius, stroke=1, fill=0)
    elif isinstance(shape, Frame):
        canvas.rect(shape.x, shape.y, shape.width, shape.height, stroke=1, fill=0)
    else:
        (left, low), (right, high) = head_corners(shape)
        canvas.line(*shape.tail, (left + right) / 2, (low + high) / 2)
        _draw_head(canvas, shape, stroke)


def _draw_head(canvas: Any, arrow: Arrow, stroke: float) -> None:
    # The head's outline is as wide as the casing shows, so that the white rim runs all around it.
    canvas.setLineWidth(max(stroke - LINE, 0.01))
    path = canvas.beginPath()
    path.moveTo(*arrow.tip)
    for corner in head_corners(arrow):
        path.lineTo(*corner)
    path.close()
    canvas.drawPath(path, stroke=1, fill=1)


def head_corners(arrow: Arrow) -> tuple[Point, Point]:
    """The two rear corners of an arrow's head; a short arrow has a small one."""
    length = math.dist(arrow.tip, arrow.tail) or 1.0
    ahead = ((arrow.tip[0] - arrow.tail[0]) / length, (arrow.tip[1] - arrow.tail[1]) / length)
    deep = min(_HEAD, length)
    half = _HEAD_HALF * deep / _HEAD
    base = (arrow.tip[0] - ahead[0] * deep, arrow.tip[1] - ahead[1] * deep)
    return (base[0] - ahead[1] * half, base[1] + ahead[0] * half), (
        base[0] + ahead[1] * half,
        base[1] - ahead[0] * half,
    )


def _draw_badge(canvas: Any, badge: Badge) -> None:
    canvas.setFillColorRGB(*INK)
    canvas.setStrokeColorRGB(*PAPER)
    canvas.setLineWidth(1)
    canvas.circle(*badge.centre, badge.radius - 0.5, stroke=1, fill=1)
    # two digits are set smaller, to stay in the disc
    letters = badge.radius * (1.3 if badge.number < 10 else 1.05)
    canvas.setFillColorRGB(*PAPER)
    canvas.setFont(typeface.BOLD, letters)
    canvas.drawCentredString(badge.centre[0], badge.centre[1] - letters * 0.357, str(badge.number))
