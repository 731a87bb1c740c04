"""How a book's database is opened, read and written: SQLite in a file or in memory, PostgreSQL by URL."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event, select, text
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, DatabaseError, NoSuchModuleError, OperationalError
from sqlalchemy.pool import StaticPool

from claimpack.book.tables import schema
from claimpack.book.tables.hindrances import Hindrance, hindrance
from claimpack.core.values.passwords import without_password
from claimpack.errors import BadInput, CannotWrite, ClaimpackError, NotFound, NotInstalled
from claimpack.installed import install_command

_WAIT_SECONDS = 60
_READS = "claimpack_reads"
ONLY_READ = "claimpack_only_read"
"""The option of an engine that cannot write: the hindrance."""

_NOT_THE_PROGRAMS_FAULT = {
    sqlite3.SQLITE_BUSY,
    sqlite3.SQLITE_LOCKED,
    sqlite3.SQLITE_READONLY,
    sqlite3.SQLITE_IOERR,
    sqlite3.SQLITE_FULL,
    sqlite3.SQLITE_CANTOPEN,
}


def engine_for(place: str) -> Engine:
    """An engine for a SQLite file's path, `:memory:`, or a `postgresql://` URL.

    Raises:
        BadInput: the URL is none, or names another kind of database.
        NotInstalled: PostgreSQL's client library is not there.
    """
    return _postgresql(place) if "://" in place else _sqlite(place)


def _postgresql(place: str) -> Engine:
    url = _url(place)
    if url.get_backend_name() != "postgresql":
        raise BadInput(
            f"book: {url.get_backend_name()!r} is no kind of database the book knows",
            "The book is a SQLite file or a PostgreSQL database.",
            'Write a path, or "postgresql://user@host/database".',
        )
    address = url.set(drivername="postgresql+psycopg")
    try:
        return create_engine(address, pool_pre_ping=True, isolation_level="READ COMMITTED", hide_parameters=True)
    except (ModuleNotFoundError, NoSuchModuleError):
        raise NotInstalled(
            "the book is in PostgreSQL, and this machine lacks its client library",
            do=f"Install it: {install_command('psycopg[binary]')}",
        ) from None


def _url(place: str) -> URL:
    try:
        return make_url(place)
    except (ArgumentError, ValueError):
        raise BadInput(
            "book: the URL of the database cannot be read", do="As in postgresql://user@host/name."
        ) from None


def _sqlite(place: str) -> Engine:
    options: dict[str, Any] = {"connect_args": {"timeout": _WAIT_SECONDS, "check_same_thread": False}}
    if place == ":memory:":
        options["poolclass"] = StaticPool
    options["hide_parameters"] = True
    engine = create_engine(URL.create("sqlite", database=None if place == ":memory:" else place), **options)
    event.listen(engine, "connect", _set_up_sqlite)
    event.listen(engine, "begin", _begin_sqlite)
    return engine


def _set_up_sqlite(connection: Any, _record: object) -> None:
    """Durable at every commit; readers do not wait for the writer."""
    connection.isolation_level = None
    for setting in ("journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON"):
        connection.execute(f"PRAGMA {setting}")


def _begin_sqlite(connection: Connection) -> None:
    """A writer takes its place in the queue at once, so that what it reads is still true when it writes."""
    reads = connection.get_execution_options().get(_READS)
    connection.exec_driver_sql("BEGIN" if reads else "BEGIN IMMEDIATE")


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """A connection to read by; everything it reads is from one moment, and no writer waits for it."""
    options: dict[str, Any] = {_READS: True}
    if _is_postgresql(engine):
        options["isolation_level"] = "REPEATABLE READ"
    with engine.connect().execution_options(**options) as connection:
        yield connection


@contextmanager
def writing(engine: Engine) -> Iterator[Connection]:
    """One transaction that writes. Writers queue: each begins when the one before has ended, so none can deadlock.

    Raises:
        CannotWrite: the database did not take it, or another writer held it for a minute; nothing was changed.
    """
    hindered = cannot_write(engine)
    if hindered:
        raise _not_written(hindered.what, hindered.do)
    try:
        with engine.begin() as connection:
            if _is_postgresql(engine):
                connection.execute(text(f"SET LOCAL lock_timeout = '{_WAIT_SECONDS}s'"))
                connection.execute(select(schema.chain.c.id).with_for_update())
            yield connection
    except OperationalError as error:
        if isinstance(error.orig, sqlite3.Error) and _code(error.orig) not in _NOT_THE_PROGRAMS_FAULT:
            raise
        hindered = None if _is_postgresql(engine) else hindrance(engine.url.database or "")
        do = "Try again when the disk or the server is well, or when nobody else is writing."
        raise _not_written(_said(error), hindered.do if hindered else do) from error


def cannot_write(engine: Engine) -> Hindrance | None:
    """Why an engine only reads; None where it writes."""
    found = engine.get_execution_options().get(ONLY_READ)
    return found if isinstance(found, Hindrance) else None


def _not_written(why: str, do: str) -> CannotWrite:
    return CannotWrite(f"the book cannot be written: {why}", "Nothing of this change was kept.", do)


def _is_postgresql(engine: Engine) -> bool:
    return engine.dialect.name == "postgresql"


def _code(error: sqlite3.Error) -> int:
    """The kind of an error of SQLite's; 0 for one that Python raises itself, as of a text that is none."""
    return int(getattr(error, "sqlite_errorcode", 0)) & 0xFF


def queue_for_migration(connection: Connection) -> None:
    """Wait until nobody else brings the book up to date; SQLite's writers queue already."""
    if _is_postgresql(connection.engine):
        connection.execute(text("SELECT pg_advisory_xact_lock(hashtext('claimpack migrations'))"))


def unreachable(place: str, error: DatabaseError) -> ClaimpackError:
    """The message for a database that does not answer or is none, without its password."""
    if "://" not in place:
        return _unopened(place, error)
    shown = without_password(place)
    return NotFound(
        f"the book at {shown} does not answer: {_said(error)}",
        "Nothing can be read or written without its server.",
        "Check that PostgreSQL is running, and the address.",
    )


def _unopened(place: str, error: DatabaseError) -> NotFound:
    hindered = hindrance(place)
    if hindered and isinstance(error.orig, sqlite3.Error) and _code(error.orig) in _NOT_THE_PROGRAMS_FAULT:
        why = "To be opened it needs a little written beside it; nothing in it is lost."
        return NotFound(f"the book {place} cannot be opened: {hindered.what}", why, hindered.do)
    return NotFound(
        f"the book {place} cannot be opened: {_said(error)}",
        "It may be no book, or lie in a folder that is not there or not writable.",
        "Check the name, the folder and its permissions.",
    )


def is_busy(error: Exception) -> bool:
    """Whether a database is well and only does not answer now: its server is away, or another program locks it."""
    if not isinstance(error, OperationalError):
        return False
    cause = error.orig
    # A server that cannot be reached says so in many ways; of a file, a lock is told from damage by its code alone.
    if not isinstance(cause, sqlite3.Error):
        return True
    return _code(cause) in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)


def fault(error: Exception) -> ClaimpackError | None:
    """What to tell where the database is at fault rather than the program; None where it is not.

    What the database itself says may hold text of claims, and is left out.
    """
    if not isinstance(error, DatabaseError):
        return None
    if is_busy(error):
        why = "Its server is away, or another program locks it."
        return NotFound("the book does not answer now", why, "Try again.")
    if not _is_damage(error):
        return None
    return BadInput(
        "the book cannot be read: what its database holds is damaged",
        "A damaged disk, or another program, changed it; nothing was kept of this run.",
        "See what is damaged: claimpack shop verify; then restore the shop: claimpack shop restore FILE DIR",
    )


def _is_damage(error: DatabaseError) -> bool:
    """Whether a database says of itself that it is damaged, or gives a text that is none."""
    cause = error.orig
    if isinstance(cause, sqlite3.Error):
        # Python raises an error without a code where a text cannot be decoded.
        return not hasattr(cause, "sqlite_errorcode") or _code(cause) in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)
    return str(getattr(cause, "sqlstate", "")).startswith("XX")


def _said(error: DatabaseError) -> str:
    return without_password(str(error.orig).strip().split("\n")[0])


def is_emptied(engine: Engine) -> bool:
    """Whether nothing is in the file of a SQLite book: a book has tables from the start, but a server's comes empty."""
    if _is_postgresql(engine):
        return False
    with reading(engine) as connection:
        return not connection.scalar(text("SELECT count(*) FROM sqlite_master"))


def exists(place: str) -> bool:
    """Whether a SQLite book's file is there; a database by URL is there or says so itself."""
    return "://" in place or place == ":memory:" or Path(place).is_file()
