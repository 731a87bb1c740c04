"""Tables and grids: broken between rows where a page ends, column titles repeated on every page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

from reportlab.platypus import Table, TableStyle

from claimpack.printing.drawn import next_page
from claimpack.printing.kept.table_parts import TableParts
from claimpack.printing.lettering import text
from claimpack.printing.palette import ACCENT, INK, RULE, TINT
from claimpack.printing.typeface import REGULAR, register

Command = tuple[Any, ...]
"""How part of a grid is ruled, filled or padded: what, first cell, last cell, and by how much."""

ALL = ((0, 0), (-1, -1))
"""Every cell."""

# Rows up to this height in points go on a new page rather than be torn.
_TALL = 240.0


class _Table(Table):  # type: ignore[misc]  # the PDF engine has no types
    """A table that says on the next page that it goes on there."""

    continued = ""

    def split(self, width: float, height: float) -> list[Any]:
        """The rows for this page; then, on the next, the word that it goes on, and the others."""
        pieces: list[Any] = super().split(width, height)
        for piece in pieces:
            piece.continued = self.continued
        if len(pieces) < 2 or not self.continued:
            return pieces
        word = text(self.continued, "small-italic")
        # readers aloud go from one row to the next
        word.part = None
        first, *others = pieces
        return [first, next_page(), word, *others]


def grid(
    rows: Sequence[Sequence[Any]],
    widths: Sequence[float],
    commands: Sequence[Command],
    titles: int = 0,
    height: float = 0,
    parts: TableParts | None = None,
) -> Any:
    """A grid set from the top of its cells.

    Args:
        rows: the pieces, a row after the other.
        widths: of each column, in points.
        commands: how it is ruled, filled and padded.
        titles: how many of the first rows are repeated on every page.
        height: how high every row is, in points; 0 for as high as its pieces.
        parts: notes the rows and cells of what is read as a table; None for pieces that merely stand side by side.
    """
    register()
    cells = [list(row) for row in rows]
    heights = [height] * len(cells) if height else None
    table = _Table(cells, colWidths=list(widths), rowHeights=heights, repeatRows=titles, hAlign="LEFT", renderCB=parts)
    table.setStyle(TableStyle([("FONTNAME", *ALL, REGULAR), ("VALIGN", *ALL, "TOP"), *commands]))
    # A row taller than a page would stop the engine; heights are known only once the table was set.
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


@dataclass(frozen=True, slots=True)
class Ruling:
    """How a table is ruled, in points: room beside its cells, above and below them, and under what line they stand.

    Args:
        beside: room left and right of each cell.
        around: room above and below.
        titles: the same in titles; None where they stand as the rows do.
        line: how thick the line under a row is.
        ink: of the line under the titles.
        height: how high every row is; 0 for as high as its text.
    """

    beside: tuple[float, float]
    around: tuple[float, float]
    titles: tuple[float, float] | None
    line: float
    ink: str
    height: float = 0


PACKET = Ruling((3, 3), (2, 2.8), (2, 2.8), 0.25, ACCENT)
PACKET_CLOSE = replace(PACKET, around=(1, 1.8))
"""Of packets, which are set small; close where rows are many."""

PAGE = Ruling((0, 6), (3, 4), None, 0.4, INK)
PAGE_CLOSE = replace(PAGE, around=(1.8, 2.6))
"""Of letters, slips, lists and reports."""

_TOTALLING: list[Command] = [("LINEABOVE", (0, -1), (-1, -1), 1, INK), ("BACKGROUND", (0, -1), (-1, -1), TINT)]


def ruled(
    rows: Sequence[Sequence[Any]],
    widths: Sequence[float],
    titled: int = 0,
    strong: tuple[int, ...] = (),
    ruling: Ruling = PAGE,
    labels: tuple[int, ...] = (),
) -> Any:
    """A table with a thin line under every row, a strong one under titles and under some.

    Without titles and labels it is no table to those who read it, but pieces that stand side by side.

    Args:
        rows: the cells.
        widths: of the columns, in points.
        titled: how many of the first rows are titles, which are repeated on every page.
        strong: the rows with a strong line under them, counted from 0.
        ruling: the room and the lines.
        labels: the columns that say what the others of their row are, counted from 0.
    """
    commands = padded(*ruling.beside, *ruling.around)
    if titled:
        last = (-1, titled - 1)
        commands.append(("LINEBELOW", (0, titled - 1), last, 1, ruling.ink))
        if ruling.titles:
            above, below = ruling.titles
            commands += [("TOPPADDING", (0, 0), last, above), ("BOTTOMPADDING", (0, 0), last, below)]
            commands.append(("VALIGN", (0, 0), last, "BOTTOM"))
    commands.append(("LINEBELOW", (0, titled), (-1, -1), ruling.line, RULE))
    commands += [("LINEBELOW", (0, row), (-1, row), 1, INK) for row in strong]
    parts = TableParts(titled, labels) if titled or labels else None
    table = grid(rows, widths, commands, titled, ruling.height, parts)
    table.continued = _CONTINUED if parts else ""
    return table


_CONTINUED = "continued"


# Between figures set flush right and the words beside them, in points.
_APART = 12.0

# Titles and two rows.
_FEW = 3

# No first and no last row stands alone where a page ends; rows taller than most are torn all the same.
_NONE_ALONE: list[Command] = [("NOSPLIT", (0, 1), (0, 2)), ("NOSPLIT", (0, -2), (0, -1))]


@dataclass(frozen=True, slots=True)
class TableColumn:
    """A column: its title, its share of the width, whether it is set flush right, and close to figures before it."""

    title: str
    share: float
    right: bool = False
    close: bool = False


def ruled_table(
    columns: Sequence[TableColumn],
    rows: Sequence[Sequence[Any]],
    width: float,
    total: Sequence[Any] | None = None,
    dense: bool = False,
    continued: str = _CONTINUED,
) -> Any:
    """A packet's table as wide as told; cells are texts or pieces, and a total stands last in bold.

    The rows of a dense one stand closer together; one that goes on overleaf says so there.
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
        if before.right and not column.right and not column.close
    ]
    table = ruled(cells, widths, titled=1, ruling=PACKET_CLOSE if dense else PACKET)
    table.continued = continued
    table.setStyle([*apart, *(_TOTALLING if total else [])])
    if len(cells) > _FEW and not table.splitInRow:
        table.setStyle(_NONE_ALONE)
    return table


def facts_table(facts: Sequence[tuple[str, Any]], width: float, label_width: float = 82) -> Any:
    """Labels and their values, texts or pieces, a line each."""
    rows = [[text(label, "small"), text(value, "cell") if isinstance(value, str) else value] for label, value in facts]
    ruling = [("TOPPADDING", (0, 0), (0, -1), 2.2), ("LINEBELOW", (0, 0), (-1, -2), 0.25, RULE)]
    widths = [label_width, width - label_width]
    return grid(rows, widths, [*padded(0, 4, 1.2, 1.2), *ruling], parts=TableParts(0, (0,)))


def _cell(cell: Any, column: TableColumn, name: str = "cell") -> Any:
    return text(cell, name, column.right) if isinstance(cell, str) else cell


def box_to_tick() -> Any:
    """An empty box for a pencil."""
    return Table([[""]], colWidths=[9], rowHeights=[9], style=TableStyle([("BOX", (0, 0), (-1, -1), 0.8, INK)]))
