"""The words of a picture as the rectangles that their ink fills, in points from the upper left."""

from __future__ import annotations

import itertools
from typing import NamedTuple

from claimpack.reports.charts.picture import Box, ChartPicture, Lettering, Line, width_of


class Ink(NamedTuple):
    """A rectangle of ink and what it says."""

    said: str
    left: float
    top: float
    right: float
    bottom: float

    def touches(self, other: Ink) -> bool:
        """Whether two lie over one another."""
        across = self.left < other.right and other.left < self.right
        return across and self.top < other.bottom and other.top < self.bottom


def words_of(picture: ChartPicture) -> list[Ink]:
    """Where the words stand, in the order they are drawn."""
    return [_ink(shape) for shape in picture.shapes if isinstance(shape, Lettering)]


def _ink(word: Lettering) -> Ink:
    wide = width_of(word.said, word.size, word.strong)
    left = word.at[0] - {"start": 0, "middle": wide / 2, "end": wide}[word.side]
    return Ink(word.said, left, word.at[1] - 0.73 * word.size, left + wide, word.at[1] + 0.25 * word.size)


def word(picture: ChartPicture, said: str) -> Ink:
    """Where the first word stands that says so."""
    return next(one for one in words_of(picture) if one.said == said)


def lines_of(picture: ChartPicture, stroke: str) -> list[tuple[tuple[float, float], ...]]:
    """The points of the lines of a stroke."""
    return [shape.points for shape in picture.shapes if isinstance(shape, Line) and shape.stroke == stroke]


def quiet_words(picture: ChartPicture) -> set[str]:
    """What is said in the background."""
    return {shape.said for shape in picture.shapes if isinstance(shape, Lettering) and shape.quiet}


def strong_words(picture: ChartPicture) -> set[str]:
    """What is said in strong letters."""
    return {shape.said for shape in picture.shapes if isinstance(shape, Lettering) and shape.strong}


def clashes(picture: ChartPicture) -> list[tuple[str, str]]:
    """Words over one another, over a bar, over an upright line, or beyond the picture's edge."""
    words = words_of(picture)
    bars = [
        Ink("a bar", shape.left, shape.top, shape.left + shape.width, shape.top + shape.height)
        for shape in picture.shapes
        if isinstance(shape, Box)
    ]
    uprights = [
        Ink("a line", points[0][0], min(y for _, y in points), points[0][0] + 0.1, max(y for _, y in points))
        for points in (*lines_of(picture, "thin"), *lines_of(picture, "firm"))
        if len({x for x, _ in points}) == 1
    ]
    found = [(one.said, other.said) for one, other in itertools.combinations(words, 2) if one.touches(other)]
    found += [(one.said, other.said) for one in words for other in (*bars, *uprights) if one.touches(other)]
    return found + [(one.said, "the edge") for one in words if not _inside(one, picture)]


def _inside(ink: Ink, picture: ChartPicture) -> bool:
    return ink.left >= 0 and ink.top >= 0 and ink.right <= picture.width + 0.01 and ink.bottom <= picture.height
