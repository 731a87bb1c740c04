"""Makers' statements as files: which column says what, the memo's number above the columns, every row, the total."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Literal, NamedTuple

from claimpack.core.facts.fields import Record
from claimpack.core.settlement.statement import StatementRow
from claimpack.core.values.money import ZERO, exact, fits, plain
from claimpack.core.values.typed.amounts import amount_written
from claimpack.core.values.typed.days import DateOrder, day_written
from claimpack.core.values.words import Line, did_you_mean, folded
from claimpack.errors import BadInput
from claimpack.lists.pdf_lines import pdf_lines, under
from claimpack.lists.spreadsheets import Row, SheetRead, columns_called, headings_in, read_cells, sheet_of

FOLDER = "statements"
"""Where a shop keeps, maker by maker, which column of its statements says what."""

_CALLED: Mapping[str, tuple[str, ...]] = {
    "number": (
        *("claim", "claim number", "claim no", "claim no.", "claim #", "dealer claim", "dealer claim number"),
        *("your claim", "your number", "your reference", "your ref", "dealer reference", "dealer ref"),
    ),
    "reference": ("ref", "our reference", "our ref", "our claim", "our number", "maker reference", "authorization"),
    "serial": ("serial number", "serial no", "serial no.", "serial #", "unit serial"),
    "part": ("part number", "part no", "part no.", "returned part", "part returned"),
    "amount": ("amount paid", "paid", "net amount", "net", "credit amount", "credit", "amount credited", "payment"),
    "charged back": ("charge-back", "chargeback", "charge back", "debit", "debit amount", "deduction", "deducted"),
    "on": ("date", "paid on", "payment date", "date paid", "memo date", "credit date"),
    "because": ("reason", "remark", "remarks", "comment", "comments", "note", "notes"),
    "memo": ("memo number", "memo no", "memo no.", "credit memo", "credit memo number", "statement number"),
}
KEYS = tuple(_CALLED)
NAMES = ("number", "reference", "serial", "part")
"""What a row may name its claim by."""

_MEMO = re.compile(
    r"\b(?:credit\s+memo|memo|remittance|statement)\s*(?:no|number|nr|#)?\s*[.:#]*\s*(?P<memo>\S*\d\S*)?$",
    re.IGNORECASE,
)
_MOST = 12


class StatementColumns(Record):
    """Which column of a maker's statements says what, by key."""

    format: Literal[1] = 1
    columns: dict[str, Line] = {}


class Reading(NamedTuple):
    """What a statement is read by: the currency of its amounts, the shop's order of days, and today."""

    currency: str
    dates: DateOrder
    today: date


class StatementRead(NamedTuple):
    """A statement's file: its list, the columns, the memo's number where it names one, its rows."""

    sheet: SheetRead
    columns: dict[str, str]
    memo: str
    rows: tuple[StatementRow, ...]


def read_statement(
    cells: Sequence[tuple[int, list[str]]], file: str, known: StatementColumns | None, reading: Reading
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
    start, columns = _heading_row(cells, file, known)
    sheet = sheet_of(cells[start:], file)
    rows, totals, problems = list[StatementRow](), list[tuple[int, Decimal]](), list[str]()
    for row in sheet.rows:
        try:
            read = _row(row, columns, reading)
        except ValueError as error:
            problems.append(f"row {row.place}, {error}")
            continue
        if isinstance(read, Decimal):
            totals.append((len(rows), read))
        elif read:
            rows.append(read)
    if problems:
        more = [f"  and {len(problems) - _MOST} more"] if len(problems) > _MOST else []
        told = [f"  {' '.join(problem.split())}" for problem in problems[:_MOST]]
        raise BadInput(f"{file} cannot be read; nothing was booked", do="Correct it.", problems=(*told, *more))
    _refuse_wrong_totals(rows, totals, file)
    memos = {row.cells[columns["memo"]] for row in sheet.rows} - {""} if "memo" in columns else set()
    memo = memos.pop() if len(memos) == 1 else _memo_above(cells[:start])
    return StatementRead(sheet, columns, memo, tuple(rows))


def cells_of(path: Path, file: str) -> list[tuple[int, list[str]]]:
    """Every row of a statement's file: CSV, a workbook's first sheet, or the text of a PDF.

    Raises:
        NotFound: there is no such file.
        BadInput: it cannot be read.
    """
    if path.suffix.casefold() != ".pdf":
        return read_cells(path, file)
    lines = pdf_lines(path, file)
    start = next((nth for nth, line in enumerate(lines) if _names_columns([cell.text for cell in line])), len(lines))
    above = [[cell.text for cell in line] for line in lines[:start]]
    below = [[cell.text for cell in lines[start]], *under(lines[start], lines[start + 1 :])] if lines[start:] else []
    return list(enumerate([*above, *below], start=1))


def _names_columns(headings: Sequence[str]) -> bool:
    found = columns_called(headings, _CALLED)
    return bool({"amount", "charged back"} & set(found) and set(NAMES) & set(found))


def columns_text(known: StatementColumns, maker: str) -> str:
    """The columns as their file has them."""
    import tomlkit

    lines = [f"# Which column of the statements of {maker} says what.", "format = 1", "", "[columns]"]
    lines += [
        f"{tomlkit.key(key).as_string()} = {tomlkit.item(told).as_string()}" for key, told in known.columns.items()
    ]
    return "\n".join([*lines, ""])


def with_columns(known: StatementColumns | None, said: Sequence[str]) -> StatementColumns | None:
    """The columns with those that somebody names, each as in `amount=Net credit`.

    Raises:
        BadInput: it names a key that there is not.
    """
    if not said:
        return known
    told = {
        key.strip().replace("_", " "): heading.strip() for key, _, heading in (each.partition("=") for each in said)
    }
    stray = next((key for key in told if key not in KEYS or not told[key]), None)
    if stray is not None:
        raise BadInput(
            f"--column: {stray!r} is nothing a column may say",
            did_you_mean(stray, KEYS) or f"It is one of {', '.join(KEYS)}.",
            "As in: --column 'amount=Net credit'",
        )
    return StatementColumns(columns={**(known.columns if known else {}), **told})


def _heading_row(
    cells: Sequence[tuple[int, list[str]]], file: str, known: StatementColumns | None
) -> tuple[int, dict[str, str]]:
    """The place of the first row that names an amount and something a claim goes by, and its columns."""
    for start, (_, row) in enumerate(cells):
        headings = headings_in(row)
        told = {key: heading for key, heading in (known.columns if known else {}).items() if heading in headings}
        free = [heading for heading in headings if heading and heading not in told.values()]
        guessed = columns_called(free, {key: names for key, names in _CALLED.items() if key not in told})
        columns = {key: (told | guessed)[key] for key in KEYS if key in told or key in guessed}
        complete = known is None or set(known.columns) <= set(told)
        if complete and {"amount", "charged back"} & set(columns) and set(NAMES) & set(columns):
            return start, columns
    wanted = ", ".join(repr(heading) for heading in known.columns.values()) if known else ""
    raise BadInput(
        f"{file}: no row names the columns of a statement",
        f"It must have {wanted}." if wanted else "It must have an amount, and a claim's number, reference or serial.",
        "Say which column says what: --column 'amount=HEADING' --column 'number=HEADING'",
    )


def _row(row: Row, columns: Mapping[str, str], reading: Reading) -> StatementRow | Decimal | None:
    """A row as it is meant; a total as its amount alone, and nothing for one without an amount."""
    said = {key: row.cells[heading] for key, heading in columns.items()}
    amount = _money(said.get("amount", ""), columns.get("amount", ""), reading.currency)
    back = _money(said.get("charged back", ""), columns.get("charged back", ""), reading.currency)
    if amount is None and back is None:
        return None
    come = (amount or ZERO) - abs(back or ZERO)
    named = {key: said.get(key, "") for key in NAMES}
    if any(_says_total(cell) for cell in row.cells.values()) and all(
        _says_total(told) for told in named.values() if told
    ):
        return come
    on = said.get("on", "")
    try:
        day = day_written(re.sub(r" \d\d:\d\d(:\d\d)?$", "", on), reading.today, reading.dates) if on else None
    except ValueError as error:
        raise ValueError(f"column {columns['on']!r}: {error}") from None
    if on and day is None:
        raise ValueError(f"column {columns['on']!r}: {on!r} is not a date of the calendar")
    return StatementRow(row.place, come, **named, on=day, because=said.get("because", ""))


def _says_total(cell: str) -> bool:
    return "total" in folded(cell).split()


def _money(cell: str, heading: str, currency: str) -> Decimal | None:
    """An amount as books write it: one in brackets, or with a minus behind it, is below zero."""
    text = cell.strip()
    if not text:
        return None
    below = re.fullmatch(r"\((.+)\)|(.+\d)\s*-", text)
    try:
        amount = exact(amount_written(next(filter(None, below.groups())) if below else text, currency))
    except ValueError as error:
        raise ValueError(f"column {heading!r}: {error}") from None
    if currency and not fits(amount, currency):
        raise ValueError(f"column {heading!r}: {plain(amount)} has more decimals than {currency}")
    return -amount if below else amount


def _refuse_wrong_totals(rows: Sequence[StatementRow], totals: Sequence[tuple[int, Decimal]], file: str) -> None:
    """Refuse a statement whose rows do not come to what it says: a row may be missing, or read wrongly."""
    before = 0
    for place, total in totals:
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
