"""The shelf list: every held part by shelf, with its code and a box to tick while walking along."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import groupby
from typing import Any, NamedTuple

from reportlab.platypus import CondPageBreak

from claimpack.core.values.numbers_said import how_many
from claimpack.core.values.words import folded
from claimpack.printing.codes import square
from claimpack.printing.document import Titles, body_width, document
from claimpack.printing.drawn import gap
from claimpack.printing.lettering import page_text
from claimpack.printing.palette import WHITE
from claimpack.printing.papers import Page
from claimpack.printing.tables import PAGE_CLOSE, box_to_tick, ruled

_TITLES = ("", "", "Code", "Part", "Unit", "State", "Until")
_SHARES = (0.04, 0.07, 0.16, 0.23, 0.22, 0.14, 0.14)
# As small as a telephone reads it, in points: eleven parts and their shelves stand on one page.
_SQUARE = 21.0

# A short shelf stays on one page, so that whoever counts it turns no leaf.
_KEPT_TOGETHER = 5
# A shelf with more parts may go on overleaf; it begins where there is so much room, in points.
_LEAST_ROOM = 130.0


class ShelfLine(NamedTuple):
    """A held part on its shelf; until is the last day it must be kept, or the day it must be sent by."""

    shelf: str
    code: str
    part: str
    unit: str
    state: str
    until: str


def shelf_list_pdf(lines: Sequence[ShelfLine], shop: str, today: date, page: Page) -> bytes:
    """The list as a PDF, the shelves in the order of the alphabet; the same bytes for the same list."""

    def pieces() -> list[Any]:
        return [*_head(len(lines), shop, today), *_shelves(lines, body_width(page))]

    return document(pieces, page, Titles("Shelf list", shop, f"{shop} · shelf list of {today}".strip(" ·")))


def _head(count: int, shop: str, today: date) -> list[Any]:
    pieces: list[Any] = [
        page_text("Shelf list", "title"),
        page_text(f"{shop + ', ' if shop else ''}{today}: {how_many(count, 'part')}", "label"),
        gap(10),
    ]
    return pieces if count else [*pieces, page_text("No part is held.")]


def _shelves(lines: Sequence[ShelfLine], width: float) -> list[Any]:
    """Short shelves in a table together, those with many parts in one of their own."""
    shelves: dict[str, list[ShelfLine]] = {}
    for line in sorted(lines, key=lambda line: (folded(line.shelf), line.code)):
        shelves.setdefault(line.shelf, []).append(line)
    pieces: list[Any] = []
    for is_short, some in groupby(shelves.items(), key=lambda shelf: len(shelf[1]) <= _KEPT_TOGETHER):
        if is_short:
            pieces += [_short_shelves(list(some), width), gap(14)]
        else:
            pieces += [piece for shelf, parts in some for piece in _long_shelf(shelf, parts, width)]
    return pieces


def _short_shelves(shelves: Sequence[tuple[str, list[ShelfLine]]], width: float) -> Any:
    """Shelves one under the other, their columns named once a page; none of them is torn."""
    rows, commands = [[page_text(title, "label") for title in _TITLES]], list[Any]()
    for shelf, parts in shelves:
        name = len(rows)
        rows += [[_named(shelf)], *map(_cells, parts)]
        commands += [("SPAN", (0, name), (-1, name)), ("LINEBELOW", (0, name), (-1, name), 0.6, WHITE)]
        commands += [("NOSPLIT", (0, name), (-1, len(rows) - 1)), ("TOPPADDING", (0, name), (-1, name), 5)]
    table = ruled(rows, [width * share for share in _SHARES], titled=1, ruling=PAGE_CLOSE)
    table.setStyle([*commands, ("VALIGN", (0, 1), (-1, -1), "MIDDLE")])
    return table


def _long_shelf(shelf: str, lines: Sequence[ShelfLine], width: float) -> list[Any]:
    """A shelf's parts under its name, which stands on every page they go on to."""
    table = ruled(
        [
            [_named(shelf)],
            [page_text(title, "label") for title in _TITLES],
            *map(_cells, lines),
        ],
        [width * share for share in _SHARES],
        titled=2,
    )
    table.setStyle([("SPAN", (0, 0), (-1, 0)), ("LINEBELOW", (0, 0), (-1, 0), 0.6, WHITE)])
    table.setStyle([("NOSPLIT", (0, -3), (-1, -1)), ("VALIGN", (0, 2), (-1, -1), "MIDDLE")])
    return [CondPageBreak(_LEAST_ROOM), table, gap(14)]


def _named(shelf: str) -> Any:
    return page_text(f"Shelf {shelf}" if shelf else "On no shelf", "heading")


def _cells(line: ShelfLine) -> list[Any]:
    urgent = line.state in ("called back", "may go", "released")
    return [
        box_to_tick(),
        square(line.code, _SQUARE),
        page_text(line.code, "code"),
        page_text(line.part, "cell"),
        page_text(line.unit, "cell"),
        page_text(line.state, "cell-strong" if urgent else "cell"),
        page_text(line.until, "cell"),
    ]
