"""Which column of a maker's statement says what: as the shop keeps it, or by its headings, never between two."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from typing import Literal, NamedTuple

from claimpack.core.facts.record import Record
from claimpack.core.values.money import MINOR_UNITS
from claimpack.core.values.words import Line, did_you_mean, folded
from claimpack.errors import BadInput
from claimpack.lists.spreadsheets import columns_called, headings_in

_CALLED: Mapping[str, tuple[str, ...]] = {
    "number": (
        *("claim", "claim number", "claim no", "claim no.", "claim #", "dealer claim", "dealer claim number"),
        *("your claim", "your number", "your reference", "your ref", "dealer reference", "dealer ref"),
    ),
    "reference": ("ref", "our reference", "our ref", "our claim", "our number", "maker reference", "authorization"),
    "serial": ("serial number", "serial no", "serial no.", "serial #", "unit serial"),
    "part": ("part number", "part no", "part no.", "returned part", "part returned"),
    "amount": (),
    "charged back": ("charge-back", "chargeback", "charge back", "debit", "debit amount", "deduction", "deducted"),
    "currency": ("currency code", "curr", "cur", "ccy"),
    "on": ("date", "paid on", "payment date", "date paid", "memo date", "credit date"),
    "because": ("reason", "remark", "remarks", "comment", "comments", "note", "notes"),
    "memo": ("memo number", "memo no", "memo no.", "credit memo", "credit memo number", "statement number"),
}
_PAID = (
    *("amount paid", "paid", "paid amount", "net amount", "net", "credit amount", "credit", "amount credited"),
    *("payment", "payment amount"),
)
"""What a column of what is paid is called; beside one, a bare `amount` is more likely what was claimed."""

KEYS = tuple(_CALLED)
NAMES = ("number", "reference", "serial", "part")
"""What a row may name its claim by."""

_CODE = re.compile(r"\s*(?:[\[(](?P<inside>[A-Z]{3})[\])]|(?<=\s)(?P<behind>[A-Z]{3}))$")


class StatementColumns(Record):
    """Which column of a maker's statements says what, by key; an empty heading for what none says."""

    format: Literal[1] = 1
    columns: dict[str, Line] = {}


class HeadingRow(NamedTuple):
    """The place of the row of headings among all rows, and which heading says what."""

    place: int
    columns: dict[str, str]


def heading_row(
    cells: Sequence[tuple[int, list[str]]], file: str, known: StatementColumns | None, said: Collection[str] = ()
) -> HeadingRow:
    """The first row that names an amount and something a claim goes by.

    Args:
        cells: every row, by its number.
        file: how the user calls it.
        known: the columns that are remembered, and those said now.
        said: the keys of those said now.

    Raises:
        BadInput: there is none, or two columns may be what is paid.
    """
    kept = known.columns if known else {}
    # money from another column than somebody confirmed once would be wrong on every claim; the rest may be missing
    must = {kept[key] for key in (*said, "amount" if kept.get("amount") else "charged back") if kept.get(key)}
    for start, (_, row) in enumerate(cells):
        headings = headings_in(row)
        told = {key: heading for key, heading in kept.items() if heading in headings}
        columns = _columns(headings, told, kept)
        if not (must <= set(headings) and _is_complete(columns)):
            continue
        # between two columns of what is paid nothing is guessed
        paid = [] if "amount" in told else _paid_among(headings, told)
        if len(paid) > 1:
            raise BadInput(
                f"{file}: {len(paid)} columns may say what is paid: {', '.join(map(repr, paid))}",
                "Money booked from the wrong one would be wrong on every claim.",
                f"Say which: --column 'amount={paid[0]}'",
            )
        return HeadingRow(start, columns)
    raise _no_row(cells, file, kept, must)


def _columns(headings: Sequence[str], told: Mapping[str, str], kept: Mapping[str, str]) -> dict[str, str]:
    """Which heading says what: as it was said, else by what it is called; nothing of what no column is to say."""
    found = {**_guessed(headings, told), **told}
    return {key: found[key] for key in KEYS if key in found and kept.get(key, found[key])}


def _no_row(
    cells: Sequence[tuple[int, list[str]]], file: str, kept: Mapping[str, str], must: Collection[str]
) -> BadInput:
    """That no row names the columns: what the one that comes nearest has, and what it lacks."""
    rows = [(place, headings_in(row)) for place, row in cells]
    read = [(place, headings, _columns(headings, {}, kept)) for place, headings in rows]
    place, headings, columns = max(read, key=lambda one: len(one[2]), default=(0, [], {}))
    ask = "Say which column says what: --column 'amount=HEADING' --column 'number=HEADING'"
    if not columns:
        needed = "It must have an amount, and a claim's number, reference or serial."
        wanted = f"It must have {', '.join(map(repr, sorted(must)))}." if must else needed
        return BadInput(f"{file}: no row names the columns of a statement", wanted, ask)
    lacking = [repr(heading) for heading in sorted(must) if heading not in headings] or [
        *(["what is paid"] if not {"amount", "charged back"} & set(columns) else []),
        *(["what a claim goes by"] if not set(NAMES) & set(columns) else []),
    ]
    others = ", ".join(repr(heading) for heading in headings if heading and heading not in columns.values())
    return BadInput(
        f"{file}, row {place}: no column is known for {' and '.join(lacking)}",
        f"Read: {', '.join(map(repr, columns.values()))}. Not read: {others or 'none'}.",
        ask,
    )


def names_columns(headings: Sequence[str]) -> bool:
    """Whether headings name an amount and something a claim goes by."""
    return _is_complete(_guessed(headings_in(headings), {}))


def _is_complete(columns: Mapping[str, str]) -> bool:
    return bool({"amount", "charged back"} & set(columns) and set(NAMES) & set(columns))


def _guessed(headings: Sequence[str], told: Mapping[str, str]) -> dict[str, str]:
    """The heading of each key that nobody said, a currency behind it left out."""
    by_name = {_without_code(heading): heading for heading in headings if heading and heading not in told.values()}
    wanted = {key: names for key, names in _CALLED.items() if key not in told}
    found = {key: by_name[name] for key, name in columns_called(list(by_name), wanted).items()}
    paid = _paid_among(headings, told)
    return {**found, "amount": paid[0]} if paid and "amount" not in told else found


def _paid_among(headings: Sequence[str], told: Mapping[str, str]) -> list[str]:
    return [one for one in headings if folded(_without_code(one)) in _PAID and one not in told.values()]


def _without_code(heading: str) -> str:
    return heading if currency_in(heading) is None else _CODE.sub("", heading)


def currency_in(heading: str) -> str | None:
    """The currency that a heading names behind the rest, as in `Amount (EUR)`; None where it names none."""
    found = _CODE.search(heading)
    code = (found["inside"] or found["behind"]) if found else ""
    # three capitals may also be a word, as in `Amount NET`
    return code if code in MINOR_UNITS else None


def columns_text(known: StatementColumns, maker: str) -> str:
    """The columns as their file has them."""
    import tomlkit

    lines = [f"# Which column of the statements of {maker} says what.", "format = 1", "", "[columns]"]
    lines += [
        f"{tomlkit.key(key).as_string()} = {tomlkit.item(told).as_string()}" for key, told in known.columns.items()
    ]
    return "\n".join([*lines, ""])


def with_columns(known: StatementColumns | None, said: Sequence[str]) -> StatementColumns | None:
    """The columns with those that somebody names, each as in `amount=Net credit`; `serial=` for none.

    Raises:
        BadInput: it names a key that there is not.
    """
    if not said:
        return known
    told = {
        key.strip().replace("_", " "): heading.strip() for key, _, heading in (each.partition("=") for each in said)
    }
    stray = next((key for key in told if key not in KEYS), None)
    if stray is not None:
        raise BadInput(
            f"--column: {stray!r} is nothing a column may say",
            did_you_mean(stray, KEYS),
            "As in: --column 'amount=Net credit'",
        )
    return StatementColumns(columns={**(known.columns if known else {}), **told})
