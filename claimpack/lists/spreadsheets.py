"""Lists of other programs, read as text: CSV, and the first sheet of a workbook, in a process with limits."""

from __future__ import annotations

import csv
import datetime as dt
import io
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NamedTuple

from claimpack.confined import confined
from claimpack.core.values.words import folded
from claimpack.errors import BadInput
from claimpack.file_contents import read_text, refuse_no_file

MOST_ROWS, MOST_COLUMNS, MOST_LETTERS = 50_000, 200, 20_000
"""A list of claims or of parts comes nowhere near them."""

_BIGGEST_CSV = 20_000_000


class SheetRow(NamedTuple):
    """A row below the headings: its number as the file shows it, and its cells by heading."""

    place: int
    cells: dict[str, str]


class SheetRead(NamedTuple):
    """A list: the file it came from as the user calls it, its headings, and its rows that say something."""

    file: str
    headings: tuple[str, ...]
    rows: tuple[SheetRow, ...]


@dataclass(frozen=True)
class Cells:
    """Rows of cells as text, the headings among them; each row has its number."""

    rows: list[tuple[int, list[str]]]


def read_sheet(path: Path, file: str) -> SheetRead:
    """A list with its headings in the first row that says something.

    Args:
        path: where it lies.
        file: how the user calls it, for messages.

    Raises:
        NotFound: there is no such file.
        BadInput: it is no such list, or larger than one could be.
    """
    return sheet_of(read_cells(path, file), file)


def read_cells(path: Path, file: str) -> list[tuple[int, list[str]]]:
    """Every row of a list that says something, by its number as the file shows it; the headings among them.

    Raises:
        NotFound: there is no such file.
        BadInput: it is no such list, says nothing, or is larger than one could be.
    """
    workbook = path.suffix.casefold() in (".xlsx", ".xlsm")
    rows = _cells_of_workbook(path, file) if workbook else _cells_of_csv(path, file)
    told = [(place, cells) for place, cells in rows if any(cells)]
    if not told:
        raise BadInput(f"{file} has no rows", do="Check that the right file was named.")
    return told


def sheet_of(told: Sequence[tuple[int, list[str]]], file: str) -> SheetRead:
    """A list from its rows, the headings in the first of them.

    Raises:
        BadInput: the headings name no columns, or a row has more cells than there are headings.
    """
    place, headings = told[0][0], headings_in(told[0][1])
    _refuse_headings(headings, f"{file}, row {place}")
    return SheetRead(file, tuple(headings), tuple(_row(each, headings, file) for each in told[1:]))


def headings_in(cells: Sequence[str]) -> list[str]:
    """The headings that a row's cells are."""
    headings = [" ".join(cell.split()) for cell in cells]
    # spreadsheets keep columns that were once used
    while headings and not headings[-1]:
        headings.pop()
    return headings


def columns_called(headings: Sequence[str], called: Mapping[str, Sequence[str]]) -> dict[str, str]:
    """The heading of each key by one of the names that it goes by; a column is taken for one key alone."""
    by_name = {folded(heading): heading for heading in headings}
    found: dict[str, str] = {}
    for key, names in called.items():
        heading = next((by_name[folded(name)] for name in (key, *names) if folded(name) in by_name), "")
        if heading and heading not in found.values():
            found[key] = heading
    return found


def _refuse_headings(headings: Sequence[str], where: str) -> None:
    if "" in headings:
        raise BadInput(
            f"{where}: column {headings.index('') + 1} has no heading",
            "The first row names the columns.",
            "Give every column a name.",
        )
    names = [folded(heading) for heading in headings]
    twice = next((heading for heading, name in zip(headings, names, strict=True) if names.count(name) > 1), None)
    if twice:
        raise BadInput(
            f"{where}: two columns are called {twice!r}",
            "Which of them counts nobody could tell.",
            "Give them names of their own.",
        )


def _row(told: tuple[int, list[str]], headings: Sequence[str], file: str) -> SheetRow:
    place, cells = told
    if any(cells[len(headings) :]):
        raise BadInput(
            f"{file}, row {place}: it has more cells than there are headings",
            "A comma or a quotation mark inside a cell may have parted it.",
            "Correct the row.",
        )
    return SheetRow(place, dict(zip(headings, [*cells, *[""] * len(headings)], strict=False)))


def _cells_of_csv(path: Path, file: str) -> list[tuple[int, list[str]]]:
    text = read_text(path, _BIGGEST_CSV)
    head = text.partition("\n")[0]
    # countries with a decimal comma part cells with semicolons
    delimiter = max(",;\t", key=head.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    # a cell may hold line breaks, so rows and lines are counted apart
    begins = [1]
    try:
        return _bounded(enumerate(_noting_lines(reader, begins), start=1), file)
    except csv.Error as error:
        opens = "a quotation mark opens a cell and is never closed" if "unexpected end" in str(error) else str(error)
        line = text.splitlines()[begins[-1] - 1][:60]
        raise BadInput(
            f"{file}, line {begins[-1]}: {opens}",
            f"The line is: {line}",
            "Inside a cell in quotation marks, write each of them twice; or save the list as CSV anew.",
        ) from None


def _noting_lines(reader: Any, begins: list[int]) -> Iterator[list[str]]:
    """The rows, and the line that the row after the last one read begins on."""
    for row in reader:
        begins.append(reader.line_num + 1)
        yield row


def _cells_of_workbook(path: Path, file: str) -> list[tuple[int, list[str]]]:
    refuse_no_file(path)
    return confined(workbook_cells, path.absolute(), file, file=file).rows


def workbook_cells(path: Path, file: str) -> Cells:
    """The cells of a workbook's first sheet as text.

    Args:
        path: where it lies.
        file: how the user calls it, for messages.

    Raises:
        BadInput: it is no workbook, or larger than a list could be.
    """
    from openpyxl import load_workbook

    try:
        book = load_workbook(path, read_only=True, data_only=True)
        sheet = book.worksheets[0]
        # The size that a file states of itself may be that of a whole page.
        sheet.reset_dimensions()
        rows = (
            (place, [_as_text(cell) for cell in row]) for place, row in enumerate(sheet.iter_rows(values_only=True), 1)
        )
        return Cells(_bounded(rows, file))
    except (BadInput, MemoryError):
        raise
    except Exception as error:
        raise BadInput(
            f"{file} cannot be read as a workbook: {type(error).__name__}",
            "It is damaged, locked with a password, or no .xlsx at all.",
            "Save it anew as .xlsx, or as CSV.",
        ) from error


def _bounded(rows: Iterable[tuple[int, Sequence[str]]], file: str) -> list[tuple[int, list[str]]]:
    found: list[tuple[int, list[str]]] = []
    for place, row in rows:
        cells = [cell.strip() for cell in row]
        if not any(cells):
            continue
        while cells and not cells[-1]:
            cells.pop()
        if len(found) > MOST_ROWS or len(cells) > MOST_COLUMNS or max(map(len, cells)) > MOST_LETTERS:
            raise BadInput(
                f"{file}, row {place}: more than {MOST_ROWS} rows, {MOST_COLUMNS} columns or {MOST_LETTERS} letters",
                "No list of a shop's is that large.",
                "Check that the right file was named, or part it.",
            )
        found.append((place, cells))
    return found


def _as_text(cell: object) -> str:
    """A cell as a person would have typed it; days in ISO 8601, numbers in their shortest digits."""
    if isinstance(cell, dt.datetime):
        return cell.date().isoformat() if cell.time() == dt.time() else cell.isoformat(sep=" ")
    if isinstance(cell, dt.date):
        return cell.isoformat()
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float):
        # The shortest digits that mean the same number are those that were typed.
        return str(int(cell)) if cell.is_integer() and abs(cell) < 10**15 else repr(cell)
    return "" if cell is None else str(cell)
