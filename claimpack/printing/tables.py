"""Tables and grids: broken between rows where a page ends, column titles repeated on every page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from reportlab.platypus import Table, TableStyle

from claimpack.printing.lettering import text
from claimpack.printing.palette import ACCENT, INK, RULE, TINT
from claimpack.printing.typeface import REGULAR, register

Command = tuple[Any, ...]
"""How part of a grid is ruled, filled or padded: what, first cell, last cell, and by how much."""

ALL = ((0, 0), (-1, -1))
"""Every cell."""

_TALL = 240.0
"""Rows up to this height in points go on a new page rather than be torn."""


def grid(rows: Sequence[Sequence[Any]], widths: Sequence[float], commands: Sequence[Command], titles: int = 0) -> Any:
    """A grid set from the top of its cells.

    Args:
        rows: the pieces, a row after the other.
        widths: of each column, in points.
        commands: how it is ruled, filled and padded.
        titles: how many of the first rows are repeated on every page.
    """
    register()
    cells = [list(row) for row in rows]
    table = Table(cells, colWidths=list(widths), repeatRows=titles, hAlign="LEFT")
    table.setStyle(TableStyle([("FONTNAME", *ALL, REGULAR), ("VALIGN", *ALL, "TOP"), *commands]))
    table.wrap(sum(widths), 10_000)
    table.splitInRow = int(max(table._rowHeights) > _TALL)  # noqa: SLF001 - nothing public tells it
    return table


def padded(left: float, right: float, top: float, bottom: float) -> list[Command]:
    """The same room around every piece, in points."""
    return [
        ("LEFTPADDING", *ALL, left),
        ("RIGHTPADDING", *ALL, right),
        ("TOPPADDING", *ALL, top),
        ("BOTTOMPADDING", *ALL, bottom),
    ]


def side_by_side(pieces: Sequence[Any], widths: Sequence[float], space: float = 0.0) -> Any:
    """Pieces beside each other with space between; a column too tall for the page goes on overleaf."""
    return grid([pieces], widths, [*padded(0, 0, 0, 0), ("RIGHTPADDING", (0, 0), (-2, -1), space)])


def framed(pieces: Sequence[Any], width: float, commands: Sequence[Command] = ()) -> Any:
    """Pieces one under the other in a box that may go on overleaf; the commands say how it is ruled and filled."""
    edges = [("TOPPADDING", (0, 0), (-1, 0), 7), ("BOTTOMPADDING", (0, -1), (-1, -1), 7)]
    return grid([[piece] for piece in pieces], [width], [*padded(10, 10, 1.5, 1.5), *edges, *commands])


_RULING: list[Command] = [
    *padded(3, 3, 2, 2.8),
    ("VALIGN", (0, 0), (-1, 0), "BOTTOM"),
    ("LINEBELOW", (0, 0), (-1, 0), 1, ACCENT),
    ("LINEBELOW", (0, 1), (-1, -1), 0.25, RULE),
]
_CLOSE: list[Command] = [("TOPPADDING", (0, 1), (-1, -1), 1), ("BOTTOMPADDING", (0, 1), (-1, -1), 1.8)]
_TOTALLING: list[Command] = [("LINEABOVE", (0, -1), (-1, -1), 1, INK), ("BACKGROUND", (0, -1), (-1, -1), TINT)]


_APART = 12.0
"""Between figures set flush right and the words beside them, in points."""

_FEW = 3
"""Titles and two rows."""

_NONE_ALONE: list[Command] = [("NOSPLIT", (0, 1), (0, 2)), ("NOSPLIT", (0, -2), (0, -1))]
"""No first and no last row stands alone where a page ends; rows taller than most are torn all the same."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its title, its share of the width, and whether it is set flush right."""

    title: str
    share: float
    right: bool = False


def ruled_table(
    columns: Sequence[Column],
    rows: Sequence[Sequence[Any]],
    width: float,
    total: Sequence[Any] | None = None,
    dense: bool = False,
) -> Any:
    """A table as wide as told; cells are texts or pieces, and the total, where there is one, stands last in bold.

    The rows of a dense one stand closer together.
    """
    whole = sum(column.share for column in columns)
    cells = [[text(column.title, "label", column.right) for column in columns]]
    cells += [[_cell(cell, column) for cell, column in zip(row, columns, strict=True)] for row in rows]
    if total:
        cells.append([_cell(cell, column, "cell-strong") for cell, column in zip(total, columns, strict=True)])
    widths = [width * column.share / whole for column in columns]
    apart: list[Command] = [
        ("LEFTPADDING", (place, 0), (place, -1), _APART)
        for place, (before, column) in enumerate(pairwise(columns), start=1)
        if before.right and not column.right
    ]
    table = grid(cells, widths, [*_RULING, *(_CLOSE if dense else []), *apart, *_end(total)], titles=1)
    if len(cells) > _FEW and not table.splitInRow:
        table.setStyle(_NONE_ALONE)
    return table


def _end(total: Sequence[Any] | None) -> list[Command]:
    return _TOTALLING if total else []


def facts_table(facts: Sequence[tuple[str, str]], width: float, label_width: float = 82) -> Any:
    """Labels and their values, a line each."""
    rows = [[text(label, "small"), text(value, "cell")] for label, value in facts]
    ruling = [("TOPPADDING", (0, 0), (0, -1), 2.2), ("LINEBELOW", (0, 0), (-1, -2), 0.25, RULE)]
    return grid(rows, [label_width, width - label_width], [*padded(0, 4, 1.2, 1.2), *ruling])


def _cell(cell: Any, column: Column, name: str = "cell") -> Any:
    return text(cell, name, column.right) if isinstance(cell, str) else cell


def ruled(
    rows: list[list[Any]],
    widths: list[float],
    titled: int = 0,
    strong: tuple[int, ...] = (),
    height: float = 0,
    dense: bool = False,
) -> Any:
    """A table with a thin line under every row, a strong one under some.

    Args:
        rows: the cells.
        widths: of the columns, in points.
        titled: how many of the first rows are titles, which are repeated on every page.
        strong: the rows with a strong line under them, counted from 0.
        height: how high every row is, in points; 0 for as high as its text.
        dense: whether the rows stand closer together.
    """
    ruling: list[tuple[Any, ...]] = [
        ("LINEBELOW", (0, 0), (-1, -1), 0.4, RULE),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("FONTNAME", (0, 0), (-1, -1), REGULAR),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 6),
        ("TOPPADDING", (0, 0), (-1, -1), 1.8 if dense else 3),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2.6 if dense else 4),
    ]
    if titled:
        ruling.append(("LINEBELOW", (0, titled - 1), (-1, titled - 1), 1, INK))
    ruling += [("LINEBELOW", (0, row), (-1, row), 1, INK) for row in strong]
    heights = [height] * len(rows) if height else None
    return Table(rows, colWidths=widths, rowHeights=heights, repeatRows=titled, style=TableStyle(ruling), hAlign="LEFT")


def box_to_tick() -> Any:
    """An empty box for a pencil."""
    return Table([[""]], colWidths=[9], rowHeights=[9], style=TableStyle([("BOX", (0, 0), (-1, -1), 0.8, INK)]))
