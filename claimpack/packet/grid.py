"""Rows and columns of pieces, broken between rows where a page ends, and inside a row too tall for a page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reportlab.platypus import Table, TableStyle

from claimpack.typeface import REGULAR, register

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
