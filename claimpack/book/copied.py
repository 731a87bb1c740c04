"""A book whose place takes no writing, read from a copy of its file in memory.

SQLite writes beside a book even to read it. Where nothing can be written, the file alone is the whole book as long as
no changes lie beside it in a write-ahead log, and it stays as it is while it is copied.
"""

from __future__ import annotations

import sqlite3
from typing import TYPE_CHECKING, Any

from claimpack.book.database.connections import Engine
from claimpack.book.database.hindrances import file_of, hindrance
from claimpack.book.tables.migrations import pending

if TYPE_CHECKING:
    from pathlib import Path

# the copy lies in memory whole, and more than once while it is made
_BIGGEST = 500_000_000
_MODES = slice(18, 20)
_WITHOUT_LOG = b"\x01\x01"


def engine_on_copy(place: str) -> Engine | None:
    """An engine that only reads, on a copy in memory of a book that cannot be written where it lies.

    Returns:
        None where nothing keeps the book from being written, where the file alone is not all of it, or where it must
        be brought up to date first.

    Raises:
        WrongState: the book is newer than this program.

    Source: SQLite, "Database File Format", 1.3.3: bytes 18 and 19 are 1 for a file without a write-ahead log, all that
    a database in memory can be.
    """
    hindered = hindrance(place)
    content = _whole(file_of(place)) if hindered else None
    if content is None:
        return None
    readable = bytearray(content)
    # a database in memory refuses a file that asks for a log beside it
    readable[_MODES] = _WITHOUT_LOG
    copy = Engine(place, lambda: _connection(bytes(readable)), hindered=hindered)
    try:
        is_of_today = not pending(copy)
    # a file that is no database is told by whoever opens it for writing, in better words
    except sqlite3.DatabaseError:
        is_of_today = False
    return copy if is_of_today else None


def _connection(content: bytes) -> sqlite3.Connection:
    connection = sqlite3.connect(":memory:", check_same_thread=False, isolation_level=None)
    connection.row_factory = sqlite3.Row
    connection.deserialize(content)
    # a change to the copy would seem to be kept, and be gone with it
    connection.execute("PRAGMA query_only = ON")
    return connection


def _whole(path: Path) -> bytes | None:
    """The content of a book's file at one moment; None where that is not the whole book, or cannot be had."""
    try:
        before = _state(path)
        if before is None or not hasattr(sqlite3.Connection, "deserialize"):
            return None
        content = path.read_bytes()
        # written by another machine meanwhile, it may be half old and half new
        return content if _state(path) == before else None
    except OSError:
        return None


def _state(path: Path) -> tuple[Any, ...] | None:
    """What tells whether the file was changed; None where changes lie beside it, or it is too big for a copy."""
    beside = (path.with_name(f"{path.name}{ending}") for ending in ("-wal", "-journal"))
    # an empty log is left behind by every reader and hides nothing
    if any(other.exists() and other.stat().st_size for other in beside):
        return None
    now = path.stat()
    return (now.st_ino, now.st_size, now.st_mtime_ns) if now.st_size <= _BIGGEST else None
