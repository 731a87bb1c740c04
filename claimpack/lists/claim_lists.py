"""Lists of claims that a shop kept elsewhere: which column says what, and every row read, or named with its fault."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Literal, NamedTuple, get_args

from claimpack.core.facts.keys import record_from
from claimpack.core.facts.record import Record
from claimpack.core.plans.makers import is_maker_of, names_shown
from claimpack.core.plans.plan import Plan
from claimpack.core.steps.taken_over import AMOUNTS, DAYS, StateTaken, TakenOver, lacking
from claimpack.core.values.typed.amounts import amount_written
from claimpack.core.values.typed.days import DateOrder, day_written
from claimpack.core.values.words import Line, did_you_mean, folded, some_lines
from claimpack.errors import BadInput
from claimpack.folder.toml_files import read_record
from claimpack.lists.spreadsheets import SheetRead, SheetRow, columns_called

KEYS = tuple(TakenOver.declared)
"""What a list may say of a claim."""

_CALLED: Mapping[str, tuple[str, ...]] = {
    "number": ("claim", "claim number", "claim no", "claim #", "our number"),
    "maker": ("manufacturer", "brand", "make"),
    "model": ("unit model", "model number"),
    "presented": ("brought in", "date in", "in", "received from owner"),
    "state": ("status",),
    "serial": ("serial number", "serial no", "unit serial"),
    "engine_serial": ("engine serial", "engine serial number"),
    "kind": ("machine", "unit"),
    "owner": ("customer", "owner name", "customer name"),
    "phone": ("owner phone", "customer phone", "telephone"),
    "email": ("mail",),
    "component": ("what failed", "failed part"),
    "purchased": ("bought", "purchase date", "date of purchase"),
    "failed": ("failure date", "date of failure"),
    "repaired": ("repair date", "date repaired"),
    "filed": ("filing date", "date filed", "submitted", "sent", "date submitted"),
    "received": ("received by maker",),
    "answered": ("answer date", "date answered"),
    "paid_on": ("payment date", "date paid"),
    "claimed": ("amount", "amount claimed", "claim amount"),
    "accepted": ("amount accepted", "approved amount"),
    "paid": ("amount paid", "payment"),
    "reference": ("maker's number", "maker reference", "ref"),
    "because": ("reason", "remark"),
}
_STATES: Mapping[str, StateTaken] = {
    "sent": "filed",
    "submitted": "filed",
    "pending": "filed",
    "approved": "accepted",
    "accepted in part": "part",
    "partial": "part",
    "rejected": "refused",
    "denied": "refused",
    "question": "questioned",
}
# lines of what is wrong: a list with more is mended from the first ones on
_MOST = 40
_NO_CLAIM = ("total", "totals", "sum", "grand total", "subtotal")


class ListMapping(Record):
    """Which column of a list says what: by key; what has no column may have one value for all rows."""

    format: Literal[1] = 1
    columns: dict[str, Line] = {}
    values: dict[str, Line] = {}
    states: dict[str, StateTaken] = {}


class ListReading(NamedTuple):
    """What a list is read by: the plans for its makers, the shop's currency and order of days, and today."""

    plans: Sequence[Plan]
    currency: str
    dates: DateOrder
    today: dt.date


def guessed(sheet: SheetRead) -> ListMapping:
    """The mapping that the headings of a list suggest; a column is taken for one key alone."""
    return ListMapping(columns=columns_called(sheet.headings, {key: _CALLED.get(key, ()) for key in KEYS}))


def mapping_from(path: Path, sheet: SheetRead) -> ListMapping:
    """The mapping that a file tells.

    Raises:
        BadInput: it names a key that there is not, or a column that the list has not.
    """
    mapping = read_record(ListMapping, path)
    for key in (*mapping.columns, *mapping.values):
        if key not in KEYS:
            raise BadInput(f"{path}: key {key} is not known", do=did_you_mean(key, KEYS))
    stray = next((heading for heading in mapping.columns.values() if heading not in sheet.headings), None)
    if stray is not None:
        raise BadInput(
            f"{path}: {sheet.file} has no column {stray!r}",
            did_you_mean(stray, sheet.headings),
            "Correct the mapping, or the heading.",
        )
    return mapping


def mapping_text(mapping: ListMapping) -> str:
    """A mapping as its file has it, with what it leaves open in comments."""
    import tomlkit

    lines = ["# Which column of the list says what.", "format = 1", "", "[columns]"]
    lines += [f"{key} = {tomlkit.item(heading).as_string()}" for key, heading in mapping.columns.items()]
    lines += [f'# {key} = ""' for key in KEYS if key not in mapping.columns]
    lines += ["", "# What has no column, the same for every row.", "[values]", '# maker = "halden"']
    lines += ["", f"# Words of the list for where a claim stands: {', '.join(get_args(StateTaken))}."]
    return "\n".join([*lines, "[states]", '# "with the maker" = "filed"', ""])


class ListRead(NamedTuple):
    """The rows of a list as the claims they tell of; what is wrong with others, by row; and rows that are no claims."""

    rows: tuple[tuple[SheetRow, TakenOver], ...]
    problems: tuple[tuple[int, str], ...]
    left_out: tuple[str, ...]


def rows_of(sheet: SheetRead, mapping: ListMapping, reading: ListReading) -> ListRead:
    """Every row as the claim it tells of; a row that cannot be read has all its faults named, with their columns.

    Raises:
        BadInput: no column says what every claim needs.
    """
    _refuse_no_column(sheet, mapping)
    found, problems, left_out = list[tuple[SheetRow, TakenOver]](), list[tuple[int, str]](), list[str]()
    places: dict[str, int] = {}
    for row in sheet.rows:
        number = row.cells[mapping.columns["number"]] if "number" in mapping.columns else ""
        if "number" in mapping.columns and (not number or folded(number.rstrip(":")) in _NO_CLAIM):
            named = f"{number!r} is no claim number" if number else "it has no claim number"
            # a row of totals is told as left out, so that a claim without its number is not lost unseen
            left_out.append(f"row {row.place}: {named}; left out.")
            continue
        if number and number in places:
            problems.append((row.place, f"row {row.place}: claim {number} stands in row {places[number]} too"))
        places.setdefault(number, row.place)
        taken = _taken(row, mapping, reading)
        if isinstance(taken, TakenOver):
            found.append((row, taken))
        else:
            problems += [(row.place, told) for told in taken]
    return ListRead(tuple(found), tuple(problems), tuple(left_out))


def in_a_row(place: int, said: str, mapping: ListMapping) -> str:
    """What is wrong with a row, as `key: what is wrong`, told by its column, or by the lack of one."""
    key, colon, what = said.partition(": ")
    if not colon or key not in KEYS:
        return f"row {place}: {said}"
    heading = mapping.columns.get(key)
    return f"row {place}, column {heading!r}: {what}" if heading else f"row {place}: {what} (no column says {key})"


def refusal(file: str, problems: Sequence[str]) -> BadInput:
    """The refusal of a list for everything that is wrong in it."""
    shown = some_lines([f"  {' '.join(problem.split())}" for problem in problems], _MOST)
    return BadInput(
        f"{file} cannot be taken in; nothing was", do="Correct the list, or its mapping.", problems=tuple(shown)
    )


def _refuse_no_column(sheet: SheetRead, mapping: ListMapping) -> None:
    needed = [key for key, field in TakenOver.declared.items() if field.is_required]
    lacking = [key for key in needed if key not in mapping.columns and key not in mapping.values]
    if lacking:
        raise BadInput(
            f"{sheet.file}: no column says {', '.join(lacking)}",
            f"Its columns are {', '.join(sheet.headings)}.",
            "Say which does: --write-mapping FILE, correct FILE, then --mapping FILE",
        )


def _taken(row: SheetRow, mapping: ListMapping, reading: ListReading) -> TakenOver | list[str]:
    """A row as the claim it tells of, else everything that is wrong with it."""
    called = {key: f"row {row.place}, column {heading!r}" for key, heading in mapping.columns.items()}
    called |= {key: f"row {row.place}, {key} of the mapping" for key in mapping.values if key not in called}
    cells = {key: row.cells[heading] for key, heading in mapping.columns.items()}
    # what the mapping says of all rows holds where a cell is blank
    cells = {**mapping.values, **{key: cell for key, cell in cells.items() if cell or key not in mapping.values}}
    keys: dict[str, object] = {"currency": reading.currency or None}
    wrong = dict[str, str]()
    # the currency first: how an amount is read depends on its decimals
    for key, cell in sorted(cells.items(), key=lambda each: each[0] != "currency"):
        if not cell:
            continue
        try:
            keys[key] = _read(key, cell, mapping, reading, str(keys["currency"] or ""))
        except ValueError as error:
            wrong[key] = f"{called[key]}: {error}"
    named = {key: called.get(key, f"row {row.place}: {key}") for key in KEYS}
    try:
        taken = record_from(TakenOver, keys, "", named)
    except BadInput as error:
        # a key that could not be read is told as that, and not as missing too
        absent = [f"{named[key]} is missing" for key in wrong]
        said = [each.strip() for each in error.problems or (error.what,)]
        wrong |= {each: each for each in said if each not in absent}
        taken = TakenOver.model_construct(**keys)  # type: ignore[arg-type]
    # A state that cannot be read leaves open what else the row has to say.
    lacks = () if "state" in wrong else lacking(taken)
    wrong |= {key: in_a_row(row.place, f"{key}: {what}", mapping) for key, what in lacks if key not in wrong}
    return list(wrong.values()) if wrong else taken


def _read(key: str, cell: str, mapping: ListMapping, reading: ListReading, currency: str) -> object:
    if key in DAYS:
        # spreadsheets write a day with a midnight behind it
        text = re.sub(r"(?<=\d{4}-\d\d-\d\d) \d\d:\d\d(:\d\d)?$", "", cell)
        day = day_written(text, reading.today, reading.dates)
        if day is None:
            raise ValueError(f"{cell!r} is not a date of the calendar")
        return day
    if key in AMOUNTS:
        return amount_written(cell, currency)
    if key == "state":
        return _state(cell, mapping)
    return _maker(cell, reading.plans) if key == "maker" else cell


def _state(cell: str, mapping: ListMapping) -> str:
    known: dict[str, str] = {**{folded(word): word for word in get_args(StateTaken)}, **_STATES}
    # the shop's own words last, so that they win
    known |= {folded(word): state for word, state in mapping.states.items()}
    state = known.get(folded(cell))
    if state is None:
        raise ValueError(
            f"{cell!r} is no state that is known; say in [states] of the mapping which of "
            f"{', '.join(get_args(StateTaken))} it is"
        )
    return state


def _maker(cell: str, plans: Sequence[Plan]) -> str:
    plan = next((plan for plan in plans if is_maker_of(plan, cell)), None)
    if plan is None:
        raise ValueError(f"no plan is of {cell!r}. {did_you_mean(cell, names_shown(plans))}")
    return plan.maker
