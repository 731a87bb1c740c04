"""The declaration: what the shop states, and who signs it."""

from __future__ import annotations

from typing import Any

from claimpack.packet.drawing.draft import Draft
from claimpack.printing.drawn import drawn, gap, section
from claimpack.printing.kept.reading_order import Element, ink_of
from claimpack.printing.lettering import escaped, marked_up, text
from claimpack.printing.palette import INK, QUIET
from claimpack.printing.tables import side_by_side
from claimpack.printing.typeface import REGULAR, printable


def declaration_section(draft: Draft) -> list[Any]:
    """The shop's statement with lines to sign on."""
    words, claim = draft.words, draft.claim
    shop = draft.evidence.shop.name
    declared = words.declaration_text if claim.dates.repaired else words.declaration_unrepaired
    if claim.case == "part":
        declared = words.declaration_part
    said = [text(declared), gap(4), text(words.declaration_tool, "small")]
    if shop:
        said.insert(0, marked_up(f"<b>{escaped(shop)}</b>"))
    # drawn as one piece, so that no line to sign on is parted from what is signed
    lines = drawn(draft.width, 96, lambda canvas, width, height: _lines(canvas, draft, width, height))
    return section("declaration", words.declaration, draft.width, [side_by_side([[*said, lines]], [draft.width])])


def _lines(canvas: Any, draft: Draft, width: float, height: float) -> None:
    words = draft.words
    wide = (width - 2 * 18) / 5
    for row, who in enumerate((words.technician, words.service_writer)):
        y = height - 36 - row * 46
        for left, share, label in (
            (0.0, 2 * wide, f"{who}: {words.name.lower()}"),
            (2 * wide + 18, 2 * wide, words.signature),
            (4 * wide + 36, wide, words.date),
        ):
            canvas.setStrokeColor(INK)
            canvas.setLineWidth(0.6)
            canvas.line(left, y, left + share, y)
            canvas.setFillColor(QUIET)
            canvas.setFont(REGULAR, 7)
            with ink_of(canvas, Element("P")):
                canvas.drawString(left, y - 9, printable(label))
