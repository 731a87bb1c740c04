"""The manager report on paper: findings first, then every section with its pictures and tables."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from reportlab.platypus import CondPageBreak, KeepTogether

from claimpack.core.values.wording.lines import unbroken
from claimpack.printing.document import Titles, body_width, document
from claimpack.printing.drawn import bookmark, gap
from claimpack.printing.lettering import page_text, style, width_of
from claimpack.printing.papers import Page
from claimpack.printing.tables import PAGE_CLOSE, ruled
from claimpack.printing.typeface import printable
from claimpack.reports.charts.picture_pdf import ChartPiece
from claimpack.reports.manager.section import (
    CODE,
    Cell,
    Chart,
    Figure,
    Report,
    ReportColumn,
    ReportTable,
    Section,
    cell_text,
)

_MARGIN = 38.0
# A section up to this height in points stands on one page.
_WHOLE = 330.0

# A table of more rows may be broken where a page ends; half as many where no picture stands before it.
_LONG = 15

# Of a longer text in a table so many letters are shown, so that no row is higher than a page.
_MOST_LETTERS = 160

# The room that a cell keeps free at its right, in points, and a hair.
_AROUND = 6.5


def report_pdf(report: Report, page: Page) -> bytes:
    """The report as a PDF; the same bytes for the same report and page."""
    foot = " · ".join(part for part in (report.shop, f"{report.title}, {report.today}") if part)
    titles = Titles(printable(f"{report.title} {report.today}"), printable(report.shop), foot)
    return document(lambda: _pieces(report, body_width(page, _MARGIN)), page, titles, _MARGIN)


def _pieces(report: Report, width: float) -> list[Any]:
    pieces: list[Any] = [bookmark("top", printable(report.title)), page_text(report.title, "title")]
    if report.shop:
        pieces.append(page_text(report.shop, "strong"))
    pieces += [gap(3), *(page_text(line, "label") for line in report.about), gap(10)]
    for section in report.opening:
        pieces += _section(section, width)
    rows = [
        [page_text(section.heading, "cell-strong"), page_text(unbroken(section.finding), "cell")]
        for section in report.others
    ]
    pieces += [page_text("In short", "heading"), ruled(rows, [width * 0.2, width * 0.8], labels=(0,)), gap(18)]
    for section in report.others:
        pieces += _section(section, width)
    return pieces


def _section(section: Section, width: float) -> list[Any]:
    head = [bookmark(section.key, printable(section.heading)), page_text(section.heading, "heading-large")]
    said = _figures(section.figures, width) or [page_text(unbroken(section.finding), "strong"), gap(6)]
    head += said
    parts = [_chart(chart, width) for chart in section.charts]
    parts += [_table(table, width) for table in section.tables]
    parts = [[*head, *(parts[0] if parts else [])], *parts[1:]]
    if section.notes:
        parts[-1].append(page_text(unbroken(" ".join(section.notes)), "small"))
    pieces = [piece for part in parts for piece in part]
    if _height(pieces, width) <= _WHOLE:
        return [KeepTogether(pieces), gap(16)]
    longest = _LONG if section.charts else _LONG // 2
    return [*(piece for part in parts for piece in _together(part, longest)), gap(16)]


def _figures(figures: Sequence[Figure], width: float) -> list[Any]:
    if not figures:
        return []
    rows = [
        [page_text(one.label, "cell-strong") for one in figures],
        [page_text(unbroken(one.amount), "heading-large") for one in figures],
    ]
    if any(one.about for one in figures):
        rows.append([page_text(unbroken(one.about), "small") for one in figures])
    return [ruled(rows, [width / len(figures)] * len(figures), titled=1), gap(8)]


def _height(pieces: Sequence[Any], width: float) -> float:
    return float(sum(piece.wrap(width, 10_000)[1] for piece in pieces))


def _together(part: list[Any], longest: int) -> list[Any]:
    """Pieces kept on one page, unless there is a longer table among them: then the page may end inside it."""
    is_long = any(len(getattr(piece, "_cellvalues", ())) > longest for piece in part)
    return [CondPageBreak(150), *part] if is_long else [KeepTogether(part)]


def _chart(chart: Chart, width: float) -> list[Any]:
    return [
        page_text(unbroken(chart.title), "cell-strong"),
        gap(5),
        ChartPiece(chart.draw(width), unbroken(chart.title)),
        gap(8),
    ]


def _table(table: ReportTable, width: float) -> list[Any]:
    table, visible = table.evened(), table.visible()
    shown = [*table.rows[: table.most], *table.totals]
    widths = _widths(visible, shown, width)
    rows = [[page_text(column.heading, "figure-label", column.right) for _, column in visible]]
    rows += [_row(row, visible, "figure") for row in table.rows[: table.most]]
    rows += [_row(row, visible, "figure-strong") for row in table.totals]
    before_totals = (len(rows) - len(table.totals) - 1,) if table.totals else ()
    drawn = ruled(rows, widths, titled=1, strong=before_totals, ruling=PAGE_CLOSE)
    rest = [gap(3), page_text(table.rest(), "small")] if table.rest() else []
    return [page_text(table.caption, "cell-strong"), gap(2), drawn, *rest, gap(8)]


def _widths(visible: Sequence[tuple[int, ReportColumn]], rows: Sequence[Sequence[Cell]], width: float) -> list[float]:
    """Every column by its share, but none too narrow for a word of its heading or a number of a claim.

    The others have what is left.
    """
    least = [
        max(_longest(column.heading.split(), "figure-label"), min(_longest(_codes(rows, place), "figure"), width / 4))
        + _AROUND
        for place, column in visible
    ]
    whole = sum(column.share for _, column in visible)
    wished = [width * column.share / whole for _, column in visible]
    short = sum(max(0.0, need - wish) for need, wish in zip(least, wished, strict=True))
    spare = sum(max(0.0, wish - need) for need, wish in zip(least, wished, strict=True)) or 1.0
    return [max(need, wish - short * max(0.0, wish - need) / spare) for need, wish in zip(least, wished, strict=True)]


def _longest(words: Iterable[str], name: str) -> float:
    look = style(name, page=True)
    return max((width_of(word, look.fontName, look.fontSize) for word in words), default=0.0)


def _codes(rows: Sequence[Sequence[Cell]], place: int) -> Iterator[str]:
    """The numbers of claims and the days in a column, none of which is torn."""
    return (code for row in rows for code in CODE.findall(_cut(cell_text(row[place]))))


def _row(row: Sequence[Cell], visible: Sequence[tuple[int, ReportColumn]], style: str) -> list[Any]:
    return [page_text(_cut(cell_text(row[place])), style, column.right) for place, column in visible]


def _cut(said: str) -> str:
    return said if len(said) <= _MOST_LETTERS else f"{said[: _MOST_LETTERS - 1]}…"
