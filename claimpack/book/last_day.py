"""The last day that the book knows something of."""

from __future__ import annotations

import datetime as dt

from sqlalchemy import func, select

from claimpack.book import engines, schema
from claimpack.book.book import Book


def last_day(book: Book) -> dt.date | None:
    """The latest business day of any event; None where nothing has happened."""
    with engines.reading(book.engine) as connection:
        latest = connection.scalar(select(func.max(schema.events.c.on_day)))
    return dt.date.fromisoformat(latest) if latest else None
