"""The backups that were made of a book, as it remembers them."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import select

from claimpack.book.book import Book
from claimpack.book.tables import engines, schema
from claimpack.book.tables.entries import Author
from claimpack.core.reporting.backing_up import Backup


def last_backup(book: Book) -> Backup | None:
    """The latest backup that was made and read back."""
    query = select(schema.backups).limit(1)
    with engines.reading(book.engine) as connection:
        found = connection.execute(query).first()
    return Backup(dt.datetime.fromisoformat(found.at), found.who, found.place, found.length) if found else None


def remember_backup(book: Book, author: Author, place: str, length: int) -> None:
    """Write down that a backup was made and read back; only the latest is kept."""
    row = {"at": author.at.isoformat(), "who": author.who, "place": place, "length": length}
    with engines.writing(book.engine) as connection:
        connection.execute(schema.backups.delete())
        connection.execute(schema.backups.insert(), [row])
