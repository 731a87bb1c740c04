"""The book: claims read, found and changed. Writers never lose each other's work."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from sqlalchemy import Connection, func, select
from sqlalchemy.exc import IntegrityError, OperationalError

from claimpack.book import engines, rows, schema
from claimpack.book.entries import EVERY, Author, Change, Entry, Wanted
from claimpack.book.migrations import migrate, pending
from claimpack.book.rows import LIST_COLUMNS, ClaimRow, KeptFile
from claimpack.book.writing import insert, refuse_known, update
from claimpack.core.claim import Claim
from claimpack.core.digest import Digest
from claimpack.core.events import Event, Happening
from claimpack.core.states import Standing, stand
from claimpack.core.words import folded, nearest
from claimpack.errors import AlreadyChanged, BadInput, NotFound


class Book:
    """One shop's book. Open it with `open_book`."""

    def __init__(self, place: str) -> None:
        self.place = place
        self.engine = engines.engine_for(place)

    def get(self, number: str) -> Entry:
        """A claim by its number.

        Raises:
            NotFound: there is none; the nearest number is suggested.
        """
        with self._reading() as connection:
            return self._entry(connection, number)

    def numbers(self) -> list[str]:
        """Every claim number, in order."""
        with self._reading() as connection:
            return list(connection.scalars(select(schema.claims.c.number).order_by(schema.claims.c.number)))

    def claims(self, wanted: Wanted = EVERY) -> list[ClaimRow]:
        """The claims wanted, the latest brought in first."""
        columns = [schema.claims.c[name] for name in LIST_COLUMNS]
        order = (schema.claims.c.presented.desc(), schema.claims.c.number.desc())
        query = select(*columns).where(*_narrowed(wanted)).order_by(*order).limit(wanted.limit)
        with self._reading() as connection:
            return [rows.claim_row(row) for row in connection.execute(query).mappings()]

    def count(self, wanted: Wanted = EVERY) -> int:
        """How many claims are wanted, whatever the limit."""
        query = select(func.count()).select_from(schema.claims).where(*_narrowed(wanted))
        with self._reading() as connection:
            return int(connection.scalar(query) or 0)

    def with_serials(self, serials: Iterable[str]) -> list[ClaimRow]:
        """The claims about a unit with any of the serial numbers, the latest brought in first."""
        wanted = [folded(serial) for serial in serials if serial]
        if not wanted:
            return []
        about = select(schema.serials.c.claim).where(schema.serials.c.serial.in_(wanted))
        columns = [schema.claims.c[name] for name in LIST_COLUMNS]
        query = select(*columns).where(schema.claims.c.number.in_(about)).order_by(schema.claims.c.presented.desc())
        with self._reading() as connection:
            return [rows.claim_row(row) for row in connection.execute(query).mappings()]

    def entries(self, numbers: Sequence[str] | None = None) -> Iterator[Entry]:
        """Whole claims, by number in order; all of them, or those named that are there."""
        query = select(schema.claims).order_by(schema.claims.c.number)
        if numbers is not None:
            query = query.where(schema.claims.c.number.in_(numbers))
        with self._reading() as connection:
            files = _files_by_claim(connection, numbers)
            for row in connection.execution_options(yield_per=500).execute(query).mappings():
                yield _entry_of(row, files.get(row["number"], ()))

    def history(self, number: str = "") -> list[Event]:
        """Every event of a claim, or of the whole book, in the order they were recorded."""
        query = select(schema.events).order_by(schema.events.c.position)
        if number:
            query = query.where(schema.events.c.claim == number)
        with self._reading() as connection:
            return [rows.event_of(row) for row in connection.execute(query).mappings()]

    def chain_end(self) -> tuple[int, str]:
        """How many events the book counted, and the hash of the last."""
        with self._reading() as connection:
            end = connection.execute(select(schema.chain).where(schema.chain.c.id == 1)).one()
        return int(end.length), str(end.hash)

    def revision(self, number: str, revision: int) -> Claim:
        """A claim as it once was.

        Raises:
            NotFound: it has no such revision.
        """
        table = schema.revisions
        query = select(table.c.document).where(table.c.claim == number, table.c.revision == revision)
        with self._reading() as connection:
            document = connection.scalar(query)
        if document is None:
            raise NotFound(f"claim {number} has no revision {revision}", do=f"See: claimpack history {number}")
        return Claim.model_validate_json(document)

    def documents(self) -> Iterator[tuple[str, int, str]]:
        """Number, revision and document of every revision, for proving them against the history."""
        table = schema.revisions
        query = select(table.c.claim, table.c.revision, table.c.document).order_by(table.c.claim, table.c.revision)
        with self._reading() as connection:
            for row in connection.execution_options(yield_per=500).execute(query):
                yield row.claim, row.revision, row.document

    def add(self, entries: Iterable[Entry], author: Author, *happenings: Happening) -> int:
        """Put new claims into the book, all or none; returns how many.

        Raises:
            BadInput: a number is there already.
        """
        added = list(entries)
        with self._writing() as connection:
            refuse_known(connection, [entry.claim.number for entry in added])
            told = {entry.claim.number: happenings for entry in added}
            insert(connection, added, told, author)
        return len(added)

    @contextmanager
    def change(self, number: str, author: Author, revision: int | None = None) -> Iterator[Change]:
        """Change one claim; leaving without `save` changes nothing.

        Args:
            number: the claim.
            author: who, and when.
            revision: the revision that was looked at before; None when it was not shown to anybody.

        Raises:
            NotFound: there is no such claim.
            AlreadyChanged: somebody changed it after that revision; the message says who, when and what.
        """
        with self._writing() as connection:
            entry = self._entry(connection, number, lock=True)
            if revision is not None and revision != entry.revision:
                raise _stale(connection, number, revision)
            change = Change(entry)
            yield change
            if change.happenings:
                standing = stand(change.happenings, entry.standing)
                after = Entry(change.claim, entry.revision + 1, standing, change.digest, change.files)
                update(connection, after, change.happenings, author)

    def clocks(self) -> list[tuple[str, str, str, dt.datetime]]:
        """Every running labour clock: technician, claim, operation, start."""
        with self._reading() as connection:
            found = connection.execute(select(schema.clocks).order_by(schema.clocks.c.started)).all()
        return [(who, claim, operation, dt.datetime.fromisoformat(at)) for who, claim, operation, at in found]

    def start_clock(self, technician: str, number: str, operation: str, at: dt.datetime) -> None:
        """Start a technician's clock on a claim.

        Raises:
            NotFound: there is no such claim.
            BadInput: the technician's clock runs already.
        """
        row = {"technician": technician, "claim": number, "operation": operation, "started": at.isoformat()}
        try:
            with self._writing() as connection:
                self._entry(connection, number)
                connection.execute(schema.clocks.insert(), [row])
        except IntegrityError:
            running = next(clock for clock in self.clocks() if clock[0] == technician)
            raise BadInput(
                f"{technician}'s clock runs already, since {running[3]:%Y-%m-%d %H:%M}: {running[2]} on claim {running[1]}",
                "A technician works on one thing at a time.",
                "Stop it first: claimpack labour stop",
            ) from None

    def drop_clock(self, technician: str) -> None:
        """Forget a technician's running clock."""
        with self._writing() as connection:
            connection.execute(schema.clocks.delete().where(schema.clocks.c.technician == technician))

    @contextmanager
    def _reading(self) -> Iterator[Connection]:
        with self.engine.connect().execution_options(**engines.READS) as connection:
            yield connection

    @contextmanager
    def _writing(self) -> Iterator[Connection]:
        with self.engine.begin() as connection:
            yield connection

    def _entry(self, connection: Connection, number: str, *, lock: bool = False) -> Entry:
        query = select(schema.claims).where(schema.claims.c.number == number)
        row = connection.execute(query.with_for_update() if lock else query).mappings().first()
        if row is None:
            raise _no_such_claim(connection, number)
        files = connection.execute(select(schema.kept_files).where(schema.kept_files.c.claim == number)).mappings()
        return _entry_of(row, tuple(sorted(rows.kept_file(file) for file in files)))


def open_book(place: str, *, create: bool = False) -> Book:
    """Open a book and bring it up to date.

    Args:
        place: path of a SQLite file, `:memory:`, or a `postgresql://` URL.
        create: make the SQLite file where there is none.

    Raises:
        NotFound: there is no book, or its server does not answer.
        WrongState: the book is newer than this program.
    """
    if not create and not engines.exists(place):
        raise NotFound(f"{place}: there is no book", do="Make a shop: claimpack shop init FOLDER")
    book = Book(place)
    try:
        if pending(book.engine):
            migrate(book.engine)
    except OperationalError as error:
        raise engines.unreachable(place, error) from error
    return book


def _narrowed(wanted: Wanted) -> list[Any]:
    claims = schema.claims.c
    narrowed: list[Any] = []
    if wanted.states:
        narrowed.append(claims.state.in_(wanted.states))
    if wanted.maker:
        narrowed.append(func.lower(claims.maker) == wanted.maker.lower())
    for word in folded(wanted.text).split():
        narrowed.append(claims.words.contains(word, autoescape=True))
    return narrowed


def _entry_of(row: Any, files: tuple[KeptFile, ...]) -> Entry:
    return Entry(
        claim=Claim.model_validate_json(row["document"]),
        revision=row["revision"],
        standing=Standing.model_validate_json(row["standing"]),
        digest=Digest.model_validate_json(row["digest"]),
        files=files,
    )


def _files_by_claim(connection: Connection, numbers: Sequence[str] | None) -> dict[str, tuple[KeptFile, ...]]:
    query = select(schema.kept_files).order_by(schema.kept_files.c.claim, schema.kept_files.c.path)
    if numbers is not None:
        query = query.where(schema.kept_files.c.claim.in_(numbers))
    found: dict[str, tuple[KeptFile, ...]] = {}
    for row in connection.execute(query).mappings():
        found[row["claim"]] = (*found.get(row["claim"], ()), rows.kept_file(row))
    return found


def _no_such_claim(connection: Connection, number: str) -> NotFound:
    like = select(schema.claims.c.number).where(schema.claims.c.number.contains(number[:2], autoescape=True)).limit(500)
    near = nearest(number, connection.scalars(like))
    hint = f"Did you mean {near}?" if near else "See: claimpack list"
    return NotFound(f"claim {number} is not in the book, and there is no such folder", do=hint)


def _stale(connection: Connection, number: str, revision: int) -> AlreadyChanged:
    table = schema.events
    query = select(table).where(table.c.claim == number, table.c.revision > revision).order_by(table.c.position)
    since = [rows.event_of(row) for row in connection.execute(query).mappings()]
    told = "; ".join(f"{event.who} {event.what} it at {event.at:%Y-%m-%d %H:%M}" for event in since)
    return AlreadyChanged(
        f"claim {number} was changed by somebody else meanwhile",
        f"{told or 'It stands at another revision'}.",
        "Look at it again and repeat your change.",
    )
