"""How a book's database is opened: SQLite in a file or in memory, PostgreSQL by URL."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, NoSuchModuleError, OperationalError
from sqlalchemy.pool import StaticPool

from claimpack.errors import BadInput, ClaimpackError, NotFound, NotInstalled

READS = {"claimpack_reads": True}
"""Execution options of a connection that only reads."""

_WAIT_SECONDS = 60


def engine_for(place: str) -> Engine:
    """An engine for a SQLite file's path, `:memory:`, or a `postgresql://` URL.

    Raises:
        BadInput: the URL is none, or names another kind of database.
        NotInstalled: PostgreSQL's client library is not there.
    """
    if "://" not in place:
        return _sqlite(place)
    url = _url(place)
    if url.get_backend_name() != "postgresql":
        raise BadInput(
            f"book: {url.get_backend_name()!r} is no kind of database the book knows",
            "The book is a SQLite file or a PostgreSQL database.",
            'Write a path, or "postgresql://user@host/database".',
        )
    try:
        return create_engine(url.set(drivername="postgresql+psycopg"), pool_pre_ping=True)
    except (ModuleNotFoundError, NoSuchModuleError):
        raise NotInstalled(
            "the book is in PostgreSQL, and this machine lacks its client library",
            do="Install it: pip install 'claimpack[postgresql]'",
        ) from None


def _url(place: str) -> URL:
    try:
        return make_url(place)
    except ArgumentError:
        raise BadInput(
            "book: the URL of the database cannot be read", do="As in postgresql://user@host/name."
        ) from None


def _sqlite(place: str) -> Engine:
    options: dict[str, Any] = {"connect_args": {"timeout": _WAIT_SECONDS, "check_same_thread": False}}
    if place == ":memory:":
        options["poolclass"] = StaticPool
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
    reads = connection.get_execution_options().get("claimpack_reads")
    connection.exec_driver_sql("BEGIN" if reads else "BEGIN IMMEDIATE")


def unreachable(place: str, error: OperationalError) -> ClaimpackError:
    """The message for a database that does not answer, without its password."""
    if "://" not in place:
        return NotFound(f"the book {place} cannot be opened", str(error.orig), "Check that the folder is there.")
    shown = make_url(place).render_as_string(hide_password=True)
    return NotFound(f"the book at {shown} does not answer", str(error.orig).strip().split("\n")[0], "Is it running?")


def exists(place: str) -> bool:
    """Whether a SQLite book's file is there; a database by URL is there or says so itself."""
    return "://" in place or place == ":memory:" or Path(place).is_file()
