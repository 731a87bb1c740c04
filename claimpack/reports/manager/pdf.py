"""The manager report on paper: findings first, then every section with its pictures and tables."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from io import BytesIO
from typing import Any

from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, SimpleDocTemplate, Spacer

from claimpack.printing.fitting import unbroken
from claimpack.printing.kept.finishing import finished
from claimpack.printing.kept.reading_order import ReadableCanvas
from claimpack.printing.lettering import page_text
from claimpack.printing.papers import Page
from claimpack.printing.tables import PAGE_CLOSE, ruled
from claimpack.printing.typeface import REGULAR, printable, register
from claimpack.reports.charts.picture_pdf import ChartPiece
from claimpack.reports.manager.section import (
    Cell,
    Chart,
    Figure,
    Report,
    ReportColumn,
    ReportTable,
    Section,
    cell_text,
)

_MARGIN = 44.0
# A section up to this height in points stands on one page.
_WHOLE = 330.0

# A table of more rows may be broken where a page ends; half as many where no picture stands before it.
_LONG = 15

# Of a longer text in a table so many letters are shown, so that no row is higher than a page.
_MOST_LETTERS = 160


class _Bookmark(Flowable):  # type: ignore[misc]  # the PDF engine has no types
    """An entry of the outline that leads here."""

    _ZEROSIZE = True

    def __init__(self, key: str, title: str) -> None:
        super().__init__()
        self.key, self.title = key, title

    def wrap(self, _width: float, _height: float) -> tuple[float, float]:
        """It takes no room."""
        return 0, 0

    def draw(self) -> None:
        """Put it here."""
        self.canv.bookmarkHorizontal(self.key, 0, 20)
        self.canv.addOutlineEntry(printable(self.title), self.key, 0)


def report_pdf(report: Report, page: Page) -> bytes:
    """The report as a PDF; the same bytes for the same report and page.

    It is set twice: only after the first time is it known how many pages there are.
    """
    pages = _Pages()
    _set(report, page, pages.count)
    return _set(report, page, lambda canvas, _document: _foot(canvas, report, page, pages.last))


class _Pages:
    """How many pages there are."""

    def __init__(self) -> None:
        self.last = 0

    def count(self, canvas: Any, _document: Any) -> None:
        """One more."""
        self.last = canvas.getPageNumber()


def _set(report: Report, page: Page, on_page: Callable[[Any, Any], None]) -> bytes:
    register()
    stream = BytesIO()
    template = SimpleDocTemplate(
        stream,
        pagesize=page,
        leftMargin=_MARGIN - 6,
        rightMargin=_MARGIN - 6,
        topMargin=_MARGIN - 6,
        bottomMargin=_MARGIN + 4,
        title=printable(f"{report.title} {report.today}"),
        author=printable(report.shop) or "claimpack",
        creator="claimpack",
        lang="en",
        invariant=1,
        initialFontName=REGULAR,
    )
    pieces = _pieces(report, page[0] - 2 * _MARGIN)
    template.build(pieces, onFirstPage=on_page, onLaterPages=on_page, canvasmaker=ReadableCanvas)
    return finished(stream.getvalue(), template.canv.document)


def _foot(canvas: Any, report: Report, page: Page, pages: int) -> None:
    canvas.saveState()
    canvas.setFont(REGULAR, 8)
    canvas.setFillGray(0.33)
    said = " · ".join(part for part in (report.shop, f"{report.title}, {report.today}") if part)
    canvas.drawString(_MARGIN, _MARGIN / 2, printable(said)[:110])
    canvas.drawRightString(page[0] - _MARGIN, _MARGIN / 2, f"page {canvas.getPageNumber()} of {pages}")
    canvas.restoreState()


def _pieces(report: Report, width: float) -> list[Any]:
    pieces: list[Any] = [_Bookmark("top", report.title), page_text(report.title, "title")]
    if report.shop:
        pieces.append(page_text(report.shop, "strong"))
    pieces += [Spacer(0, 3), *(page_text(line, "label") for line in report.about), Spacer(0, 10)]
    for section in report.opening:
        pieces += _section(section, width)
    rows = [
        [page_text(section.heading, "cell-strong"), page_text(unbroken(section.finding), "cell")]
        for section in report.others
    ]
    pieces += [page_text("In short", "heading"), ruled(rows, [width * 0.2, width * 0.8], labels=(0,)), Spacer(0, 18)]
    for section in report.others:
        pieces += _section(section, width)
    return pieces[:-1]  # the space behind the last section would begin an empty page


def _section(section: Section, width: float) -> list[Any]:
    head = [_Bookmark(section.key, section.heading), page_text(section.heading, "heading-large")]
    said = _figures(section.figures, width) or [page_text(unbroken(section.finding), "strong"), Spacer(0, 6)]
    head += said
    parts = [_chart(chart, width) for chart in section.charts]
    parts += [_table(table, width) for table in section.tables]
    parts = [[*head, *(parts[0] if parts else [])], *parts[1:]]
    if section.notes:
        parts[-1].append(page_text(unbroken(" ".join(section.notes)), "small"))
    pieces = [piece for part in parts for piece in part]
    if _height(pieces, width) <= _WHOLE:
        return [KeepTogether(pieces), Spacer(0, 16)]
    longest = _LONG if section.charts else _LONG // 2
    return [*(piece for part in parts for piece in _together(part, longest)), Spacer(0, 16)]


def _figures(figures: Sequence[Figure], width: float) -> list[Any]:
    if not figures:
        return []
    rows = [
        [page_text(one.label, "cell-strong") for one in figures],
        [page_text(unbroken(one.amount), "heading-large") for one in figures],
    ]
    if any(one.about for one in figures):
        rows.append([page_text(unbroken(one.about), "small") for one in figures])
    return [ruled(rows, [width / len(figures)] * len(figures), titled=1), Spacer(0, 8)]


def _height(pieces: Sequence[Any], width: float) -> float:
    return float(sum(piece.wrap(width, 10_000)[1] for piece in pieces))


def _together(part: list[Any], longest: int) -> list[Any]:
    """Pieces kept on one page, unless there is a longer table among them: then the page may end inside it."""
    is_long = any(len(getattr(piece, "_cellvalues", ())) > longest for piece in part)
    return [CondPageBreak(150), *part] if is_long else [KeepTogether(part)]


def _chart(chart: Chart, width: float) -> list[Any]:
    return [
        page_text(unbroken(chart.title), "cell-strong"),
        Spacer(0, 5),
        ChartPiece(chart.draw(width), unbroken(chart.title)),
        Spacer(0, 8),
    ]


def _table(table: ReportTable, width: float) -> list[Any]:
    visible = table.visible()
    whole = sum(column.share for _, column in visible)
    widths = [width * column.share / whole for _, column in visible]
    rows = [[page_text(column.heading, "figure-label", column.right) for _, column in visible]]
    rows += [_row(row, visible, "figure") for row in table.rows[: table.most]]
    rows += [_row(row, visible, "figure-strong") for row in table.totals]
    before_totals = (len(rows) - len(table.totals) - 1,) if table.totals else ()
    drawn = ruled(rows, widths, titled=1, strong=before_totals, ruling=PAGE_CLOSE)
    rest = [Spacer(0, 3), page_text(table.rest(), "small")] if table.rest() else []
    return [page_text(table.caption, "cell-strong"), Spacer(0, 2), drawn, *rest, Spacer(0, 8)]


def _row(row: Sequence[Cell], visible: Sequence[tuple[int, ReportColumn]], style: str) -> list[Any]:
    return [page_text(_cut(cell_text(row[place])), style, column.right) for place, column in visible]


def _cut(said: str) -> str:
    return said if len(said) <= _MOST_LETTERS else f"{said[: _MOST_LETTERS - 1]}…"
