"""Makers' statements as files: which column says what, the memo's number above the columns, every row, the total."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import NamedTuple

from claimpack.core.settlement.statement import StatementRow
from claimpack.core.values.money import ZERO, exact, fits, plain
from claimpack.core.values.typed.amounts import amount_written
from claimpack.core.values.typed.days import DateOrder, day_written
from claimpack.core.values.words import folded, some_lines
from claimpack.errors import BadInput
from claimpack.lists.pdf_lines import pdf_lines, under
from claimpack.lists.spreadsheets import SheetRead, SheetRow, read_cells, sheet_of
from claimpack.lists.statement_columns import NAMES, StatementColumns, currency_in, heading_row, names_columns

FOLDER = "statements"
"""Where a shop keeps, maker by maker, which column of its statements says what."""

_MEMO = re.compile(
    r"\b(?:credit\s+memo|memo|remittance|statement)\s*(?:no|number|nr|#)?\s*[.:#]*\s*(?P<memo>\S*\d\S*)?$",
    re.IGNORECASE,
)
_MOST = 12


class StatementReading(NamedTuple):
    """What a statement is read by: the currency of its amounts, the shop's order of days, today, the memo wanted.

    `said` are the keys of the columns that somebody names now.
    """

    currency: str
    dates: DateOrder
    today: date
    memo: str = ""
    said: tuple[str, ...] = ()


class StatementRead(NamedTuple):
    """A statement's file: its list, the columns, the memo's number where it names one, its rows.

    `is_part` says that the file holds rows of other memos too.
    """

    sheet: SheetRead
    columns: dict[str, str]
    memo: str
    rows: tuple[StatementRow, ...]
    is_part: bool


def read_statement(
    cells: Sequence[tuple[int, list[str]]], file: str, known: StatementColumns | None, reading: StatementReading
) -> StatementRead:
    """A statement from the rows of its file; what stands above the columns may name the memo.

    Args:
        cells: every row, by its number.
        file: how the user calls it.
        known: the columns of this maker's statements, or some of them; the rest by their headings.
        reading: what it is read by.

    Raises:
        BadInput: there are no such columns, a row cannot be read, or the rows do not come to the total.
    """
    start, columns = heading_row(cells, file, known, reading.said)
    _refuse_currency(columns, reading, file)
    sheet = sheet_of(cells[start:], file)
    rows, totals, problems = list[StatementRow](), list[tuple[int, Decimal]](), list[str]()
    for row in sheet.rows:
        try:
            read = _row(row, columns, reading)
        except ValueError as error:
            # every row is read before anything is refused, so that a file is mended in one go
            problems.append(f"row {row.place}, {error}")
            continue
        if isinstance(read, Decimal):
            totals.append((len(rows), read))
        elif read:
            rows.append(read)
    if problems:
        told = some_lines([f"  {' '.join(problem.split())}" for problem in problems], _MOST)
        raise BadInput(f"{file} cannot be read; nothing was booked", do="Correct it.", problems=tuple(told))
    if not any(row.amount for row in rows):
        raise BadInput(
            f"{file}: no row has an amount in column {columns.get('amount', columns.get('charged back', ''))!r}",
            "Another column may say what is paid; or formulas of a workbook were never worked out.",
            "Say which column: --column 'amount=HEADING'; or open the workbook, save it, and try again.",
        )
    _refuse_wrong_totals(rows, totals, file)
    of_memo = {row.place: row.cells[columns["memo"]] for row in sheet.rows} if "memo" in columns else {}
    memo = _one_memo({name for name in of_memo.values() if name}, reading.memo, file) or _memo_above(cells[:start])
    # a row without a memo belongs to the one that is read
    own = [row for row in rows if of_memo.get(row.place, "") in ("", memo)]
    # where the totals agree, two rows alike were meant
    counted = own if totals else _with_doubles(own, sheet)
    return StatementRead(sheet, columns, memo, tuple(counted), is_part=len(own) < len(rows))


def _one_memo(memos: Collection[str], wanted: str, file: str) -> str:
    """The memo that the rows are read of; an empty text where no column names one."""
    if len(memos) > 1 and wanted not in memos:
        raise BadInput(
            f"{file} holds rows of {len(memos)} memos: {', '.join(sorted(memos)[:_MOST])}",
            "Payments carry the number of their memo, and a memo is taken back as a whole.",
            f"Book one at a time: --memo {min(memos)}",
        )
    return wanted if len(memos) > 1 else next(iter(memos), "")


def _with_doubles(rows: Sequence[StatementRow], sheet: SheetRead) -> list[StatementRow]:
    """The rows, each that says the same as one before it in every column marked so: no total tells which is meant."""
    cells = {row.place: tuple(row.cells.values()) for row in sheet.rows}
    first: dict[tuple[str, ...], int] = {}
    return [row._replace(same_as=_before(row.place, first.setdefault(cells[row.place], row.place))) for row in rows]


def _before(place: int, first: int) -> int:
    return first if first < place else 0


def cells_of(path: Path, file: str) -> list[tuple[int, list[str]]]:
    """Every row of a statement's file: CSV, a workbook's first sheet, or the text of a PDF.

    Raises:
        NotFound: there is no such file.
        BadInput: it cannot be read.
    """
    if path.suffix.casefold() != ".pdf":
        return read_cells(path, file)
    lines = pdf_lines(path, file)
    # only below its headings does a PDF have columns
    start = next((nth for nth, line in enumerate(lines) if names_columns([cell.text for cell in line])), len(lines))
    above = [[cell.text for cell in line] for line in lines[:start]]
    below = [[cell.text for cell in lines[start]], *under(lines[start], lines[start + 1 :])] if lines[start:] else []
    return list(enumerate([*above, *below], start=1))


def _row(row: SheetRow, columns: Mapping[str, str], reading: StatementReading) -> StatementRow | Decimal | None:
    """A row as it is meant; a total as its amount alone, and nothing for one that names neither claim nor amount.

    A claim with no amount is on the statement all the same, and nothing is paid for it.
    """
    said = {key: row.cells[heading] for key, heading in columns.items()}
    amount = _money(said.get("amount", ""), columns.get("amount", ""), reading.currency)
    back = _money(said.get("charged back", ""), columns.get("charged back", ""), reading.currency)
    # books write what was taken back with a minus or without one
    come = (amount or ZERO) - abs(back or ZERO)
    named = {key: said.get(key, "") for key in NAMES}
    # a claim's own remark may say total; a row of totals names no claim
    if any(_says_total(cell) for cell in row.cells.values()) and all(
        _says_total(told) for told in named.values() if told
    ):
        return None if amount is None and back is None else come
    if amount is None and back is None and not any(named.values()):
        return None
    code = said.get("currency", "").upper()
    if code and reading.currency and code != reading.currency:
        raise ValueError(f"column {columns['currency']!r}: {code}, and the amounts are read in {reading.currency}")
    on = said.get("on", "")
    try:
        day = day_written(re.sub(r" \d\d:\d\d(:\d\d)?$", "", on), reading.today, reading.dates) if on else None
    except ValueError as error:
        raise ValueError(f"column {columns['on']!r}: {error}") from None
    if on and day is None:
        raise ValueError(f"column {columns['on']!r}: {on!r} is not a date of the calendar")
    number, reference, serial, part = (named[key] for key in NAMES)
    return StatementRow(row.place, come, number, reference, serial, part, day, said.get("because", ""))


def _says_total(cell: str) -> bool:
    return bool({"total", "totals", "subtotal", "sum"} & set(folded(cell).rstrip(":").split()))


def _money(cell: str, heading: str, currency: str) -> Decimal | None:
    """An amount as books write it: one in brackets, or with a minus behind it, is below zero."""
    text = cell.strip().replace("\N{MINUS SIGN}", "-")
    if text in _NOTHING:
        return None
    below = re.fullmatch(r"\((.+)\)|(.+\d)\s*-", text)
    try:
        amount = exact(amount_written(next(filter(None, below.groups())) if below else text, currency))
    except ValueError as error:
        raise ValueError(f"column {heading!r}: {error}") from None
    if currency and not fits(amount, currency):
        raise ValueError(f"column {heading!r}: {plain(amount)} has more decimals than {currency}")
    # 1.250 is a thousand in one country and little more than one in another; currencies of three decimals mean the
    # latter
    if _THOUSANDS.search(text) and not (currency and fits(Decimal("0.001"), currency)):
        small, whole = amount.normalize(), (amount * 1000).normalize()
        raise ValueError(f"column {heading!r}: {text!r} may be {whole:f} or {small:f}: write it with two decimals")
    return -amount if below else amount


_THOUSANDS = re.compile(r"(?<![\d.,])\d{1,3}\.\d{3}(?![\d.,])")
"""A point where books of some countries part thousands."""

_NOTHING = ("", "-", "\N{EN DASH}", "\N{EM DASH}")


def _refuse_currency(columns: Mapping[str, str], reading: StatementReading, file: str) -> None:
    """Refuse amounts whose heading names another currency than they are read in."""
    for key in ("amount", "charged back"):
        code = currency_in(columns.get(key, ""))
        if code and reading.currency and code != reading.currency:
            raise BadInput(
                f"{file}: column {columns[key]!r} is in {code}, and its amounts are read in {reading.currency}",
                "An amount in another currency is another amount.",
                f"If that is meant: --currency {code}",
            )


def _refuse_wrong_totals(rows: Sequence[StatementRow], totals: Sequence[tuple[int, Decimal]], file: str) -> None:
    """Refuse a statement whose rows do not come to what it says: a row may be missing, or read wrongly."""
    before = 0
    for place, total in totals:
        # a total may be of everything so far, or since the one before
        of_all, since = (sum((row.amount for row in rows[first:place]), ZERO) for first in (0, before))
        if total not in (of_all, since):
            raise BadInput(
                f"{file}: its rows come to {plain(of_all)}, and its total says {plain(total)}",
                "A row may be missing, or a column may say something else.",
                "Check the file; or say which column is meant: --column 'amount=HEADING'",
            )
        before = place


def _memo_above(cells: Sequence[tuple[int, list[str]]]) -> str:
    """The memo's number as what stands above the columns tells it."""
    for _, row in cells:
        for place, cell in enumerate(row):
            found = _MEMO.search(cell.strip())
            after = next((other for other in row[place + 1 :] if other), "")
            if found and (found["memo"] or re.search(r"\d", after)):
                return str(found["memo"] or after)
    return ""
