"""The backups that were made of a book, as it remembers them."""

from __future__ import annotations

import datetime as dt

from claimpack.book.book import Book
from claimpack.book.database import engines
from claimpack.book.tables import schema
from claimpack.book.tables.entries import Author
from claimpack.book.tables.writing import put
from claimpack.core.reporting.backing_up import Backup


def last_backup(book: Book) -> Backup | None:
    """The latest backup that was made and read back."""
    with engines.reading(book.engine) as connection:
        found = connection.first("SELECT at, who, place, length FROM backups LIMIT 1")
    if found is None:
        return None
    at, who, made_at, length = found
    return Backup(dt.datetime.fromisoformat(at), who, made_at, length)


def remember_backup(book: Book, author: Author, place: str, length: int) -> None:
    """Write down that a backup was made and read back; only the latest is kept."""
    with engines.writing(book.engine) as connection:
        # only the latest is ever told, and older ones may be gone from where they were put
        connection.execute("DELETE FROM backups")
        put(connection, schema.BACKUPS, [(author.at.isoformat(), author.who, place, length)])
