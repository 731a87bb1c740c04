"""What every page carries: a slim line on top, and at the foot the claim's number and page x of y."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from claimpack.packet.drawing.contents import write_contents
from claimpack.packet.drawing.draft import Draft
from claimpack.packet.drawing.layout import Section
from claimpack.printing.drawn import Unseen, unseen
from claimpack.printing.lettering import shortened, width_of
from claimpack.printing.palette import QUIET, RULE
from claimpack.printing.typeface import BOLD, REGULAR, printable

_SIZE = 7.5
# Under the body, in points: two lines of contents fit between.
_FOOT = 25.0


def running_lines(canvas: Any, draft: Draft) -> None:
    """Draw the line on top, and leave room for the foot, which is not known before the last page."""
    left, bottom, width, height = draft.body_of(canvas.getPageNumber())
    top = bottom + height
    canvas.saveState()
    canvas.setFillColor(QUIET)
    canvas.setFont(BOLD, _SIZE)
    number = printable(draft.claim.number)
    taken = width_of(number, BOLD, _SIZE) + 12
    canvas.drawRightString(left + width, top + 13, number)
    canvas.setFont(REGULAR, _SIZE)
    unit = " · ".join(part for part in (draft.maker, draft.claim.unit.model, draft.serial) if part)
    canvas.drawString(left, top + 13, shortened(unit, REGULAR, _SIZE, width - taken))
    canvas.setStrokeColor(RULE)
    canvas.setLineWidth(0.5)
    canvas.line(left, top + 8, left + width, top + 8)
    canvas.restoreState()
    canvas.doForm(_foot(canvas.getPageNumber()))


def footers(draft: Draft, shown: Sequence[Section]) -> Unseen:
    """The foot of every page and the contents, drawn when their pages are known; it must be the last piece."""

    def act(canvas: Any, _width: float, _height: float) -> None:
        pages = canvas.getPageNumber()
        for page in range(1, pages + 1):
            left, bottom, width, height = draft.body_of(page)
            canvas.beginForm(_foot(page), upperx=left + width, uppery=bottom + height)
            canvas.setFillColor(QUIET)
            canvas.setFont(REGULAR, _SIZE)
            before = draft.evidence.before
            numbers = {"page": page + before, "pages": pages + before}
            said = draft.words.footer.format(claim=draft.claim.number, **numbers)
            canvas.drawRightString(left + width, max(bottom - _FOOT, 12), printable(said))
            canvas.drawString(
                left, max(bottom - _FOOT, 12), shortened(draft.evidence.shop.name, REGULAR, _SIZE, width / 2)
            )
            canvas.endForm()
        write_contents(canvas, draft, shown)

    return unseen(act)


def _foot(page: int) -> str:
    return f"foot-{page}"
