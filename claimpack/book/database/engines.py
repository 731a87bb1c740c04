"""How a book's database is opened, read and written: SQLite in a file or in memory, PostgreSQL by URL."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from claimpack.book.database.connections import (
    Connection,
    Engine,
    answers,
    database_errors,
    file_driver,
    has_readable_ports,
    is_operational,
    server_driver,
)
from claimpack.book.database.hindrances import READS_ALONE, hindrance
from claimpack.core.values.passwords import without_password
from claimpack.errors import BadInput, CannotWrite, ClaimpackError, NotFound, NotInstalled
from claimpack.installed import install_command

# a large import may hold the book for some of them
_WAIT_SECONDS = 60
_WRITE = "BEGIN IMMEDIATE"
"""A writer takes its place in the queue at once, so that what it reads is still true when it writes."""

_NOT_THE_PROGRAMS_FAULT = {
    sqlite3.SQLITE_BUSY,
    sqlite3.SQLITE_LOCKED,
    sqlite3.SQLITE_READONLY,
    sqlite3.SQLITE_IOERR,
    sqlite3.SQLITE_FULL,
    sqlite3.SQLITE_CANTOPEN,
}


def engine_for(place: str, wait: float = _WAIT_SECONDS) -> Engine:
    """An engine for a SQLite file's path, `:memory:`, or a `postgresql://` URL; its writers wait so many seconds.

    Raises:
        BadInput: the URL is none, or names another kind of database.
        NotInstalled: PostgreSQL's client library is not there.
    """
    if "://" in place:
        address = _address(place)
        # a server may have gone away since the last question; a file is there as long as it is open
        return Engine(place, lambda: server_driver(address), on_server=True, is_well=answers)
    return Engine(place, lambda: file_driver(place, wait), alone=place == ":memory:")


def _address(place: str) -> str:
    """The address of a server's database, as its client library takes it."""
    scheme, _, rest = place.partition("://")
    # addresses are written with a driver's name by other programs, as in postgresql+psycopg://
    kind = scheme.partition("+")[0]
    if kind and kind != "postgresql":
        raise BadInput(
            f"book: {kind!r} is no kind of database the book knows",
            "The book is a SQLite file or a PostgreSQL database.",
            'Write a path, or "postgresql://user@host/database".',
        )
    address = f"postgresql://{rest}"
    try:
        # asked of the client's own reader, which takes any text for a port and fails only when it connects
        is_read = kind and has_readable_ports(address)
    except ModuleNotFoundError:
        raise NotInstalled(
            "the book is in PostgreSQL, and this machine lacks its client library",
            do=f"Install it: {install_command('psycopg[binary]')}",
        ) from None
    except database_errors():
        is_read = False
    if not is_read:
        raise BadInput("book: the URL of the database cannot be read", do="As in postgresql://user@host/name.")
    return address


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """A connection to read by; everything it reads is from one moment, and no writer waits for it."""
    with engine.transaction("BEGIN ISOLATION LEVEL REPEATABLE READ" if engine.on_server else "BEGIN") as connection:
        yield connection


@contextmanager
def writing(engine: Engine) -> Iterator[Connection]:
    """One transaction that writes. Writers queue: each begins when the one before has ended, so none can deadlock.

    Raises:
        CannotWrite: the database did not take it, or another writer held it for a minute; nothing was changed.
    """
    # told before anything is tried: the engine reads a copy, and writing to that would be kept by nobody
    if engine.hindered:
        raise _not_written(engine.hindered.what, engine.hindered.do)
    try:
        with engine.transaction("BEGIN" if engine.on_server else _WRITE) as connection:
            if engine.on_server:
                connection.execute(f"SET LOCAL lock_timeout = '{_WAIT_SECONDS}s'")
                # the one row every writer needs is locked first, so that no two ever wait for each other
                connection.execute("SELECT id FROM chain FOR UPDATE")
            yield connection
    except database_errors() as error:
        if _is_forbidden(error):
            why = f"its server does not let this login do that ({_said(error)})"
            raise _not_written(why, READS_ALONE.do) from error
        fault_of_file = isinstance(error, sqlite3.Error) and _code(error) in _NOT_THE_PROGRAMS_FAULT
        if not is_operational(error) or not (engine.on_server or fault_of_file):
            raise
        hindered = None if engine.on_server else hindrance(engine.place)
        do = "Try again when the disk or the server is well, or when nobody else is writing."
        raise _not_written(_said(error), hindered.do if hindered else do) from error


def may_write(engine: Engine) -> bool:
    """Whether the login may write at all: whoever changes a claim moves the end of the history."""
    with reading(engine) as connection:
        return bool(connection.value("SELECT has_table_privilege('chain', 'UPDATE')"))


def _is_forbidden(error: Exception) -> bool:
    """Whether a server refuses a login what it was asked for, by its grants or by a policy.

    Source: PostgreSQL documentation, appendix A, error code 42501.
    """
    return getattr(error, "sqlstate", "") == "42501"


def _not_written(why: str, do: str) -> CannotWrite:
    return CannotWrite(f"the book cannot be written: {why}", "Nothing of this change was kept.", do)


def _code(error: sqlite3.Error) -> int:
    """The kind of an error of SQLite's; 0 for one that Python raises itself, as of a text that is none."""
    # the low byte is the kind; what stands above it says which file or lock, SQLite's "extended result codes"
    return int(getattr(error, "sqlite_errorcode", 0)) & 0xFF


@contextmanager
def migrating(engine: Engine) -> Iterator[Connection]:
    """One transaction that brings a book up to date; whoever else would do so waits. SQLite's writers queue already."""
    with engine.transaction("BEGIN" if engine.on_server else _WRITE) as connection:
        if engine.on_server:
            # the row that writers queue at may not be there yet
            connection.execute("SELECT pg_advisory_xact_lock(hashtext('claimpack migrations'))")
        yield connection


def unreachable(place: str, error: Exception) -> ClaimpackError:
    """The message for a database that does not answer or is none, without its password."""
    if "://" not in place:
        return _unopened(place, error)
    # the address goes to a screen, and the password to nobody
    shown = without_password(place)
    if _is_forbidden(error):
        return NotFound(
            f"the book at {shown} does not let this login in: {_said(error)}",
            "What a login may do is granted on its server; only the owner of a book brings it up to date.",
            "Ask whoever keeps the book. What to grant: claimpack shop roles",
        )
    return NotFound(
        f"the book at {shown} does not answer: {_said(error)}",
        "Nothing can be read or written without its server.",
        "Check that PostgreSQL is running, and the address.",
    )


def _unopened(place: str, error: Exception) -> NotFound:
    hindered = hindrance(place)
    if hindered and isinstance(error, sqlite3.Error) and _code(error) in _NOT_THE_PROGRAMS_FAULT:
        why = "To be opened it needs a little written beside it; nothing in it is lost."
        return NotFound(f"the book {place} cannot be opened: {hindered.what}", why, hindered.do)
    return NotFound(
        f"the book {place} cannot be opened: {_said(error)}",
        "It may be no book, or lie in a folder that is not there or not writable.",
        "Check the name, the folder and its permissions.",
    )


def is_busy(error: Exception) -> bool:
    """Whether a database is well and only does not answer now: its server is away, or another program locks it."""
    # A server that cannot be reached says so in many ways; of a file, a lock is told from damage by its code alone.
    if not isinstance(error, sqlite3.Error):
        return is_operational(error)
    return _code(error) in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)


def fault(error: Exception) -> ClaimpackError | None:
    """What to tell where the database is at fault rather than the program; None where it is not.

    What the database itself says may hold text of claims, and is left out.
    """
    if not isinstance(error, database_errors()):
        return None
    if _is_forbidden(error):
        return _not_written(f"its server does not let this login do that ({_said(error)})", READS_ALONE.do)
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


def _is_damage(error: Exception) -> bool:
    """Whether a database says of itself that it is damaged, or gives a text that is none."""
    if isinstance(error, sqlite3.Error):
        # Python raises an error without a code where a text cannot be decoded.
        return not hasattr(error, "sqlite_errorcode") or _code(error) in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)
    # PostgreSQL's class of internal errors, in which it reports data it finds damaged
    return str(getattr(error, "sqlstate", "")).startswith("XX")


def _said(error: Exception) -> str:
    return without_password(str(error).strip().split("\n")[0])


def is_emptied(engine: Engine) -> bool:
    """Whether nothing is in the file of a SQLite book: a book has tables from the start, but a server's comes empty."""
    if engine.on_server:
        return False
    with reading(engine) as connection:
        return not connection.value("SELECT count(*) FROM sqlite_master")


def exists(place: str) -> bool:
    """Whether a SQLite book's file is there; a database by URL is there or says so itself."""
    return "://" in place or place == ":memory:" or Path(place).is_file()
