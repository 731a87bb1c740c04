"""The papers: a frame for every page of every paper, left white for the page itself."""

from __future__ import annotations

from typing import Any

from reportlab.platypus import CondPageBreak, NextPageTemplate

from claimpack.packet.drawing.draft import Draft
from claimpack.packet.drawing.evidence import PaperSheet, PaperSlot
from claimpack.printing.drawn import HEADING, DrawnPiece, bookmark, drawn, gap, next_page, section
from claimpack.printing.kept.reading_order import Element, part
from claimpack.printing.lettering import text
from claimpack.printing.palette import RULE

_CAPTION = 11.0
_GAP = 12.0
_UNDER = 2.5
_BORDER = 1.5
# A page is turned where the paper grows by it this much.
_WORTH_TURNING = 1.1

UPRIGHT, ACROSS = "upright", "across"
"""The two ways a page of the packet lies."""


def papers_section(draft: Draft) -> list[Any]:
    """A frame for every page of every paper; nothing where the packet has none.

    A page that lies across and would be made much smaller has a page of its own that lies across too.
    """
    body: list[Any] = []
    first, leading = 0.0, list[Any]()
    for number, paper in enumerate(draft.evidence.papers, start=1):
        for page, sheet in enumerate(paper.pages, start=1):
            said = draft.words.paper_page.format(file=_named(draft, paper.file), page=page, pages=len(paper.pages))
            caption = text(said, "small")
            turned = _is_better_across(draft, sheet)
            frame = _slot(draft, sheet, (paper.file, page - 1), said, turned)
            room = min(frame.height + float(caption.wrap(draft.width, 10_000)[1]) + _UNDER, _tallest(draft, turned))
            turn = [NextPageTemplate(ACROSS), next_page()] if turned else [CondPageBreak(room)]
            if not body:
                first = room
                # the heading stands on the page that is turned
                leading, turn = (turn, []) if turned else ([], turn)
            lead = [bookmark(f"paper-{number}", paper.file, level=1)] if page == 1 else []
            body += [*turn, *lead, caption, gap(_UNDER), frame, gap(_GAP)]
            body += [NextPageTemplate(UPRIGHT)] if turned else []
    return [*leading, *section("papers", draft.words.papers, draft.width, body, first)] if body else []


def _is_better_across(draft: Draft, sheet: PaperSheet) -> bool:
    return (
        sheet.width > sheet.height
        and _scale(draft, sheet, turned=True) > _scale(draft, sheet, turned=False) * _WORTH_TURNING
    )


def _tallest(draft: Draft, turned: bool) -> float:
    body = draft.layout.body_across if turned else draft.layout.body
    return body[3] - HEADING


def _scale(draft: Draft, sheet: PaperSheet, *, turned: bool) -> float:
    """How large a page of a paper is printed; never larger than it is."""
    width = (draft.layout.body_across if turned else draft.layout.body)[2]
    height = _tallest(draft, turned) - 3 * _CAPTION
    return min(1.0, (width - 2 * _BORDER) / sheet.width, (height - 2 * _BORDER) / sheet.height)


def _named(draft: Draft, file: str) -> str:
    """A paper's file, with what kind of paper it is and the day it is of, where the claim says so."""
    said = next((paper for paper in draft.claim.papers if paper.file == file), None)
    told = ", ".join(word for word in (said.kind, str(said.on or "")) if word) if said else ""
    return f"{file} ({told})" if told else file


def _slot(draft: Draft, sheet: PaperSheet, which: tuple[str, int], said: str, turned: bool) -> DrawnPiece:
    """A white frame whose place is noted when it is drawn; its border runs outside the paper."""
    file, page = which
    scale = _scale(draft, sheet, turned=turned)
    width, height = sheet.width * scale, sheet.height * scale

    def pen(canvas: Any, across: float, up: float) -> None:
        canvas.setStrokeColor(RULE)
        canvas.setLineWidth(0.75)
        edge = _BORDER / 2
        canvas.rect(edge, edge, across - 2 * edge, up - 2 * edge, stroke=1, fill=0)
        x, y = canvas.absolutePosition(_BORDER, _BORDER)
        # the page itself is put there when the packet is put together, and is what this frame shows
        shown = Element("Figure", said)
        with part(canvas, shown):
            ink = canvas.reserved()
            shown.holds.append(ink)
        draft.slots.append(PaperSlot(ink.page, x, y, width, height, file, page, ink.number))

    piece = drawn(width + 2 * _BORDER, height + 2 * _BORDER, pen)
    piece.wrap(draft.width, draft.height)
    return piece
