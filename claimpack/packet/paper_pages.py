"""The papers: a frame for every page of every paper, left white for the page itself."""

from __future__ import annotations

from typing import Any

from reportlab.platypus import CondPageBreak

from claimpack.packet.draft import Draft
from claimpack.packet.drawn import Drawn, bookmark, drawn, gap, section
from claimpack.packet.lettering import RULE, text
from claimpack.packet.page_evidence import PaperSheet, PaperSlot

_CAPTION = 11.0
_HEADING = 34.0
_GAP = 12.0
_BORDER = 1.5


def papers_section(draft: Draft) -> list[Any]:
    """A frame for every page of every paper; nothing where the packet has none."""
    body: list[Any] = []
    for number, paper in enumerate(draft.evidence.papers, start=1):
        lead = bookmark(f"paper-{number}", paper.file, level=1)
        for page, sheet in enumerate(paper.pages):
            body += _framed(draft, sheet, paper.file, (page, len(paper.pages)), [lead] if page == 0 else [])
    return section("papers", draft.words.papers, draft.width, body) if body else []


def _framed(draft: Draft, sheet: PaperSheet, file: str, place: tuple[int, int], lead: list[Any]) -> list[Any]:
    page, pages = place
    scale = min(
        1.0,
        (draft.width - 2 * _BORDER) / sheet.width,
        (draft.height - _HEADING - _CAPTION - _GAP - 2 * _BORDER) / sheet.height,
    )
    width, height = sheet.width * scale, sheet.height * scale
    caption = text(draft.words.paper_page.format(file=file, page=page + 1, pages=pages), "small")
    frame = _slot(draft, width, height, file, page)
    room = height + 2 * _BORDER + caption.wrap(draft.width, 10_000)[1] + 2
    return [CondPageBreak(min(room, draft.height - _HEADING)), *lead, caption, frame, gap(_GAP)]


def _slot(draft: Draft, width: float, height: float, file: str, page: int) -> Drawn:
    """A white frame whose place is noted when it is drawn; its border runs outside the paper."""

    def pen(canvas: Any, _width: float, _height: float) -> None:
        canvas.setStrokeColor(RULE)
        canvas.setLineWidth(0.75)
        edge = _BORDER - 0.75
        canvas.rect(edge, edge, width + 2 * (_BORDER - edge), height + 2 * (_BORDER - edge), stroke=1, fill=0)
        x, y = canvas.absolutePosition(_BORDER, _BORDER)
        draft.slots.append(PaperSlot(canvas.getPageNumber() - 1, x, y, width, height, file, page))

    return drawn(width + 2 * _BORDER, height + 2 * _BORDER, pen)
