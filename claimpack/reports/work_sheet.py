"""The work sheet of an audit sample: a line a claim, with boxes to tick while looking at it."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from decimal import Decimal
from io import BytesIO, StringIO
from typing import Any, Literal, NamedTuple

from claimpack.core.values.money import in_money, plain, rounded
from claimpack.lists.ledger_sheets import starts_a_formula
from claimpack.printing.fitting import cut
from claimpack.printing.kept.reading_order import Element
from claimpack.printing.lettering import style
from claimpack.printing.palette import INK, RULE
from claimpack.printing.papers import PAPERS
from claimpack.printing.typeface import REGULAR, printable, register

Paper = Literal["letter", "legal", "a4"]

_SIDEWAYS = {name: (height, width) for name, (width, height) in PAPERS.items()}
_MARGIN = 40.0
_ROW = 23.0
_TITLES = 18.0
_BOX = 9.5
_GAP = 10.0
# Smaller type than this part of its size cannot be read any more; the line is cut instead.
_SMALLEST = 0.72
_SEEN = ("Papers", "Part", "Photos")


class SheetLine(NamedTuple):
    """A claim to look at."""

    claim: str
    unit: str
    amount: Decimal
    currency: str


class WorkSheet(NamedTuple):
    """What a work sheet says; facts are labels and values above the table, conclude is what to do in the end."""

    title: str
    facts: tuple[tuple[str, str], ...]
    lines: tuple[SheetLine, ...]
    conclude: str


class _LineRoom(NamedTuple):
    """Room for a line of text, in points from the lower left."""

    left: float
    y: float
    room: float
    right: bool = False


class _SheetColumn(NamedTuple):
    title: str
    left: float
    width: float
    right: bool = False


def work_sheet_csv(sheet: WorkSheet) -> bytes:
    """The work sheet for a spreadsheet; text that it would take for a formula begins with a quote.

    Source: RFC 4180 (lines end in CRLF, quoting); OWASP ASVS 5, 1.2.10 (formulas).
    """
    stream = StringIO()
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow(
        ("claim", "unit", "amount", "currency", "papers seen", "part seen", "photos seen", "error yes/no", "note")
    )
    for line in sheet.lines:
        amount = rounded(line.amount, line.currency) if line.currency else line.amount
        writer.writerow((_cell(line.claim), _cell(line.unit), plain(amount), line.currency, "", "", "", "", ""))
    return stream.getvalue().encode("utf-8-sig")


def _cell(text: str) -> str:
    return f"'{text}" if starts_a_formula(text) else text


def work_sheet_pdf(sheet: WorkSheet, paper: Paper = "letter") -> bytes:
    """The work sheet on paper, lying across; the same bytes for the same sheet."""
    from claimpack.printing.kept.finishing import finished
    from claimpack.printing.kept.reading_order import ReadableCanvas

    register()
    stream = BytesIO()
    canvas = ReadableCanvas(stream, pagesize=_SIDEWAYS[paper], invariant=1, pageCompression=1, initialFontName=REGULAR)
    canvas.setTitle(printable(sheet.title))
    canvas.setCreator("claimpack")
    pages = _shared_out(sheet, paper)
    table = Element("Table")
    first = 1
    for page, lines in enumerate(pages, start=1):
        _page(canvas, sheet, paper, (table, lines), first)
        _foot(canvas, sheet, paper, f"page {page} of {len(pages)}", is_last=page == len(pages))
        canvas.showPage()
        first += len(lines)
    canvas.save()
    return finished(stream.getvalue(), canvas.document)


def _columns(paper: Paper) -> tuple[_SheetColumn, ...]:
    widths = (("", 24), ("Claim", 118), ("Unit", 150), ("Amount", 84), *((what, 46) for what in _SEEN), ("Error", 76))
    columns, left = [], _MARGIN
    for title, width in widths:
        left += _GAP if title == _SEEN[0] else 0
        columns.append(_SheetColumn(title, left, width, title in ("", "Amount")))
        left += width
    return (*columns, _SheetColumn("Note", left, _SIDEWAYS[paper][0] - _MARGIN - left))


def _top(sheet: WorkSheet, paper: Paper, is_first: bool) -> float:
    """Where the table begins, in points from the lower edge."""
    height = _SIDEWAYS[paper][1] - _MARGIN
    return height - 34 - 13 * ((len(sheet.facts) + 1) // 2) - 8 if is_first else height - 24


def _shared_out(sheet: WorkSheet, paper: Paper) -> list[Sequence[SheetLine]]:
    """The lines of every page, the first page with room for the facts, every page for its foot."""
    rest: Sequence[SheetLine] = sheet.lines
    pages: list[Sequence[SheetLine]] = []
    while rest or not pages:
        room = int((_top(sheet, paper, not pages) - _TITLES - _MARGIN - 40) // _ROW)
        pages.append(rest[:room])
        rest = rest[room:]
    return pages


def _page(canvas: Any, sheet: WorkSheet, paper: Paper, shown: tuple[Element, Sequence[SheetLine]], first: int) -> None:
    table, lines = shown
    if first == 1:
        _heading(canvas, sheet, paper)
    else:
        with canvas.furniture():
            _running_title(canvas, sheet, paper)
    columns, y = _columns(paper), _top(sheet, paper, first == 1)
    with canvas.part(table):
        with canvas.part(Element("TR")) if first == 1 else canvas.furniture():
            _titles(canvas, columns, y)
        canvas.setStrokeColor(RULE)
        for index, line in enumerate(lines):
            base = y - _TITLES - _ROW * (index + 1)
            with canvas.part(Element("TR")):
                _line(canvas, columns, line, first + index, base)
            canvas.setLineWidth(0.4)
            canvas.line(_MARGIN, base, _SIDEWAYS[paper][0] - _MARGIN, base)


def _heading(canvas: Any, sheet: WorkSheet, paper: Paper) -> None:
    width, height = _SIDEWAYS[paper]
    room = _LineRoom(_MARGIN, height - _MARGIN - 14, width - 2 * _MARGIN)
    _fitted(canvas, sheet.title, "title", room, Element("H1"))
    # what stands on the left is longer
    halves = (0.0, (width - 2 * _MARGIN) * 0.58, width - 2 * _MARGIN)
    for index, (label, value) in enumerate(sheet.facts):
        begins, ends = halves[index % 2 : index % 2 + 2]
        left, y = _MARGIN + begins, height - _MARGIN - 36 - 13 * (index // 2)
        _fitted(canvas, label, "label", _LineRoom(left, y, 96))
        _fitted(canvas, value, "cell", _LineRoom(left + 100, y, ends - begins - 110))


def _running_title(canvas: Any, sheet: WorkSheet, paper: Paper) -> None:
    width, height = _SIDEWAYS[paper]
    said = " · ".join((sheet.title, *(value for _, value in sheet.facts[:2]), "continued"))
    _fitted(canvas, said, "label", _LineRoom(_MARGIN, height - _MARGIN - 10, width - 2 * _MARGIN))


def _titles(canvas: Any, columns: Sequence[_SheetColumn], y: float) -> None:
    for column in columns:
        room = _LineRoom(column.left, y - 12, column.width - 6, column.right)
        _fitted(canvas, column.title, "figure-label", room, Element("TH", heads="Column"))
    canvas.setStrokeColor(INK)
    canvas.setLineWidth(1)
    canvas.line(columns[0].left, y - _TITLES, columns[-1].left + columns[-1].width, y - _TITLES)


def _line(canvas: Any, columns: Sequence[_SheetColumn], line: SheetLine, place: int, base: float) -> None:
    said = (str(place), line.claim, line.unit, in_money(line.amount, line.currency))
    for column, text in zip(columns, said, strict=False):
        name = "cell-strong" if column.title == "Claim" else "cell"
        cell = Element("TH", heads="Row") if column.title == "Claim" else Element("TD")
        _fitted(canvas, text, name, _LineRoom(column.left, base + 8, column.width - 6, column.right), cell)
    for column in columns[4:7]:
        _box(canvas, column.left, base)
        with canvas.part(Element("TD")):
            pass
    error = columns[7].left
    with canvas.part(Element("TD")):
        for offset, word in ((0, "yes"), (36, "no")):
            _box(canvas, error + offset, base)
            _fitted(canvas, word, "label", _LineRoom(error + offset + _BOX + 3, base + 8, 22))
    with canvas.part(Element("TD")):
        pass


def _box(canvas: Any, left: float, base: float) -> None:
    canvas.setStrokeColor(INK)
    canvas.setLineWidth(0.8)
    canvas.rect(left, base + 6.5, _BOX, _BOX, stroke=1, fill=0)
    canvas.setStrokeColor(RULE)


def _foot(canvas: Any, sheet: WorkSheet, paper: Paper, page: str, *, is_last: bool) -> None:
    right = _SIDEWAYS[paper][0] - _MARGIN
    if is_last:
        _fitted(canvas, sheet.conclude, "cell", _LineRoom(_MARGIN, _MARGIN + 24, right - _MARGIN))
    _fitted(canvas, "Looked at by", "label", _LineRoom(_MARGIN, _MARGIN, 60))
    _fitted(canvas, "on", "label", _LineRoom(_MARGIN + 234, _MARGIN, 20))
    with canvas.furniture():
        _fitted(canvas, page, "label", _LineRoom(right - 80, _MARGIN, 80, right=True))
    canvas.setStrokeColor(RULE)
    canvas.setLineWidth(0.6)
    for start, end in ((56, 226), (248, 340)):
        canvas.line(_MARGIN + start, _MARGIN - 2, _MARGIN + end, _MARGIN - 2)


def _fitted(canvas: Any, text: str, name: str, slot: _LineRoom, what: Element | None = None) -> None:
    """A line of text, made smaller where it is too long, and cut only where it would be too small to read.

    What it is of the page can be told, else it is a paragraph.
    """
    look = style(name, page=True)
    face, size = look.fontName, look.fontSize
    said = printable(" ".join(text.split()))
    wide = canvas.stringWidth(said, face, size)
    size = max(size * min(1, slot.room / wide), size * _SMALLEST) if wide else size
    said = cut(said, lambda line: canvas.stringWidth(line, face, size) <= slot.room + 0.01)
    canvas.setFillColor(look.textColor)
    canvas.setFont(face, size)
    with canvas.ink_of(what or Element("P")):
        if slot.right:
            canvas.drawRightString(slot.left + slot.room, slot.y, said)
        else:
            canvas.drawString(slot.left, slot.y, said)
