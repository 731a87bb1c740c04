"""The shelf list: every held part by shelf, with a box to tick while walking along."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any, NamedTuple

from reportlab.platypus import KeepTogether, Spacer

from claimpack.core.words import folded
from claimpack.reports.lettering import Page, Titles, body_width, box_to_tick, document, ruled, text

_TITLES = ("", "Code", "Part", "Unit", "State", "Until")
_SHARES = (0.04, 0.2, 0.26, 0.22, 0.13, 0.15)


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
    shelves: dict[str, list[ShelfLine]] = {}
    for line in sorted(lines, key=lambda line: (folded(line.shelf), line.code)):
        shelves.setdefault(line.shelf, []).append(line)
    pieces: list[Any] = [
        text("Shelf list", "title"),
        text(f"{shop + ', ' if shop else ''}{today}: {_parts(len(lines))}", "label"),
        Spacer(0, 10),
    ]
    for shelf, some in shelves.items():
        pieces += _shelf(shelf, some, body_width(page))
    if not lines:
        pieces.append(text("No part is held."))
    return document(pieces, page, Titles("Shelf list", shop, f"{shop} · shelf list of {today}".strip(" ·")))


def _parts(count: int) -> str:
    return f"{count} part{'' if count == 1 else 's'}"


def _shelf(shelf: str, lines: Sequence[ShelfLine], width: float) -> list[Any]:
    title = text(f"Shelf {shelf}" if shelf else "On no shelf", "heading")
    table = ruled(
        [[text(name, "label") for name in _TITLES], *([_cells(line) for line in lines])],
        [width * share for share in _SHARES],
        titled=True,
    )
    whole = [title, Spacer(0, 3), table]
    return [KeepTogether(whole) if len(lines) <= 12 else title, *([] if len(lines) <= 12 else [table]), Spacer(0, 14)]


def _cells(line: ShelfLine) -> list[Any]:
    urgent = line.state in ("called back", "may go", "released")
    return [
        box_to_tick(),
        text(line.code, "code"),
        text(line.part, "cell"),
        text(line.unit, "cell"),
        text(line.state, "cell-strong" if urgent else "cell"),
        text(line.until, "cell"),
    ]
