"""Ruled tables: column titles repeated on every page, rows that may break where a page ends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from reportlab.platypus import Table, TableStyle

from claimpack.packet.lettering import ACCENT, INK, RULE, TINT, text


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
    table = Table(
        cells,
        colWidths=[width * column.share / whole for column in columns],
        repeatRows=1,
        splitInRow=1,
        hAlign="LEFT",
    )
    table.setStyle(TableStyle([*_ruling(), *(_totalling() if total else [])]))
    return table


def facts_table(facts: Sequence[tuple[str, str]], width: float, label_width: float = 82) -> Any:
    """Labels and their values, a line each."""
    rows = [[text(label, "small"), text(value, "cell")] for label, value in facts]
    table = Table(rows, colWidths=[label_width, width - label_width], splitInRow=1, hAlign="LEFT")
    table.setStyle(
        TableStyle(
            [
                ("VALIGN", (0, 0), (-1, -1), "TOP"),
                ("LEFTPADDING", (0, 0), (-1, -1), 0),
                ("RIGHTPADDING", (0, 0), (-1, -1), 4),
                ("TOPPADDING", (0, 0), (-1, -1), 1.2),
                ("TOPPADDING", (0, 0), (0, -1), 2.2),
                ("BOTTOMPADDING", (0, 0), (-1, -1), 1.2),
                ("LINEBELOW", (0, 0), (-1, -2), 0.25, RULE),
            ]
        )
    )
    return table


def _cell(cell: Any, column: Column, name: str = "cell") -> Any:
    return text(cell, name, column.right) if isinstance(cell, str) else cell


def _ruling() -> list[tuple[Any, ...]]:
    return [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 3),
        ("RIGHTPADDING", (0, 0), (-1, -1), 3),
        ("TOPPADDING", (0, 0), (-1, -1), 2),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2.8),
        ("VALIGN", (0, 0), (-1, 0), "BOTTOM"),
        ("LINEBELOW", (0, 0), (-1, 0), 1, ACCENT),
        ("LINEBELOW", (0, 1), (-1, -1), 0.25, RULE),
    ]


def _totalling() -> list[tuple[Any, ...]]:
    return [("LINEABOVE", (0, -1), (-1, -1), 1, INK), ("BACKGROUND", (0, -1), (-1, -1), TINT)]
