"""Claims written into the book: rows, revisions and the chained history, in the caller's transaction."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain
from typing import Any, NamedTuple

from sqlalchemy import Connection, Table, select

from claimpack.book import rows, schema
from claimpack.book.entries import Author, Entry
from claimpack.book.rows import Row
from claimpack.core.events import Happening, Link, Signature, sealer
from claimpack.core.states import stand
from claimpack.errors import BadInput
from claimpack.files import hash_of

Happenings = tuple[Happening, ...]

_SOME = 500
"""Claims written at a time: few enough to stay in the processor's memory."""

_MOST_VALUES = 30_000
"""Values in one statement; SQLite takes 32,766, PostgreSQL 65,535."""


def refuse_known(connection: Connection, numbers: Sequence[str]) -> None:
    """Refuse claim numbers that are in the book already, or given twice.

    Raises:
        BadInput: with the numbers.
    """
    known = _known(connection, numbers)
    if known:
        _refuse(known, "in the book already", "Give another number, or change the claim that is there.")
    seen: set[str] = set()
    twice = sorted({number for number in numbers if number in seen or seen.add(number)})  # type: ignore[func-returns-value]
    if twice:
        _refuse(twice, "given twice", "Give each claim a number of its own.")


def _known(connection: Connection, numbers: Sequence[str]) -> list[str]:
    known = select(schema.claims.c.number)
    if len(numbers) <= _SOME:
        return sorted(connection.scalars(known.where(schema.claims.c.number.in_(numbers))))
    return sorted(set(numbers).intersection(connection.scalars(known)))


def _refuse(numbers: Sequence[str], what: str, do: str) -> None:
    shown = ", ".join(numbers[:5]) + (f" and {len(numbers) - 5} more" if len(numbers) > 5 else "")
    raise BadInput(f"claim {shown} is {what}", "A claim number stands for one claim for ever.", do)


class _Written(NamedTuple):
    """Everything written of one claim: its row, what is kept of it for ever, and its rows in the other tables."""

    row: dict[str, Any]
    kept: dict[str, Any]
    serials: list[Row]
    held: list[Row]
    files: list[Row]


def _written(entry: Entry, stands: dict[str, Any]) -> _Written:
    claim = entry.claim
    return _Written(
        rows.claim_columns(claim, entry.revision, entry.digest, stands),
        rows.revision_row(claim, entry.revision, entry.files),
        rows.serial_rows(claim),
        rows.held_rows(claim, entry.standing, entry.digest),
        rows.file_rows(claim.number, entry.files),
    )


def insert(connection: Connection, entries: Sequence[Entry], happenings: Happenings, author: Author) -> None:
    """Put new claims in, each at its first revision."""
    standing = stand(happenings)
    stands = rows.standing_columns(standing)
    for first in range(0, len(entries), _SOME):
        some = entries[first : first + _SOME]
        written = [_written(Entry(entry.claim, 1, standing, entry.digest, entry.files), stands) for entry in some]
        put(connection, schema.claims, [tuple(each.row.values()) for each in written], list(written[0].row))
        _put_with(connection, written)
        _record(connection, written, happenings, author)


def update(connection: Connection, entry: Entry, happenings: Happenings, author: Author) -> None:
    """Replace a claim by its next revision; the one before stays among the revisions."""
    number = entry.claim.number
    for table in (schema.serials, schema.held, schema.kept_files):
        connection.execute(table.delete().where(table.c.claim == number))
    written = _written(entry, rows.standing_columns(entry.standing))
    connection.execute(schema.claims.update().where(schema.claims.c.number == number).values(**written.row))
    _put_with(connection, [written])
    _record(connection, [written], happenings, author)


def _put_with(connection: Connection, written: Sequence[_Written]) -> None:
    """Everything of claims that lies in other tables than their rows."""
    put(connection, schema.revisions, [tuple(each.kept.values()) for each in written])
    put(connection, schema.serials, [row for each in written for row in each.serials])
    put(connection, schema.held, [row for each in written for row in each.held])
    put(connection, schema.kept_files, [row for each in written for row in each.files])


def put(connection: Connection, table: Table, values: Sequence[Row], columns: Sequence[str] = ()) -> None:
    """Insert rows, in the table's order of columns where none is given; many in one statement, which is faster."""
    if not values:
        return
    names = columns or table.columns.keys()
    mark = "?" if connection.dialect.name == "sqlite" else "%s"
    row = f"({', '.join([mark] * len(names))})"
    into = f"INSERT INTO {table.name} ({', '.join(names)}) VALUES "  # noqa: S608  names are the schema's
    at_once = _MOST_VALUES // len(names)
    for first in range(0, len(values), at_once):
        some = values[first : first + at_once]
        connection.exec_driver_sql(into + ", ".join([row] * len(some)), tuple(chain.from_iterable(some)))


def _record(connection: Connection, written: Sequence[_Written], happenings: Happenings, author: Author) -> None:
    """Chain what happened to the end of the history; writers queue, so that no two share an end."""
    end = connection.execute(select(schema.chain).where(schema.chain.c.id == 1)).one()
    length, previous = int(end.length), str(end.hash)
    signature = Signature(who=author.who, at=author.at)
    told = [signature.told(each) for each in happenings]
    tellings = [(fields, rows.facts_text(fields["facts"]), sealer(fields)) for fields in told]
    recorded = []
    for each in written:
        document = hash_of(rows.proven_text(each.kept).encode())
        for fields, facts, seal in tellings:
            link = Link(each.row["number"], each.row["revision"], document, previous)
            length, previous = length + 1, seal(link)
            recorded.append(rows.event_row(length, fields, facts, link, previous))
    put(connection, schema.events, recorded)
    connection.execute(schema.chain.update().where(schema.chain.c.id == 1).values(length=length, hash=previous))
