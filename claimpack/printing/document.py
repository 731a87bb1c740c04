"""Letters, slips, lists and reports as pages: margins, properties, and the number of each page at its foot."""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO
from typing import Any, NamedTuple

from reportlab.platypus import SimpleDocTemplate

from claimpack.printing.kept.finishing import finished
from claimpack.printing.kept.reading_order import ReadableCanvas
from claimpack.printing.lettering import shortened
from claimpack.printing.palette import QUIET
from claimpack.printing.papers import Page
from claimpack.printing.typeface import REGULAR

# Wide enough for a hole punch.
MARGIN = 60.0
FRAME = MARGIN + 6
"""From the left and the lower edge of a sheet to where text is set, in points: the frame keeps 6 of its own."""

_FOOT = 8
# Room kept at the foot of a page for its number, in points.
_FOLIO = 90.0


class Titles(NamedTuple):
    """What a document's properties say of it, and what stands at the foot of its pages."""

    title: str
    author: str
    foot: str


def document(pieces: Callable[[], list[Any]], page: Page, titles: Titles) -> bytes:
    """The pieces as a PDF; the same bytes for the same pieces.

    They are set twice: only after the first time is it known how many pages there are.
    """
    _, pages = _set(pieces(), page, titles, 0)
    return _set(pieces(), page, titles, pages)[0]


def _set(pieces: list[Any], page: Page, titles: Titles, pages: int) -> tuple[bytes, int]:
    stream = BytesIO()
    template = SimpleDocTemplate(
        stream,
        pagesize=page,
        leftMargin=MARGIN,
        rightMargin=MARGIN,
        topMargin=MARGIN - 10,
        bottomMargin=MARGIN,
        title=titles.title,
        author=titles.author or "claimpack",
        creator="claimpack",
        lang="en",
        invariant=1,
        initialFontName=REGULAR,
    )

    def foot(canvas: Any, _document: Any) -> None:
        canvas.saveState()
        canvas.setFont(REGULAR, _FOOT)
        canvas.setFillColor(QUIET)
        canvas.drawString(MARGIN + 6, MARGIN / 2, shortened(titles.foot, REGULAR, _FOOT, body_width(page) - _FOLIO))
        canvas.drawRightString(page[0] - MARGIN - 6, MARGIN / 2, f"page {canvas.getPageNumber()} of {pages}")
        canvas.restoreState()

    template.build(pieces, onFirstPage=foot, onLaterPages=foot, canvasmaker=ReadableCanvas)
    return finished(stream.getvalue(), template.canv.document), template.page


def body_width(page: Page) -> float:
    """How wide text may run on a page, in points."""
    return page[0] - 2 * MARGIN - 12
