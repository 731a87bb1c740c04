"""The files the packet shows, with size and hash of the file as the shop keeps it, and whether it is attached."""

from __future__ import annotations

from typing import Any

from claimpack.packet.drawing.draft import Draft
from claimpack.packet.drawing.evidence import PacketFile
from claimpack.printing.drawn import gap, opening, section
from claimpack.printing.lettering import text, width_of
from claimpack.printing.tables import TableColumn
from claimpack.printing.typeface import REGULAR

# A handful reads better in one column; more go side by side where their names have room.
_FEW = 4
_FILE, _BYTES, _HASH = 52, 18, 46
_BETWEEN = 6
_CLEANED, _KEPT = "*", "†"


def files_section(draft: Draft) -> list[Any]:
    """Every file, two side by side where there are more than a few and their names are short; nothing without files."""
    files, words = draft.evidence.files, draft.words
    if not files:
        return []
    titles: tuple[TableColumn, ...] = (
        TableColumn(words.file, _FILE),
        TableColumn(words.size, _BYTES, right=True),
        TableColumn(words.sha256, _HASH),
    )
    some_attached = any(row.attached for row in files)
    rows = [_cells(draft, row, _marked(row, some_attached)) for row in files]
    if len(rows) > _FEW and max(width_of(row.file, REGULAR, 7.5) for row in files) < _name_room(draft):
        titles = (*titles, TableColumn("", _BETWEEN), *titles)
        nothing = ["", "", ""]
        rows = [[*row, "", *other] for row, other in zip(rows[::2], [*rows[1::2], nothing], strict=False)]
    table = draft.table(titles, rows, dense=True)
    note = text(words.files_attached if some_attached else words.files_note, "small")
    room = opening(note, draft.width) + 3 + opening(table, draft.width)
    marks = ((_CLEANED, words.files_cleaned), (_KEPT, words.files_kept))
    used = {_marked(row, some_attached) for row in files}
    below = [text(said, "small") for mark, said in marks if mark in used]
    return section("files", words.files, draft.width, [note, gap(3), table, *below], room)


def _marked(row: PacketFile, some_attached: bool) -> str:
    """The mark of a file that is not attached as it is, where others are attached at all."""
    # where nothing is attached, one note above the table says so for all
    if not some_attached or row.as_it_is:
        return ""
    return _CLEANED if row.attached else _KEPT


def _cells(draft: Draft, row: PacketFile, mark: str) -> list[Any]:
    return [
        text(f"{row.file} {mark}".strip(), "file"),
        text(draft.figures(f"{row.bytes}"), "file", right=True),
        # the whole hash is in the manifest; sixteen digits can be compared by eye
        text(row.sha256[:16], "mono"),
    ]


def _name_room(draft: Draft) -> float:
    """The room for a file's name where two files stand side by side."""
    return draft.width * _FILE / (2 * (_FILE + _BYTES + _HASH) + _BETWEEN) - 8
