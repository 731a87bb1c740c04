"""Lists in titled columns, as wide as the terminal: what there is no room for is left out, the least needed first."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from claimpack.core.values.harmless import harmless

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say

_GAP = 2


class ScreenColumn(NamedTuple):
    """A column: its title and cells; `lesser` above 0 may be left out, the highest first; `most` marks its widest.

    One with `least` gives way, down to so many marks, where there is no room for it beside those that stay.
    """

    title: str
    cells: Sequence[str]
    right: bool = False
    lesser: int = 0
    most: int = 40
    least: int = 0


class Under(NamedTuple):
    """What stands under a row: its mark, as `Say.mark` names it or empty for a quiet one, and a text or nothing."""

    mark: str
    text: str


def tell_columns(say: Say, columns: Sequence[ScreenColumn], under: Sequence[Under] = (), indent: int = 2) -> None:
    """Say the rows of columns under their titles, each with the line that belongs under it, where there is one."""
    cut = [_cut(column) for column in columns if any(column.cells)]
    room = say.world.width() - indent
    fitting = _giving_way(_fitting([(column, _widest(column)) for column in cut], room), room)
    shown, widths = [column for column, _ in fitting], [width for _, width in fitting]
    lead = " " * indent
    titles = [_set(column.title, width, column.right) for column, width in zip(shown, widths, strict=True)]
    say.answer(lead + say.styled((" " * _GAP).join(titles).rstrip(), "quiet"))
    for row in range(len(shown[0].cells) if shown else 0):
        cells = [_set(column.cells[row], width, column.right) for column, width in zip(shown, widths, strict=True)]
        say.answer((lead + (" " * _GAP).join(cells)).rstrip())
        if under and under[row].text:
            mark = say.mark(under[row].mark) if under[row].mark else "·"
            say.item(mark, under[row].text, indent=indent + 2)


def _cut(column: ScreenColumn) -> ScreenColumn:
    cells = [_shortened(harmless(cell.replace("\n", " ")), column.most) for cell in column.cells]
    return column._replace(cells=cells)


def _shortened(text: str, most: int) -> str:
    if _width(text) <= most:
        return text
    while _width(text) >= most:
        text = text[:-1]
    return f"{text.rstrip()}…"


def _fitting(columns: list[tuple[ScreenColumn, int]], room: int) -> list[tuple[ScreenColumn, int]]:
    """The columns and their widths without the least needed ones, as many as must go for the rest to fit.

    One of them that gives way is made narrower before it goes.
    """
    while _overrun([(column, _least_of(column, width)) for column, width in columns], room) > 0:
        least, _ = max(columns, key=lambda each: each[0].lesser)
        if not least.lesser:
            break
        columns = [each for each in columns if each[0] is not least]
    return columns


def _least_of(column: ScreenColumn, width: int) -> int:
    return min(width, column.least) if column.lesser and column.least else width


def _giving_way(columns: list[tuple[ScreenColumn, int]], room: int) -> list[tuple[ScreenColumn, int]]:
    """The columns and their widths, the widest of those that give way made narrower until all fit."""
    while _overrun(columns, room) > 0:
        able = [place for place, (column, width) in enumerate(columns) if column.least and width > column.least]
        if not able:
            break
        widest = max(able, key=lambda place: columns[place][1])
        column, width = columns[widest]
        columns[widest] = (_cut(column._replace(most=width - 1)), width - 1)
    return columns


def _overrun(columns: Sequence[tuple[ScreenColumn, int]], room: int) -> int:
    return sum(width for _, width in columns) + _GAP * (len(columns) - 1) - room


def _widest(column: ScreenColumn) -> int:
    return max(map(_width, (column.title, *column.cells)))


def _width(text: str) -> int:
    """How many places a text takes on a terminal: wide letters take two, marks over others none."""
    if text.isascii():
        return len(text)
    return sum(
        0 if unicodedata.combining(mark) else 2 if unicodedata.east_asian_width(mark) in "WF" else 1 for mark in text
    )


def _set(text: str, width: int, right: bool) -> str:
    gap = " " * (width - _width(text))
    return gap + text if right else text + gap
