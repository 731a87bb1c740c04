"""Flat lists for other programs: CSV as RFC 4180 has it, and spreadsheets in which no text is ever a formula."""

from __future__ import annotations

import csv
import datetime as dt
import io
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Any, NamedTuple

from claimpack.core.payment.ledger import LedgerLine
from claimpack.core.values.money import plain
from claimpack.errors import BadInput, NotInstalled
from claimpack.installed import install_command

Cell = str | Decimal | dt.date | None
"""A text, a number, a day, or nothing."""

# A spreadsheet runs a cell that begins like this; an owner's name must not be able to.
_STARTS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\0")
_UNSEEN = ("Cc", "Cf", "Zs", "Zl", "Zp")
_MINUS = "\N{MINUS SIGN}"
# What a page of a spreadsheet holds, less its headings; and the most letters that a cell does.
_MOST_ROWS = 1_048_575
_MOST_LETTERS = 32_767


class Sheet(NamedTuple):
    """A list to be written: a title, a heading a column, a row a line, each as long as the headings."""

    title: str
    headings: Sequence[str]
    rows: Iterable[Sequence[Cell]]


def ledger_sheet(lines: Iterable[LedgerLine]) -> Sheet:
    """The ledger as a sheet, a claim a row."""
    headings = tuple(LedgerLine.declared)
    return Sheet("Claims", headings, [tuple(getattr(line, name) for name in headings) for line in lines])


def with_shops(sheet: Sheet, whose: Mapping[str, str] | None) -> Sheet:
    """A list of claims, or of what happened to them, with the shop of each last; as it is where it is of one shop's."""
    if whose is None:
        return sheet
    at = next(place for place, heading in enumerate(sheet.headings) if heading in ("number", "claim"))
    rows = [(*row, whose.get(str(row[at]), "")) for row in sheet.rows]
    return Sheet(sheet.title, (*sheet.headings, "shop"), rows)


def as_csv(sheet: Sheet, *, bom: bool = False) -> bytes:
    """A sheet as CSV: UTF-8, comma, CRLF, quoted where needed; days are ISO 8601, numbers carry a point.

    Args:
        sheet: the list.
        bom: whether to begin with the mark by which spreadsheets know UTF-8.

    Source: RFC 4180 section 2; text that a spreadsheet would take for a formula gets a leading single quote
        (OWASP ASVS 5, 1.2.10; CWE-1236), also in the full-width letters that it takes for the narrow ones.
    """
    written = io.StringIO(newline="")
    writer = csv.writer(written, lineterminator="\r\n")
    writer.writerow(sheet.headings)
    writer.writerows([_csv_cell(cell) for cell in row] for row in sheet.rows)
    return written.getvalue().encode("utf-8-sig" if bom else "utf-8")


def _csv_cell(cell: Cell) -> str:
    if isinstance(cell, str):
        return f"'{cell}" if starts_a_formula(cell) else cell
    if isinstance(cell, Decimal):
        return plain(cell)
    return cell.isoformat() if cell else ""


def starts_a_formula(text: str) -> bool:
    """Whether a spreadsheet may take a text for a formula, by its first letter or one that looks like it."""
    if text.startswith(_STARTS_A_FORMULA):
        return True
    seen = next((mark for mark in text if unicodedata.category(mark) not in _UNSEEN), "")
    return unicodedata.normalize("NFKC", seen).startswith((*_STARTS_A_FORMULA, _MINUS))


def as_xlsx(sheet: Sheet, day: dt.date) -> bytes:
    """A sheet as a spreadsheet of one page; see `as_workbook`."""
    return as_workbook([sheet], day)


def as_workbook(sheets: Iterable[Sheet], day: dt.date) -> bytes:
    """Sheets as a spreadsheet, a page each: numbers and days are such, text is text whatever it begins with.

    Args:
        sheets: the lists.
        day: the day it is made, which the file carries; the same lists of the same day are the same file.

    Raises:
        NotInstalled: this machine lacks the writer of spreadsheets.
        BadInput: there are more rows than a spreadsheet holds.
    """
    try:
        from xlsxwriter import Workbook
    except ModuleNotFoundError:
        raise NotInstalled(
            "this machine lacks what writes spreadsheets",
            "CSV needs nothing more, a spreadsheet does.",
            f"Install it: {install_command('xlsxwriter')}; or write CSV alone: --csv",
        ) from None
    written = io.BytesIO()
    with Workbook(written, {"constant_memory": True}) as book:
        book.set_properties({"created": dt.datetime.combine(day, dt.time())})
        for sheet in sheets:
            _fill(_Page(book, sheet.title), sheet)
    return written.getvalue()


class _Page:
    """One page of a spreadsheet, written row by row."""

    def __init__(self, book: Any, title: str) -> None:
        self.book = book
        self.sheet = book.add_worksheet(title)
        self.formats: dict[str, object] = {}

    def look(self, number_format: str) -> object:
        """A cell format, made once."""
        if number_format not in self.formats:
            self.formats[number_format] = self.book.add_format({"num_format": number_format})
        return self.formats[number_format]

    def put(self, row: int, column: int, cell: Cell) -> None:
        """One cell."""
        if isinstance(cell, str):
            shown = cell if len(cell) <= _MOST_LETTERS else f"{cell[: _MOST_LETTERS - 1]}…"
            self.sheet.write_string(row, column, shown)
        elif isinstance(cell, Decimal):
            decimals = -min(int(cell.as_tuple().exponent), 0)
            self.sheet.write_number(row, column, cell, self.look(f"0.{'0' * decimals}".rstrip(".")))
        elif cell:
            self.sheet.write_datetime(row, column, dt.datetime.combine(cell, dt.time()), self.look("yyyy-mm-dd"))


def _fill(page: _Page, sheet: Sheet) -> None:
    bold = page.book.add_format({"bold": True})
    for column, heading in enumerate(sheet.headings):
        page.sheet.set_column(column, column, max(12, len(heading) + 2))
        page.sheet.write_string(0, column, heading, bold)
    page.sheet.freeze_panes(1, 1)
    number = 0
    for number, row in enumerate(sheet.rows, start=1):
        if number > _MOST_ROWS:
            raise BadInput(
                f"the list has more than {_MOST_ROWS} rows",
                "A spreadsheet holds no more.",
                "Export fewer claims, or export with --csv.",
            )
        for column, cell in enumerate(row):
            page.put(number, column, cell)
    page.sheet.autofilter(0, 0, number, len(sheet.headings) - 1)
