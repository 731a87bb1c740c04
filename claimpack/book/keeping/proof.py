"""The book proved: the chain of its history, and every claim against what its history carries."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator
from typing import Any

from claimpack.book.book import Book
from claimpack.book.database import engines
from claimpack.book.database.connections import Connection, FoundRow
from claimpack.book.database.sql import select
from claimpack.book.keeping.soundness import DAMAGED, damage_in, not_found, of_other_kinds, unlike_ours, unreadable
from claimpack.book.lookups import entry_of
from claimpack.book.tables import rows, schema
from claimpack.book.tables.erasures import left_by_erasing
from claimpack.book.tables.schema import WITH_REVISION, Table
from claimpack.book.tables.writing import chain_end, named
from claimpack.core.events.events import START_OF_CHAIN, Event, broken
from claimpack.core.events.fold import Folding
from claimpack.core.events.standing import Standing
from claimpack.errors import BadInput
from claimpack.file_contents import hash_of


def book_problems(book: Book) -> list[str]:
    """Everything in a book that is damaged, is not its own, or does not follow from its history; empty when whole."""
    found: list[str] = []
    try:
        with engines.reading(book.engine) as connection:
            found += damage_in(connection)
            found += unlike_ours(connection)
            found += of_other_kinds(connection)
            found += not_found(connection)
            found += problems_in(connection)
    except unreadable() as error:
        # a book that is locked is not damaged
        if engines.is_busy(error):
            raise
        found.append(DAMAGED)
    return found


def problems_in(connection: Connection) -> list[str]:
    """What does not follow from the history, within a transaction, before what it wrote is kept."""
    history = _History(connection)
    problems = [*history.problems(connection), *_revisions(connection, history)]
    return [*problems, *_present_claims(connection, history), *_clocks(connection, history)]


class _History:
    """What the events say, read once: the hash of every revision, and where every claim stands."""

    def __init__(self, connection: Connection) -> None:
        self.left = left_by_erasing(connection)
        self.documents: dict[tuple[str, int], str] = {}
        self.revisions: dict[str, int] = {}
        self.claims: dict[str, Folding] = {}

    def problems(self, connection: Connection) -> Iterator[str]:
        """Where the chain does not hold, in order."""
        position, previous = 0, START_OF_CHAIN
        for position, row in enumerate(_rows(connection, schema.EVENTS), start=1):
            try:
                event = rows.event_of(row)
                yield from broken(event, position, previous, self.left.events.get((event.claim, position), ""))
                self._take(event)
            except unreadable():
                yield f"event {position} ({row['what']} of {row['claim']}) was overwritten: it cannot be read"
            # the hash that is kept, and not the one worked out: one changed event is named once, and not with all that
            # follow it
            previous = row["hash"]
        length, last = chain_end(connection)
        if (position, previous) != (length, last):
            yield f"the history holds {position} events, and the book counted {length}, or another one as the last"

    def _take(self, event: Event) -> None:
        self.claims.setdefault(event.claim, Folding()).take(event)
        key = event.claim, event.revision
        # what was erased on request is proved by the hash that was recorded with the erasure
        self.documents[key] = self.left.documents.get(key, event.document)
        self.revisions[event.claim] = event.revision


def _rows(connection: Connection, table: Table) -> Iterator[FoundRow]:
    """Every row of a table, by its key in order."""
    return connection.each(select(table.names, table.name).then(f"ORDER BY {', '.join(table.key)}"))


def _revisions(connection: Connection, history: _History) -> Iterator[str]:
    """Documents that are not the ones recorded, and recorded ones that are gone."""
    recorded = dict(history.documents)
    for row in _rows(connection, schema.REVISIONS):
        number, revision = row["claim"], row["revision"]
        # what is left in the end was recorded, and is no longer there
        if recorded.pop((number, revision), "") != _hash_of_revision(row):
            yield f"revision {revision} of claim {number} is not the one that was recorded"
    for number, revision in recorded:
        yield f"revision {revision} of claim {number} is gone from the book"


def _hash_of_revision(row: FoundRow) -> str:
    """What the history should carry of a revision; empty for one whose texts are none any more."""
    try:
        return hash_of(rows.proven_of(row).encode())
    except (TypeError, ValueError):
        return ""


def _present_claims(connection: Connection, history: _History) -> Iterator[str]:
    """Claims whose rows are not what their last revision and their events give."""
    gone = dict.fromkeys(history.revisions)
    beside = _Beside(connection)
    columns = [f"claims.{name}" for name in schema.CLAIMS.names]
    columns += ["revisions.document", "revisions.files", "revisions.digest AS proven"]
    for row in connection.each(select(columns, WITH_REVISION).then("ORDER BY claims.number")):
        number = row["number"]
        # found, before anything is said of it: a claim that cannot be read is not gone
        gone.pop(number, None)
        if history.revisions.get(number) != row["revision"]:
            yield f"claim {number} is not at the revision its history left it at"
            continue
        try:
            wrong = _differing(row, history.claims[number].standing, beside)
        except BadInput as error:
            yield error.what
            continue
        except unreadable():
            yield f"claim {number} cannot be read from the book"
            continue
        # derived columns are worked out anew from document and events, so that a list cannot show what no event says
        if wrong:
            yield f"claim {number} is not as its history left it: {', '.join(wrong)}"
    for number in gone:
        yield f"claim {number} is in the history, and gone from the book"
    for number in sorted(map(str, beside.left())):
        yield f"claim {number} is not in the book, and rows of it are"


def _clocks(connection: Connection, history: _History) -> Iterator[str]:
    """Running clocks that are none: on no claim, or since no time."""
    for row in _rows(connection, schema.CLOCKS):
        try:
            known = row["claim"] in history.revisions and dt.datetime.fromisoformat(row["started"])
        except (TypeError, ValueError):
            known = False
        if not known:
            yield "a running clock cannot be read, or is on a claim that is not in the book"


def _differing(row: FoundRow, standing: Standing, beside: _Beside) -> list[str]:
    """The columns and tables that say something else than the last revision and the events of a claim."""
    number = row["number"]
    entry = entry_of(row, ())
    values = rows.claim_values(entry.claim, entry.revision, entry.summary, rows.standing_columns(standing))
    wrong = [name for name, value in named(schema.CLAIMS, values).items() if not _same(name, row[name], value)]
    # revisions of early versions carry no summary to compare with
    if row["proven"] and row["proven"] != row["digest"] and "digest" not in wrong:
        wrong.append("digest")
    # taken away as they are compared, so that rows of no claim are what is left
    if beside.serials.pop(number, []) != sorted(rows.serial_rows(entry.claim)):
        wrong.append("serials")
    if beside.held.pop(number, []) != rows.held_rows(entry.claim, standing, entry.summary):
        wrong.append("held parts")
    if not _same_files(beside.files.pop(number, []), row["files"]):
        wrong.append("files")
    return wrong


def _same(name: str, kept: Any, derived: Any) -> bool:
    """Whether a column says what it should; nothing may be written 0 or 0.00, as earlier versions did."""
    if kept == derived or name not in ("standing", *_AMOUNTS):
        return bool(kept == derived)
    # nothing was kept as 0.00 by early versions, and is no change of an amount
    return isinstance(kept, str) and _NOTHING.sub("0", kept) == _NOTHING.sub("0", derived or "")


_NOTHING = re.compile(r"(?<![\d.])0\.0+(?!\d)", re.ASCII)


def _same_files(kept: list[str], recorded: str) -> bool:
    """Whether the files kept are those recorded; early versions recorded content and path alone."""
    lines = [line for line in recorded.split("\n") if line]
    # lines of early versions tell no more than path and content, and are compared by that
    whole = [line if "\t" in told else line.partition("\t")[0] for line, told in zip(kept, lines, strict=False)]
    return len(kept) == len(lines) and whole == lines


_AMOUNTS = ("claimed", "paid", "outstanding", "refused_rest")


class _Beside:
    """The rows of every claim that lie in other tables, by claim number."""

    def __init__(self, connection: Connection) -> None:
        self.serials = _by_claim(connection, schema.SERIALS)
        self.held = _by_claim(connection, schema.HELD)
        self.files: dict[str, list[str]] = {}
        for row in _rows(connection, schema.KEPT_FILES):
            number, *values = row
            self.files.setdefault(number, []).append(rows.file_line(values))

    def left(self) -> set[str]:
        """The claims whose rows were not asked for."""
        return {*self.serials, *self.held, *self.files}


def _by_claim(connection: Connection, table: Table) -> dict[str, list[tuple[Any, ...]]]:
    found: dict[str, list[tuple[Any, ...]]] = {}
    for row in _rows(connection, table):
        found.setdefault(row["claim"], []).append(tuple(row))
    return found
