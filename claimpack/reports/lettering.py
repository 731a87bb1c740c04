"""How letters, slips and shelf lists are set: papers, inks, and user text that is never read as markup."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from io import BytesIO
from typing import Any, NamedTuple
from xml.sax.saxutils import escape

from reportlab.lib.enums import TA_LEFT, TA_RIGHT
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Paragraph, SimpleDocTemplate, Table, TableStyle

from claimpack.errors import BadInput
from claimpack.reports.picture import fitted
from claimpack.typeface import BOLD, MONO, REGULAR, printable, register

Page = tuple[float, float]
"""Width and height of a page, in points."""

PAPERS: dict[str, Page] = {"letter": (612.0, 792.0), "a4": (595.276, 841.89)}
MARGIN = 60.0
_FOLIO = 90.0
"""Room kept at the foot of a page for its number, in points."""

_INK, _QUIET, _RULE = "#16191b", "#4b5358", "#a9b2b6"
_STYLES: dict[str, tuple[str, float, float, str]] = {
    "body": (REGULAR, 10.5, 15, _INK),
    "strong": (BOLD, 10.5, 15, _INK),
    "cell": (REGULAR, 9.5, 12.5, _INK),
    "cell-strong": (BOLD, 9.5, 12.5, _INK),
    "code": (MONO, 10, 13, _INK),
    "label": (REGULAR, 8.5, 11, _QUIET),
    "small": (REGULAR, 8, 10.5, _QUIET),
    "figure": (REGULAR, 8, 10.2, _INK),
    "figure-strong": (BOLD, 8, 10.2, _INK),
    "figure-label": (BOLD, 7.5, 9.6, _QUIET),
    "title": (BOLD, 17, 22, _INK),
    "heading-large": (BOLD, 14, 19, _INK),
    "heading": (BOLD, 11.5, 16, _INK),
    "big": (BOLD, 26, 32, _INK),
}


class Titles(NamedTuple):
    """What a document's properties say of it, and what stands at the foot of its pages."""

    title: str
    author: str
    foot: str


def page_of(paper: str) -> Page:
    """The size of a paper by its name.

    Raises:
        BadInput: it is no paper that the program knows.
    """
    if paper.lower() not in PAPERS:
        raise BadInput(
            f"--paper: {paper!r} is no paper this can be printed on",
            "A page must have a size.",
            f"Choose one of: {', '.join(PAPERS)}.",
        )
    return PAPERS[paper.lower()]


@cache
def style(name: str, right: bool = False) -> Any:
    """A named way to set text; words too long for a line are broken."""
    register()
    face, size, leading, ink = _STYLES[name]
    side = TA_RIGHT if right else TA_LEFT
    return ParagraphStyle(
        name, fontName=face, fontSize=size, leading=leading, textColor=ink, alignment=side, splitLongWords=1
    )


def text(content: str, name: str = "body", right: bool = False) -> Any:
    """A paragraph that prints the content literally, line breaks kept."""
    return Paragraph(escape(printable(content)).replace("\n", "<br/>"), style(name, right))


def ruled(
    rows: list[list[Any]],
    widths: list[float],
    titled: int = 0,
    strong: tuple[int, ...] = (),
    height: float = 0,
    dense: bool = False,
) -> Any:
    """A table with a thin line under every row, a strong one under some.

    Args:
        rows: the cells.
        widths: of the columns, in points.
        titled: how many of the first rows are titles, which are repeated on every page.
        strong: the rows with a strong line under them, counted from 0.
        height: how high every row is, in points; 0 for as high as its text.
        dense: whether the rows stand closer together.
    """
    ruling: list[tuple[Any, ...]] = [
        ("LINEBELOW", (0, 0), (-1, -1), 0.4, _RULE),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("FONTNAME", (0, 0), (-1, -1), REGULAR),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 6),
        ("TOPPADDING", (0, 0), (-1, -1), 1.8 if dense else 3),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2.6 if dense else 4),
    ]
    if titled:
        ruling.append(("LINEBELOW", (0, titled - 1), (-1, titled - 1), 1, _INK))
    ruling += [("LINEBELOW", (0, row), (-1, row), 1, _INK) for row in strong]
    heights = [height] * len(rows) if height else None
    return Table(rows, colWidths=widths, rowHeights=heights, repeatRows=titled, style=TableStyle(ruling), hAlign="LEFT")


def box_to_tick() -> Any:
    """An empty box for a pencil."""
    return Table([[""]], colWidths=[9], rowHeights=[9], style=TableStyle([("BOX", (0, 0), (-1, -1), 0.8, _INK)]))


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
        invariant=1,
    )

    def foot(canvas: Any, _document: Any) -> None:
        canvas.saveState()
        canvas.setFont(REGULAR, 8)
        canvas.setFillGray(0.33)
        canvas.drawString(MARGIN + 6, MARGIN / 2, printable(fitted(titles.foot, body_width(page) - _FOLIO, size=8)))
        canvas.drawRightString(page[0] - MARGIN - 6, MARGIN / 2, f"page {canvas.getPageNumber()} of {pages}")
        canvas.restoreState()

    template.build(pieces, onFirstPage=foot, onLaterPages=foot)
    return stream.getvalue(), template.page


def body_width(page: Page) -> float:
    """How wide text may run on a page, in points."""
    return page[0] - 2 * MARGIN - 12
