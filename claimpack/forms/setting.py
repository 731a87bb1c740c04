"""Text set in the room of a field: its size, where each line or character stands, and whether it had to be cut."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from claimpack.forms.looks import Look
from claimpack.printing.fitting import cut, wrapped
from claimpack.printing.lettering import width_of
from claimpack.printing.typeface import printable

LEAST = 6.0
"""The smallest type in points that text is set in before it is cut."""

_STEP = 0.25
_LEADING = 1.18
# Of the height of a room that says no size, as a person's hand fills a line; no larger than a typewriter's.
_OF_HEIGHT, _LARGEST, _LARGEST_IN_LINES = 0.68, 11.0, 10.0
_OF_BOX = 0.9
# Of the size of type: how high a capital is, and how far a line reaches above and below its baseline.
_CAPITAL, _ABOVE, _BELOW = 0.714, 0.92, 0.24
_EDGE = 2.0


class Run(NamedTuple):
    """Characters on a baseline; x and y in points from the lower left of the room."""

    x: float
    y: float
    text: str


class Setting(NamedTuple):
    """A text as it is set; cut says that not all of it had room."""

    size: float
    runs: tuple[Run, ...]
    cut: bool = False


def set_together(texts: Sequence[tuple[str, Look]]) -> list[Setting]:
    """Texts in their rooms, those of one column in one size: the largest that holds each of them."""
    sizes = [_size(text, look) for text, look in texts]
    least: dict[str, float] = {}
    for (_, look), size in zip(texts, sizes, strict=True):
        # amounts of different sizes under each other cannot be compared by eye
        least[look.column] = min(size, least.get(look.column, size))
    return [
        _set(text, look, least[look.column] if look.column else size)
        for (text, look), size in zip(texts, sizes, strict=True)
    ]


def _size(text: str, look: Look) -> float:
    """The largest size, from what the form says down to the least, in which a text has room."""
    size = look.size or _natural(look)
    steps = max(int((size - LEAST) / _STEP), 0)
    # what has room in one size has room in every smaller one
    smaller = bisect_left(range(steps), True, key=lambda step: _has_room(text, look, size - step * _STEP))
    return size - smaller * _STEP


def _natural(look: Look) -> float:
    if look.lines:
        return _LARGEST_IN_LINES
    size = min(look.height * _OF_HEIGHT, _LARGEST)
    return min(size, look.width / look.comb * 1.3) if look.comb else max(size, 1.0)


def _has_room(text: str, look: Look, size: float) -> bool:
    if look.comb:
        box = look.width / look.comb
        # a letter that touches the rule of its box is read as another one
        return all(width_of(printable(mark), look.face, size) <= box * _OF_BOX for mark in text)
    lines = _in_lines(text, look, size, anywhere=False)
    return lines is not None and len(lines) <= _most_lines(look, size)


def _in_lines(text: str, look: Look, size: float, *, anywhere: bool) -> list[str] | None:
    room = look.width - 2 * _edge(look)

    def fits(line: str) -> bool:
        return width_of(line, look.face, size) <= room

    if look.lines:
        return wrapped(printable(text), fits, anywhere)
    line = printable(text)
    return [line] if fits(line) else None


def _most_lines(look: Look, size: float) -> int:
    if not look.lines:
        return 1
    room = look.height - 2 * max(look.border, 1.0) - (_ABOVE + _BELOW) * size
    return max(1, 1 + int(room / (size * _LEADING)))


def _edge(look: Look) -> float:
    return max(2 * look.border, _EDGE)


def _set(text: str, look: Look, size: float) -> Setting:
    if look.comb:
        return Setting(size, tuple(_in_boxes(text, look, size)))
    lines = _in_lines(text, look, size, anywhere=True) or [" ".join(printable(text).split())]
    room, most = look.width - 2 * _edge(look), _most_lines(look, size)
    # what has no line of its own goes on in the last, where it is cut with a mark
    shown = [*lines[: most - 1], " ".join(lines[most - 1 :])]
    last = cut(shown[-1], lambda line: width_of(line, look.face, size) <= room)
    was_cut = last != shown[-1]
    return Setting(size, tuple(_placed([*shown[:-1], last], look, size)), was_cut)


def _in_boxes(text: str, look: Look, size: float) -> Iterable[Run]:
    box = look.width / look.comb
    empty = {"right": look.comb - len(text), "centre": (look.comb - len(text)) // 2}.get(look.align, 0)
    for place, mark in enumerate(text, max(empty, 0)):
        shown = printable(mark)
        yield Run((place + 0.5) * box - width_of(shown, look.face, size) / 2, _middle(look, size), shown)


def _middle(look: Look, size: float) -> float:
    """The baseline on which capitals and digits stand in the middle of the height."""
    return (look.height - _CAPITAL * size) / 2


def _placed(lines: Sequence[str], look: Look, size: float) -> Iterable[Run]:
    edge = _edge(look)
    top = look.height - max(look.border, 1.0) - _ABOVE * size
    for place, line in enumerate(lines):
        spare = look.width - 2 * edge - width_of(line, look.face, size)
        x = edge + {"centre": spare / 2, "right": spare}.get(look.align, 0.0)
        yield Run(x, top - place * size * _LEADING if look.lines else _middle(look, size), line)
