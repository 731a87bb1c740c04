"""The files in the packet, with their size and the beginning of their hash."""

from __future__ import annotations

from typing import Any

from claimpack.packet.draft import Draft
from claimpack.packet.drawn import gap, opening, section
from claimpack.packet.lettering import text, width_of
from claimpack.packet.page_evidence import PacketFile
from claimpack.packet.ruled_table import Column, ruled_table
from claimpack.typeface import REGULAR

_FEW = 4
_FILE, _BYTES, _HASH = 52, 18, 46
_BETWEEN = 6


def files_section(draft: Draft) -> list[Any]:
    """Every file, two side by side where there are more than a few and their names are short; nothing without files."""
    files, words = draft.evidence.files, draft.words
    if not files:
        return []
    titles: tuple[Column, ...] = (
        Column(words.file, _FILE),
        Column(words.size, _BYTES, right=True),
        Column(words.sha256, _HASH),
    )
    rows = [_cells(row) for row in files]
    if len(rows) > _FEW and max(width_of(row.file, REGULAR, 7.5) for row in files) < _name_room(draft):
        titles = (*titles, Column("", _BETWEEN), *titles)
        nothing = ["", "", ""]
        rows = [[*row, "", *other] for row, other in zip(rows[::2], [*rows[1::2], nothing], strict=False)]
    table = ruled_table(titles, rows, draft.width, dense=True)
    note = text(words.files_note, "small")
    room = opening(note, draft.width) + 3 + opening(table, draft.width)
    return section("files", words.files, draft.width, [note, gap(3), table], room)


def _cells(row: PacketFile) -> list[Any]:
    return [text(row.file, "file"), text(f"{row.bytes}", "file", right=True), text(row.sha256[:16], "mono")]


def _name_room(draft: Draft) -> float:
    """The room for a file's name where two files stand side by side."""
    return draft.width * _FILE / (2 * (_FILE + _BYTES + _HASH) + _BETWEEN) - 8
