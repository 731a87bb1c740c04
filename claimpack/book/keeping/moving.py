"""A whole book moved: every row it is made of read at one moment, and put into an empty book after proof."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from itertools import islice
from typing import Any

from claimpack.book.book import Book
from claimpack.book.database import engines
from claimpack.book.database.connections import Connection, database_errors, is_operational
from claimpack.book.database.sql import select
from claimpack.book.keeping.proof import problems_in
from claimpack.book.tables import finder, rows, schema
from claimpack.book.tables.schema import Column, Table
from claimpack.book.tables.writing import end_chain, put
from claimpack.core.claims.claim import Claim
from claimpack.core.events.fold import Folding
from claimpack.core.events.standing import Standing
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.errors import BadInput, WrongState

NamedRow = dict[str, Any]
Read = Callable[[str], Iterator[NamedRow]]
"""Gives the rows of a table by its name."""

TABLES: tuple[str, ...] = ("claims", "kept_files", "revisions", "events", "clocks")
"""What a book is made of; everything else follows from these."""

# every other column follows from the revision and the events, and is derived where it is put in
_OF_A_CLAIM = ("number", "revision", "digest")
_SOME = 500


@contextmanager
def everything(book: Book) -> Iterator[Read]:
    """The rows of every table, all from one moment, each table by its key in order."""
    with engines.reading(book.engine) as connection:

        def read(name: str) -> Iterator[NamedRow]:
            # every table by its key: the same book gives the same archive, byte for byte
            columns = _columns(name)
            for row in connection.each(select(columns, name).then(f"ORDER BY {', '.join(schema.TABLES[name].key)}")):
                yield dict(zip(columns, row, strict=True))

        yield read


def _columns(name: str) -> tuple[str, ...]:
    return _OF_A_CLAIM if name == "claims" else tuple(schema.TABLES[name].names)


def hashes_of(name: str, row: NamedRow) -> Iterator[str]:
    """The content that a row needs in the vault: the files of a revision, the packet of a filing."""
    if name == "revisions":
        for _, sha256 in rows.files_in(str(row["files"])):
            yield sha256
    elif name == "events" and row["what"] == "filed":
        packet = json.loads(row["facts"]).get("packet")
        if packet:
            yield packet


class Needed:
    """The content that a book's rows need in the vault, less the packets that were erased on request."""

    def __init__(self) -> None:
        self._files: set[str] = set()
        self._packets: set[str] = set()
        self._erased: set[str] = set()

    def take(self, table: str, row: NamedRow) -> None:
        """Take in a row."""
        (self._files if table == "revisions" else self._packets).update(hashes_of(table, row))
        if table == "events" and row["what"] == "erased":
            self._erased.update(json.loads(row["facts"]).get("contents", "").split())

    def hashes(self) -> list[str]:
        """Their hashes, in order."""
        # a packet whose evidence was erased is gone on purpose; files of revisions name only what is left of them
        return sorted(self._files | (self._packets - self._erased))


def content_named(book: Book) -> dict[str, str]:
    """All the content that a book needs in the vault, what each is called by its hash; earlier revisions count too.

    Rows that another program made unreadable are left out: the proof of the book names them.
    """
    latest: dict[str, int] = {}
    needed = Needed()
    seen: dict[str, tuple[str, str, int]] = {}
    named: dict[str, str] = {}
    with everything(book) as read:
        for row in read("revisions"):
            latest[row["claim"]] = row["revision"]
            for path, sha256 in rows.files_in(str(row["files"])):
                # the last revision that names a content tells of it
                seen[sha256] = (row["claim"], path, row["revision"])
        for row in read("events"):
            with suppress(ValueError, AttributeError):
                needed.take("events", row)
                for sha256 in hashes_of("events", row):
                    named[sha256] = f"claim {row['claim']}: the packet filed on {row['on_day']}"
    # no file was taken in so far: these are the packets less those erased
    named = {sha256: named[sha256] for sha256 in needed.hashes()}
    for sha256, (claim, path, revision) in seen.items():
        earlier = "" if revision == latest[claim] else f", as in revision {revision},"
        named[sha256] = f"claim {claim}: {path}{earlier}"
    return named


def refuse_unless_empty(book: Book) -> None:
    """Refuse a book that holds anything.

    Raises:
        WrongState: it holds claims or a history.
    """
    with engines.reading(book.engine) as connection:
        _refuse_unless_empty(connection)


def restore(book: Book, read: Read, keep: Callable[[], None] = lambda: None) -> None:
    """Put every row into an empty book, and prove it before anything is kept.

    Args:
        book: the empty book.
        read: gives the rows of each table.
        keep: puts the files into the vault, once the rows are proved and before they are kept.

    Raises:
        WrongState: the book is not empty.
        BadInput: the rows are no book, or its history does not hold.
    """
    with engines.writing(book.engine) as connection:
        _refuse_unless_empty(connection)
        try:
            _put_everything(connection, read)
        except _not_taken() as error:
            # a full disk or a lost server is no fault of the archive
            if is_operational(error):
                raise
            raise BadInput(
                f"the archive holds a row that is none of a book: {type(error).__name__}",
                "Nothing was kept.",
                "Export the book again.",
            ) from error
        # proved inside the transaction: a book that does not hold together is never there, not even for a moment
        problems = problems_in(connection)
        if problems:
            raise BadInput(
                "the archive does not hold together; nothing was kept",
                "A book is taken over only with its whole history.",
                "Prove the book it came from: claimpack shop verify; then export it again.",
                tuple(f"  {problem}" for problem in problems[:12]),
            )
        finder.make(connection)
        keep()


def _not_taken() -> tuple[type[Exception], ...]:
    """What putting in a row that is none can raise."""
    return (*database_errors(), LookupError, TypeError, ValueError, ArithmeticError, AttributeError, RecursionError)


def _refuse_unless_empty(connection: Connection) -> None:
    claims = connection.value("SELECT count(*) FROM claims")
    events = connection.value("SELECT count(*) FROM events")
    if claims or events:
        raise WrongState(
            f"the book is not empty: it holds {claims} claims and {events} events",
            "A whole book is taken over into an empty one, or its history would not hold.",
            "Make a new shop, or name another database in shop.toml; single claims: claimpack import FOLDER",
        )


def _put_everything(connection: Connection, read: Read) -> None:
    # first the events, as where a claim stands is folded from them and not taken from the archive
    standings = _put_events(connection, read("events"))
    _put_claims(connection, read, standings)
    for name in ("kept_files", "clocks"):
        _put_rows(connection, schema.TABLES[name], read(name))


def _put_events(connection: Connection, told: Iterable[NamedRow]) -> dict[str, Standing]:
    """Put the history in; returns where every claim stands after it."""
    claims: dict[str, Folding] = {}
    length, last = 0, ""
    for some in _batches(told):
        _put_rows(connection, schema.EVENTS, some)
        for row in some:
            event = rows.event_of(row)
            claims.setdefault(event.claim, Folding()).take(event)
        length, last = length + len(some), some[-1]["hash"]
    if length:
        end_chain(connection, length, last)
    return {number: folding.standing for number, folding in claims.items()}


def _put_claims(connection: Connection, read: Read, standings: dict[str, Standing]) -> None:
    """Put the revisions in, and for the last one of each claim the rows that follow from it."""
    claims = list(read("claims"))
    # counted, for a row too many or too few would otherwise show only in the proof, and in worse words
    present, put_in = {row["number"]: row for row in claims}, 0
    for some in _batches(read("revisions")):
        _put_rows(connection, schema.REVISIONS, some)
        last = [row for row in some if present.get(row["claim"], {}).get("revision") == row["revision"]]
        derived = [_derived(row, present[row["claim"]], standings[row["claim"]]) for row in last]
        put(connection, schema.CLAIMS, [claim for claim, _, _ in derived])
        put(connection, schema.SERIALS, [row for _, serials, _ in derived for row in serials])
        put(connection, schema.HELD, [row for _, _, held in derived for row in held])
        put_in += len(derived)
    if put_in != len(claims):
        raise ValueError("a claim comes twice, or is at a revision that is not there")


def _derived(kept: NamedRow, present: NamedRow, standing: Standing) -> tuple[rows.Row, list[rows.Row], list[rows.Row]]:
    claim = Claim.model_validate_json(kept["document"])
    summary = ClaimSummary.model_validate_json(present["digest"])
    values = rows.claim_values(claim, kept["revision"], summary, rows.standing_columns(standing))
    return values, rows.serial_rows(claim), rows.held_rows(claim, standing, summary)


def _put_rows(connection: Connection, table: Table, told: Iterable[NamedRow]) -> None:
    for some in _batches(told):
        put(connection, table, [tuple(_value(row, column) for column in table.columns) for row in some])


def _value(row: NamedRow, column: Column) -> Any:
    """What a row says in a column; an archive made by an earlier version may lack those that can be empty."""
    # a KeyError here is told as a row that is none of a book
    return row.get(column.name) if column.may_be_empty else row[column.name]


def _batches(told: Iterable[NamedRow]) -> Iterator[list[NamedRow]]:
    left = iter(told)
    while some := list(islice(left, _SOME)):
        yield some
