"""Letters, slips, lists and reports as pages: margins, properties, and the number of each page at its foot."""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO
from typing import Any, NamedTuple

from reportlab.platypus import KeepTogether, SimpleDocTemplate

from claimpack.printing.kept.finishing import finished
from claimpack.printing.kept.reading_order import ReadableCanvas
from claimpack.printing.lettering import shortened
from claimpack.printing.page_saving import LEAST_FULL, MeasuredPages, end_filled, end_kept, pages_saved, set_closer
from claimpack.printing.palette import QUIET
from claimpack.printing.papers import Page
from claimpack.printing.typeface import REGULAR, register

# Wide enough for a hole punch.
MARGIN = 60.0
FRAME_LEFT, FRAME_BOTTOM = MARGIN + 6, MARGIN - 4
"""From the left and the lower edge of a sheet to where text is set, in points: the frame keeps 6 of its own."""

# Letters and lists are short: one page is worth more to them than the room between their lines.
_HALF = 1 / 2

_FOOT = 8
# Printers leave about a quarter of an inch white; the foot stands clear of that on any margin.
_FOOT_AT, _LEAST_BOTTOM = 22.0, 40.0
# Room kept at the foot of a page for its number, in points.
_FOLIO = 90.0


class Titles(NamedTuple):
    """What a document's properties say of it, and what stands at the foot of its pages."""

    title: str
    author: str
    foot: str


def document(pieces: Callable[[], list[Any]], page: Page, titles: Titles, margin: float = MARGIN) -> bytes:
    """The pieces as a PDF; the same bytes for the same pieces.

    More than one page is set twice: only after the first time is it known how many there are.
    """

    def setting(share: float, pages: int = 1, last: int = 0) -> _Set:
        shown = pieces()
        set_closer(shown, share)
        shown = end_kept(shown, last) if last else shown
        return _set(shown, (page, margin), titles, pages)._replace(share=share, last=last)

    found = pages_saved(setting, _HALF)
    count = len(found.filled)
    if count == 1:
        return found.pdf
    # what ends in one block that moved overleaf takes along what stands above it; a long list has no such end
    if isinstance((shown := pieces())[-1], KeepTogether):
        found = end_filled(lambda last: setting(1.0, count, last), found, len(shown), LEAST_FULL)
    return setting(found.share, count, found.last).pdf


class _Set(NamedTuple):
    """A document as it was set: how far its pages are filled, with which share of the usual room between pieces.

    `last` is how many of the last pieces were kept on one page, 0 where none were.
    """

    pdf: bytes
    filled: list[float]
    share: float = 1.0
    last: int = 0


class _Document(MeasuredPages, SimpleDocTemplate):  # type: ignore[misc]  # the PDF engine has no types
    """A document of like pages."""


def _set(pieces: list[Any], paper: tuple[Page, float], titles: Titles, pages: int) -> _Set:
    page, margin = paper
    register()
    stream = BytesIO()
    template = _Document(
        stream,
        pagesize=page,
        leftMargin=margin,
        rightMargin=margin,
        topMargin=margin - 10,
        bottomMargin=max(margin - 10, _LEAST_BOTTOM),
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
        said = shortened(titles.foot, REGULAR, _FOOT, body_width(page, margin) - _FOLIO)
        foot_at = max(margin / 2, _FOOT_AT)
        canvas.drawString(margin + 6, foot_at, said)
        canvas.drawRightString(page[0] - margin - 6, foot_at, f"page {canvas.getPageNumber()} of {pages}")
        canvas.restoreState()

    template.build(pieces, onFirstPage=foot, onLaterPages=foot, canvasmaker=ReadableCanvas)
    return _Set(finished(stream.getvalue(), template.canv.document), template.filled)


def body_width(page: Page, margin: float = MARGIN) -> float:
    """How wide text may run on a page, in points."""
    return page[0] - 2 * margin - 12
