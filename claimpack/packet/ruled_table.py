"""Ruled tables: column titles repeated on every page, rows that may break where a page ends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from claimpack.packet.grid import Command, grid, padded
from claimpack.packet.lettering import ACCENT, INK, RULE, TINT, text

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
