"""Who worked when: the labour of one technician about some days, looked up in the whole book."""

from __future__ import annotations

import datetime as dt
import json

from sqlalchemy import or_, select

from claimpack.book import engines, schema
from claimpack.book.book import Book
from claimpack.book.entries import Entry
from claimpack.book.lookups import stored_entries

_ONE_DAY = dt.timedelta(days=1)


def claims_worked_on(book: Book, technician: str, started: dt.datetime, ended: dt.datetime) -> list[Entry]:
    """The claims on which a technician's work may have begun about that time, by number in order.

    A day more on either side is looked at, since times are kept with the offset they were written with.

    Args:
        book: the shop's book.
        technician: the name, in any case.
        started: when the time looked at begins.
        ended: when it ends.
    """
    first, days = started.date() - _ONE_DAY, (ended.date() - started.date()).days + 3
    kept, claims = schema.revisions.c, schema.claims.c
    begun = [f'"started":"{first + dt.timedelta(days=day)}' for day in range(days)]
    name = f'"technician":{json.dumps(technician, ensure_ascii=False)}'
    of_now = (kept.claim == claims.number) & (kept.revision == claims.revision)
    query = (
        select(claims.number)
        .join_from(schema.claims, schema.revisions, of_now)
        .where(or_(*(kept.document.contains(day, autoescape=True) for day in begun)))
        .where(kept.document.icontains(name, autoescape=True))
    )
    with engines.reading(book.engine) as connection:
        numbers = list(connection.scalars(query))
        return list(stored_entries(connection, numbers))
