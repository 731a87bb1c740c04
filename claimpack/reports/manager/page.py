"""The manager report as one page for a browser: nothing is fetched from anywhere, every text is escaped."""

from __future__ import annotations

import base64
import datetime as dt
import hashlib
import html
from collections.abc import Iterable, Sequence
from decimal import Decimal
from importlib.resources import files

from claimpack.core.values.harmless import harmless
from claimpack.core.values.money import plain
from claimpack.core.values.wording.lines import unbroken
from claimpack.reports.charts.picture_svg import FILL_PATTERNS, as_svg
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

# Widths a picture is drawn at, in points; the page shows the one that fits.
_WIDTHS = {"wide": 540.0, "narrow": 280.0}

# A column of such a share of the width is given room on a narrow screen, which is then scrolled.
_WIDE = 1.5

# A row's name of so many letters is kept on one line.
_SHORT = 18


def report_page(report: Report) -> bytes:
    """The whole page in UTF-8; the same bytes for the same report.

    Source: Content Security Policy level 3 (only the page's own style and script run, by their hash); WAI-ARIA
        Authoring Practices, sortable table.
    """
    style, script = (f"\n{_beside(name)}" for name in ("page.css", "page.js"))
    policy = f"default-src 'none'; style-src '{_allowed(style)}'; script-src '{_allowed(script)}'; base-uri 'none'"
    title = f"{report.title} {report.today}{f', {report.shop}' if report.shop else ''}"
    page = (
        "<!DOCTYPE html>",
        '<html lang="en">',
        "<head>",
        '<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{policy}; form-action \'none\'">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        '<meta name="referrer" content="no-referrer">',
        f"<title>{_escaped(title)}</title>",
        f"<style>{style}</style>",
        "</head>",
        "<body>",
        FILL_PATTERNS,
        *_head(report),
        "<main>",
        *(line for section in report.others for line in _section(section)),
        "</main>",
        *_foot(report),
        f"<script>{script}</script>",
        "</body>",
        "</html>",
        "",
    )
    return "\n".join(page).encode()


def _escaped(text: str) -> str:
    """Text as the page shows it: no markup, and nothing that turns the direction of what stands around it."""
    return html.escape(harmless(text))


def _told(text: str) -> str:
    """A text in which no line ends inside a number of a claim or a day; a browser would break them at a hyphen."""
    return CODE.sub(r'<span class="k">\g<0></span>', _escaped(unbroken(text)))


def _beside(name: str) -> str:
    return (files("claimpack") / "reports" / "manager" / name).read_text(encoding="utf-8")


def _allowed(text: str) -> str:
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"


def _head(report: Report) -> Iterable[str]:
    yield "<header>"
    yield f"<h1>{_escaped(report.title)}</h1>"
    if report.shop:
        yield f'<p class="shop">{_escaped(report.shop)}</p>'
    yield from (f"<p>{_escaped(line)}</p>" for line in report.about)
    yield '<p class="phone">On a narrow screen some columns are left out; the lists have them all.</p>'
    yield "</header>"
    for section in report.opening:
        yield from _section(section)
    yield '<nav aria-labelledby="short"><h2 id="short">In short</h2><ul>'
    for section in report.others:
        link = f'<a href="#{section.key}">{_escaped(section.heading)}</a>'
        yield f"<li>{link}: {_told(section.finding)}</li>"
    yield "</ul></nav>"


def _section(section: Section) -> Iterable[str]:
    yield f'<section id="{section.key}" aria-labelledby="{section.key}-heading">'
    yield f'<h2 id="{section.key}-heading">{_escaped(section.heading)}</h2>'
    if section.figures:
        yield _figures(section.figures)
    else:
        yield f'<p class="finding">{_told(section.finding)}</p>'
    yield from (_figure(chart) for chart in section.charts)
    for table in section.tables:
        yield from _table(table)
    if section.notes:
        yield f'<p class="note">{_told(" ".join(section.notes))}</p>'
    yield "</section>"


def _figures(figures: Sequence[Figure]) -> str:
    told = (
        f"<div><dt>{_escaped(one.label)}</dt><dd><strong>{_escaped(unbroken(one.amount))}</strong> "
        f"{_escaped(unbroken(one.about))}</dd></div>"
        for one in figures
    )
    return f'<dl class="figures">{"".join(told)}</dl>'


def _figure(chart: Chart) -> str:
    drawn = (
        as_svg(chart.draw(width), f"{chart.key}-{name}", chart.title, chart.description)
        for name, width in _WIDTHS.items()
    )
    return f"<figure><figcaption>{_escaped(unbroken(chart.title))}</figcaption>{''.join(drawn)}</figure>"


def _table(table: ReportTable) -> Iterable[str]:
    table, visible = table.evened(), table.visible()
    yield f'<div class="scroll" tabindex="0" role="region" aria-labelledby="{table.name}-caption">'
    yield f'<table id="table-{table.name}"><caption id="{table.name}-caption">{_escaped(table.caption)}</caption>'
    heads = (f'<th scope="col"{_class(column, "")}>{_escaped(column.heading)}</th>' for _, column in visible)
    yield f"<thead><tr>{''.join(heads)}</tr></thead>"
    yield "<tbody>"
    yield from (_row(row, visible) for row in table.rows[: table.most])
    yield "</tbody>"
    if table.totals:
        yield f"<tfoot>{''.join(_row(row, visible) for row in table.totals)}</tfoot>"
    yield "</table></div>"
    if table.rest():
        yield f'<p class="rest">{_escaped(table.rest())}</p>'


def _row(row: Sequence[Cell], visible: Sequence[tuple[int, ReportColumn]]) -> str:
    cells = []
    for order, (place, column) in enumerate(visible):
        cell = row[place]
        said = _told(cell) if isinstance(cell, str) and " " in cell else _escaped(cell_text(cell))
        if order == 0:
            named = ' class="d"' if len(said) <= _SHORT and not column.right else _class(column, cell)
            cells.append(f'<th scope="row"{named}{_sorted_by(cell)}>{said}</th>')
        else:
            cells.append(f"<td{_class(column, cell)}{_sorted_by(cell)}>{said}</td>")
    return f"<tr>{''.join(cells)}</tr>"


def _class(column: ReportColumn, cell: Cell) -> str:
    kind = "n" if column.right else "d" if isinstance(cell, dt.date) else "w" if column.share >= _WIDE else ""
    names = " ".join(name for name in (kind, "" if column.narrow else "wide") if name)
    return f' class="{names}"' if names else ""


def _sorted_by(cell: Cell) -> str:
    if not isinstance(cell, (int, Decimal)):
        return ""
    return f' data-sort="{plain(cell) if isinstance(cell, Decimal) else cell}"'


def _foot(report: Report) -> Iterable[str]:
    yield "<footer>"
    yield f"<p>Made by claimpack for {report.today}.</p>"
    yield "</footer>"
