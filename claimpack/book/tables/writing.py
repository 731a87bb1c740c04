"""Claims written into the book: rows, revisions and the chained history, in the caller's transaction."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import chain
from secrets import token_hex
from typing import Any

from claimpack.book.database.connections import Connection
from claimpack.book.database.sql import Sql, marks, one_of
from claimpack.book.tables import rows, schema
from claimpack.book.tables.entries import Author, Entry
from claimpack.book.tables.rows import Row, StandingColumns
from claimpack.book.tables.schema import Table
from claimpack.core.events.events import Authorship, Link, NewEvent, sealer
from claimpack.core.events.fold import stand
from claimpack.core.events.standing import Standing
from claimpack.core.values.words import some_of
from claimpack.errors import BadInput
from claimpack.file_contents import hash_of

NewEvents = tuple[NewEvent, ...]

_SOME = 500
"""Claims written at a time: few enough to stay in the processor's memory."""

_SALT = 16
"""Bytes of chance in what is sealed: more than anybody can guess through."""

_AT_ONCE = 50
"""Salts drawn at once."""

_MOST_VALUES = 30_000
"""Values in one statement; SQLite takes 32,766, PostgreSQL 65,535."""


def refuse_known(connection: Connection, numbers: Sequence[str]) -> None:
    """Refuse claim numbers that are in the book already, or given twice.

    Raises:
        BadInput: with the numbers.
    """
    known = _known(connection, numbers)
    if known:
        # before any row is written, so that all of them are named at once
        whose = connection.column(Sql("SELECT DISTINCT shop FROM claims").where(one_of("number", known[:_SOME])))
        other = f", of the shop {whose[0]}" if whose[0] and len(whose) == 1 else ""
        _refuse(known, f"already in the book{other}", "Give another number, or change the claim that is there.")
    seen: set[str] = set()
    # told before the database would refuse the second of them with words of its own
    twice = sorted({number for number in numbers if number in seen or seen.add(number)})  # type: ignore[func-returns-value]
    if twice:
        _refuse(twice, "given twice", "Give each claim a number of its own.")


def _known(connection: Connection, numbers: Sequence[str]) -> list[str]:
    known = Sql("SELECT number FROM claims")
    # a database takes only so many values in one question; a whole import is compared here instead
    if len(numbers) <= _SOME:
        return sorted(connection.column(known.where(one_of("number", numbers))))
    return sorted(set(numbers).intersection(connection.column(known)))


def _refuse(numbers: Sequence[str], what: str, do: str) -> None:
    raise BadInput(f"claim {some_of(numbers, 5)} is {what}", "A claim number stands for one claim for ever.", do)


def _salts() -> Iterator[str]:
    """Chance without end, drawn a handful at a time: every draw asks the system."""
    while True:
        drawn = token_hex(_SALT * _AT_ONCE)
        yield from (drawn[first : first + 2 * _SALT] for first in range(0, len(drawn), 2 * _SALT))


class _Written:
    """Everything written of some claims: the values of their rows in each table, and the rows of their revisions."""

    def __init__(self) -> None:
        self.claims: list[Any] = []
        self.serials: list[Any] = []
        self.held: list[Any] = []
        self.files: list[Any] = []
        self.revisions: list[Row] = []
        self._salts = _salts()

    def add(self, entry: Entry, revision: int, standing: Standing, stands: StandingColumns) -> None:
        """Take in a claim as it is after a revision."""
        claim, summary, files = entry.claim, entry.summary, entry.files
        told = rows.summary_told(summary)
        self.claims += rows.claim_values(claim, revision, summary, stands, told)
        for serial in rows.serial_rows(claim):
            self.serials += serial
        for held in rows.held_rows(claim, standing, summary):
            self.held += held
        for file in rows.file_rows(claim.number, files):
            self.files += file
        self.revisions.append(rows.revision_row(claim, revision, files, told, next(self._salts)))


def insert(connection: Connection, entries: Sequence[Entry], new_events: NewEvents, author: Author) -> None:
    """Put new claims in, each at its first revision."""
    # the same for all: claims added together have the same beginning
    standing = stand(new_events)
    stands = rows.standing_columns(standing)
    history = _History(connection, new_events, author)
    for first in range(0, len(entries), _SOME):
        written = _Written()
        for entry in entries[first : first + _SOME]:
            written.add(entry, 1, standing, stands)
        put_values(connection, schema.CLAIMS, written.claims)
        _put_with(connection, written)
        history.add(written.revisions)
    history.end()


def update(connection: Connection, entry: Entry, new_events: NewEvents, author: Author) -> None:
    """Replace a claim by its next revision; the one before stays among the revisions."""
    number = entry.claim.number
    # What lies beside a claim follows from it, so it is written anew: a difference overlooked would stay for ever.
    for beside in ("serials", "held", "kept_files"):
        connection.execute(f"DELETE FROM {beside} WHERE claim = ?", number)  # noqa: S608  names are ours
    written = _Written()
    written.add(entry, entry.revision, entry.standing, rows.standing_columns(entry.standing))
    # an UPDATE and not a delete: what refers to the claim must find it all the while
    replace(connection, schema.CLAIMS, written.claims)
    _put_with(connection, written)
    history = _History(connection, new_events, author)
    history.add(written.revisions)
    history.end()


def _put_with(connection: Connection, written: _Written) -> None:
    """Everything of claims that lies in other tables than their rows."""
    put(connection, schema.REVISIONS, written.revisions)
    put_values(connection, schema.SERIALS, written.serials)
    put_values(connection, schema.HELD, written.held)
    put_values(connection, schema.KEPT_FILES, written.files)


def named(table: Table, row: Sequence[Any]) -> dict[str, Any]:
    """The values of a row by the names of its table's columns."""
    return dict(zip(table.names, row, strict=True))


def replace(connection: Connection, table: Table, row: Sequence[Any]) -> None:
    """Write a row in the place of the one with the same key, which is the first value."""
    key, *names = table.names
    columns = ", ".join(f"{name} = ?" for name in names)
    connection.execute(f"UPDATE {table.name} SET {columns} WHERE {key} = ?", *row[1:], row[0])  # noqa: S608  as above


def put(connection: Connection, table: Table, values: Iterable[Row]) -> None:
    """Insert rows, each in the table's order of columns."""
    put_values(connection, table, list(chain.from_iterable(values)))


def put_values(connection: Connection, table: Table, values: Sequence[Any]) -> None:
    """Insert rows given by their values one after another; many rows in one statement, which is faster."""
    names = table.names
    row = f"({marks(len(names))})"
    into = f"INSERT INTO {table.name} ({', '.join(names)}) VALUES "  # noqa: S608  names are the schema's
    # whole rows, as many as one statement takes
    # a row cut in two would shift every value after it
    at_once = _MOST_VALUES // len(names) * len(names)
    for first in range(0, len(values), at_once):
        some = tuple(values[first : first + at_once])
        connection.execute(Sql(into + ", ".join([row] * (len(some) // len(names))), some))


class _History:
    """What happened to claims, chained to the end of the history; writers queue, so that no two share an end."""

    def __init__(self, connection: Connection, new_events: NewEvents, author: Author) -> None:
        self.connection = connection
        # read under the lock that the caller holds, so that no other writer chains to the same end
        self.length, self.last = chain_end(connection)
        self._salts = _salts()
        signature = Authorship(who=author.who, at=author.at)
        told = [signature.told(each) for each in new_events]
        # what is alike for every claim is told and hashed once, and not for each of a whole import
        self.tellings = [(fields, rows.facts_text(fields["facts"]), sealer(fields)) for fields in told]

    def add(self, kept: Iterable[Row]) -> None:
        """Record what happened to each claim, given the rows of its revisions."""
        recorded: list[Any] = []
        length, previous = self.length, self.last
        for number, revision, *proven in kept:
            document = hash_of(rows.proven_text(*proven).encode())
            for fields, facts, seal in self.tellings:
                link = Link(number, revision, document, previous, next(self._salts))
                length, previous = length + 1, seal(link)
                recorded += rows.event_row(length, fields, facts, link, previous)
        put_values(self.connection, schema.EVENTS, recorded)
        self.length, self.last = length, previous

    def end(self) -> None:
        """Note where the history now ends."""
        end_chain(self.connection, self.length, self.last)


def chain_end(connection: Connection) -> tuple[int, str]:
    """How many events the book counted, and the hash of the last."""
    length, last = connection.one("SELECT length, hash FROM chain WHERE id = 1")
    return int(length), str(last)


def end_chain(connection: Connection, length: int, last: str) -> None:
    """Note how many events there are, and the hash of the last."""
    connection.execute("UPDATE chain SET length = ?, hash = ? WHERE id = 1", length, last)
