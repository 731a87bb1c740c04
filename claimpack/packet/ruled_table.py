"""Ruled tables: column titles repeated on every page, rows that may break where a page ends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from claimpack.packet.grid import Command, grid, padded
from claimpack.packet.lettering import ACCENT, INK, RULE, TINT, text

_RULING: list[Command] = [
    *padded(3, 3, 2, 2.8),
    ("VALIGN", (0, 0), (-1, 0), "BOTTOM"),
    ("LINEBELOW", (0, 0), (-1, 0), 1, ACCENT),
    ("LINEBELOW", (0, 1), (-1, -1), 0.25, RULE),
]
_TOTALLING: list[Command] = [("LINEABOVE", (0, -1), (-1, -1), 1, INK), ("BACKGROUND", (0, -1), (-1, -1), TINT)]


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its title, its share of the width, and whether it is set flush right."""

    title: str
    share: float
    right: bool = False


def ruled_table(
    columns: Sequence[Column], rows: Sequence[Sequence[Any]], width: float, total: Sequence[Any] | None = None
) -> Any:
    """A table as wide as told; cells are texts or pieces, and the total, where there is one, stands last in bold."""
    whole = sum(column.share for column in columns)
    cells = [[text(column.title, "label", column.right) for column in columns]]
    cells += [[_cell(cell, column) for cell, column in zip(row, columns, strict=True)] for row in rows]
    if total:
        cells.append([_cell(cell, column, "cell-strong") for cell, column in zip(total, columns, strict=True)])
    widths = [width * column.share / whole for column in columns]
    return grid(cells, widths, [*_RULING, *(_TOTALLING if total else [])], titles=1)


def facts_table(facts: Sequence[tuple[str, str]], width: float, label_width: float = 82) -> Any:
    """Labels and their values, a line each."""
    rows = [[text(label, "small"), text(value, "cell")] for label, value in facts]
    ruling = [("TOPPADDING", (0, 0), (0, -1), 2.2), ("LINEBELOW", (0, 0), (-1, -2), 0.25, RULE)]
    return grid(rows, [label_width, width - label_width], [*padded(0, 4, 1.2, 1.2), *ruling])


def _cell(cell: Any, column: Column, name: str = "cell") -> Any:
    return text(cell, name, column.right) if isinstance(cell, str) else cell
