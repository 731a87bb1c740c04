"""Text made to fit its room: wrapped between words, then set smaller, and cut only with a mark and a note."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from claimpack.printing.fitting import Fits, cut, wrapped
from claimpack.tag.drawing import Area, Drawing, Text, width_of

PITCH = 1.18
_STEP = 0.25
_CAPITAL = 0.714
# Letters without tails: lines of codes and numbers can stand closer.
_FLAT = re.compile(r"[A-IK-PR-Z0-9 .:/-]*")


@dataclass(frozen=True, slots=True)
class Style:
    """How text is set: face, largest and smallest size in points, where it stands in its room, and in which ink.

    One line is taken rather than several where its size is at least `one_line` of theirs.
    """

    face: str
    largest: float
    least: float = 6
    across: str = "left"
    down: str = "top"
    white: bool = False
    one_line: float = 0.75


@dataclass(frozen=True, slots=True)
class FittedLines:
    """Lines of text at the size that fits."""

    lines: tuple[str, ...]
    size: float
    cut: bool = False


def ascent(text: str) -> float:
    """How far the ink of a text can rise over its baseline, for a size of 1."""
    if _FLAT.fullmatch(text):
        return 0.73
    return 0.79 if text.isascii() else 0.97


def descent(text: str) -> float:
    """How far the ink of a text can fall under its baseline, for a size of 1."""
    return 0.02 if _FLAT.fullmatch(text) else 0.25


def tallness(lines: tuple[str, ...] | list[str]) -> float:
    """The height of lines set one under the other, for a size of 1."""
    return (len(lines) - 1) * PITCH + ascent(lines[0]) + descent(lines[-1])


def fitted(text: str, room: Area, style: Style) -> FittedLines:
    """The text at the largest size that fits its room; one line is worth a somewhat smaller size."""

    def fits_in(size: float) -> Fits:
        return lambda line: width_of(line, style.face, size) <= room.width + 0.01

    one, many = (_largest(text, room, style, fits_in, way) for way in ("one", "many"))
    if one and (not many or one.size >= style.one_line * many.size):
        return one
    found = many or _largest(text, room, style, fits_in, "broken")
    return found or _shortened(text, room, style, fits_in(style.least))


def _largest(text: str, room: Area, style: Style, fits_in: Callable[[float], Fits], way: str) -> FittedLines | None:
    size = style.largest
    while size >= style.least - 0.001:
        if way == "one":
            lines = [text] if "\n" not in text and fits_in(size)(text) else None
        else:
            lines = wrapped(text, fits_in(size), way == "broken")
        if lines and tallness(lines) * size <= room.height + 0.01:
            return FittedLines(tuple(lines), size)
        size -= _STEP
    return None


def _shortened(text: str, room: Area, style: Style, fits: Fits) -> FittedLines:
    whole = wrapped(text, fits, anywhere=True) or [text]
    count = max(1, int((room.height / style.least - 1.22) / PITCH) + 1)
    return FittedLines(tuple(shortened(whole, count, fits)), style.least, cut=True)


def shortened(lines: list[str], count: int, fits: Fits) -> list[str]:
    """The first lines, the last of them ending in a mark that something is left out."""
    kept = lines[:count]
    return [*kept[:-1], cut(kept[-1], lambda line: line.endswith("…") and fits(line))]


def write(drawing: Drawing, text: str, room: Area, style: Style) -> FittedLines:
    """Set a text in its room.

    Returns:
        The lines and size it was set in; a text that had to be cut is noted in the drawing.
    """
    text = drawing.printable(text)
    found = fitted(text, room, style)
    if found.cut:
        drawing.note(f"there is no room for all of {text[:60]!r}; it ends in …")
    baseline = _first_baseline(found, room, style.down)
    for line in found.lines:
        spare = room.width - width_of(line, style.face, found.size)
        x = room.x + {"left": 0.0, "middle": spare / 2, "right": spare}[style.across]
        drawing.text(Text(x, baseline, line, style.face, found.size, style.white))
        baseline += PITCH * found.size
    return found


def _first_baseline(found: FittedLines, room: Area, down: str) -> float:
    """Lines stand at the top, at the bottom, or with their capitals in the middle, if the ink stays in the room."""
    highest = room.y + ascent(found.lines[0]) * found.size
    lowest = highest + room.height - tallness(found.lines) * found.size
    middle = room.y + (room.height + (_CAPITAL - (len(found.lines) - 1) * PITCH) * found.size) / 2
    return {"top": highest, "bottom": lowest, "middle": max(highest, min(lowest, middle))}[down]
