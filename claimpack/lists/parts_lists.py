"""Parts lists of makers: CSV files in the shop's folder `parts`, one for each maker, looked up by part number."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from decimal import Decimal
from pathlib import Path

from claimpack.core.claims.parts_list_row import PartsListRow
from claimpack.core.values.money import exact
from claimpack.core.values.typed.amounts import amount_written
from claimpack.core.values.words import folded, run_on
from claimpack.errors import BadInput
from claimpack.lists.spreadsheets import SheetRead, SheetRow, headings_in, read_cells, sheet_of

PARTS = "parts"
"""The folder in the shop's own."""

_MOST_TOLD = 5

_HEADINGS = {
    "number": ("number", "part number", "part no", "part"),
    "name": ("name", "description"),
    "cost": ("cost", "unit cost", "dealer cost", "net"),
    "list_price": ("list price", "list", "retail"),
    "core": ("core", "core deposit", "core charge"),
}


def parts_list_of(shop: Path, makers: Iterable[str]) -> Path | None:
    """The parts list of a maker, by any of its spellings; None where the shop has none."""
    wanted = {folded(maker) for maker in makers}
    lists = sorted((shop / PARTS).glob("*.csv"))
    return next((path for path in lists if folded(path.stem) in wanted), None)


def listed_part(
    path: Path, number: str, currency: str, tell: Callable[[str], None] = lambda _: None
) -> PartsListRow | None:
    """A part by its number, with or without the hyphens; None where the list does not have it.

    Args:
        path: the parts list.
        number: the part's number.
        currency: the shop's; empty where it is not known.
        tell: called with what is wrong with rows of other parts, which hinder nothing.

    Raises:
        BadInput: the list has no such columns, or two rows of that number, or its amounts cannot be read.
    """
    file = f"{PARTS}/{path.name}"
    told = read_cells(path, file)
    columns = _columns(sheet_of(told[:1], file))
    headings = headings_in(told[0][1])
    at, width = headings.index(columns["number"]), len(headings)
    bad = [row for row in told[1:] if len(row[1]) > width and run_on(row[1][at]) != run_on(number)]
    if bad:
        places = ", ".join(str(place) for place, _ in bad[:_MOST_TOLD]) + " …" * (len(bad) > _MOST_TOLD)
        more = "it has more cells than headings" if len(bad) == 1 else "they have more cells than headings"
        what = "row" if len(bad) == 1 else "rows"
        tell(f"{file}, {what} {places}: not read, since {more}; a comma in a name needs quotes around the name")
    sheet = sheet_of([row for row in told if row not in bad] if bad else told, file)
    found = [row for row in sheet.rows if run_on(row.cells[columns["number"]]) == run_on(number)]
    if len({tuple(row.cells.values()) for row in found}) > 1:
        raise BadInput(
            f"{sheet.file}: rows {' and '.join(str(row.place) for row in found[:2])} are both of part {number}",
            "Which of them counts nobody could tell.",
            "Take one of them out of the list.",
        )
    return _listed(sheet, columns, found[0], currency) if found else None


def costs_in(path: Path, currency: str) -> dict[str, Decimal]:
    """What parts cost the shop by a parts list, by part number without hyphens; parts without a cost are left out.

    Of a number that stands there twice the dearer one counts.

    Raises:
        BadInput: the list has no such columns, or an amount cannot be read.
    """
    file = f"{PARTS}/{path.name}"
    told = read_cells(path, file)
    columns = _columns(sheet_of(told[:1], file))
    width = len(headings_in(told[0][1]))
    sheet = sheet_of([row for row in told if len(row[1]) <= width], file)
    found: dict[str, Decimal] = {}
    for row in sheet.rows:
        listed = _listed(sheet, columns, row, currency)
        if listed.cost is not None:
            number = run_on(listed.number)
            found[number] = max(listed.cost, found.get(number, listed.cost))
    return found


def _columns(sheet: SheetRead) -> dict[str, str]:
    by_name = {folded(heading): heading for heading in sheet.headings}
    found = {key: next((by_name[name] for name in names if name in by_name), "") for key, names in _HEADINGS.items()}
    if not found["number"]:
        raise BadInput(
            f"{sheet.file}: no column is called number",
            f"Its columns are {', '.join(sheet.headings)}.",
            "Name the columns number, name, cost, list price, core.",
        )
    return {key: heading for key, heading in found.items() if heading}


def _listed(sheet: SheetRead, columns: dict[str, str], row: SheetRow, currency: str) -> PartsListRow:
    said = {key: row.cells[heading] for key, heading in columns.items()}
    where = f"{sheet.file}, row {row.place}"

    def amount(key: str) -> Decimal | None:
        if not said.get(key):
            return None
        try:
            found = exact(amount_written(said[key], currency))
        except ValueError as error:
            raise BadInput(f"{where}, column {columns[key]}: {error}", do="Correct the list.") from None
        if found < 0:
            raise BadInput(f"{where}, column {columns[key]}: {said[key]} is below zero", do="Correct the list.")
        return found

    return PartsListRow(
        where, said["number"], said.get("name", ""), amount("cost"), amount("list_price"), amount("core")
    )
