"""Claims that came in before a book held several shops: whose they are is said once, and recorded of each."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from claimpack.book.book import Book
from claimpack.book.database import engines
from claimpack.book.lookups import stored_entries
from claimpack.book.refusals import no_such_claim
from claimpack.book.tables.entries import Author, Entry
from claimpack.book.tables.writing import update
from claimpack.core.events.events import SHOP, NewEvent


def take(book: Book, author: Author, on: dt.date, numbers: Sequence[str] = ()) -> list[str]:
    """Make claims that are of no shop those of the shop that the book is opened for, all or none; returns which.

    Args:
        book: the book, opened for a shop.
        author: who says so, and when.
        on: the day it is said.
        numbers: the claims; without any, all that are of no shop. Those that are of a shop stay its own.

    Raises:
        NotFound: there is no such claim.
    """
    told = NewEvent(what="shop named", on=on, facts={SHOP: book.shop})
    with engines.writing(book.engine) as connection:
        wanted = numbers or connection.column("SELECT number FROM claims WHERE shop IS NULL")
        there, taken = set[str](), list[str]()
        for claim, revision, standing, summary, files in stored_entries(connection, wanted):
            there.add(claim.number)
            if not standing.shop:
                named = standing.model_copy(update={SHOP: book.shop})
                update(connection, Entry(claim, revision + 1, named, summary, files), (told,), author)
                taken.append(claim.number)
        for missing in (number for number in numbers if number not in there):
            raise no_such_claim(connection, missing)
        return taken
