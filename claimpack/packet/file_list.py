"""The files in the packet, with their size and the beginning of their hash."""

from __future__ import annotations

from typing import Any

from claimpack.packet.draft import Draft
from claimpack.packet.drawn import gap, section
from claimpack.packet.lettering import text
from claimpack.packet.ruled_table import Column, ruled_table


def files_section(draft: Draft) -> list[Any]:
    """A row a file; nothing where the packet is told of none."""
    files, words = draft.evidence.files, draft.words
    if not files:
        return []
    columns = (Column(words.file, 60), Column(words.size, 15, right=True), Column(words.sha256, 28))
    rows = [[row.file, f"{row.bytes}", text(row.sha256[:16], "mono")] for row in files]
    table = ruled_table(columns, rows, draft.width)
    return section("files", words.files, draft.width, [text(words.files_note, "small"), gap(3), table])
