"""Claims that came in before a book held several shops: whose they are is said once, and recorded of each."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Sequence

from claimpack.book.book import Book
from claimpack.book.database import engines
from claimpack.book.lookups import stored_entries
from claimpack.book.refusals import no_such_claim, of_another_shop
from claimpack.book.tables.entries import Author, Entry
from claimpack.book.tables.writing import update
from claimpack.core.events.events import SHOP, NewEvent


def take(
    book: Book, author: Author, on: dt.date, numbers: Sequence[str] = (), why: str = "", known: Collection[str] = ()
) -> list[str]:
    """Make claims that are of no shop those of the shop that the book is opened for, all or none; returns which.

    A claim that is named, with a reason, is taken from a shop as well whose folder nobody knows.

    Args:
        book: the book, opened for a shop.
        author: who says so, and when.
        on: the day it is said.
        numbers: the claims; without any, all that are of no shop.
        why: why claims are taken that were told to be another's.
        known: the shops that there are, whose claims stay their own.

    Raises:
        NotFound: there is no such claim.
        WrongState: one is another shop's.
    """
    told = NewEvent(what="shop named", on=on, why=why, facts={SHOP: book.shop})
    with engines.writing(book.engine) as connection:
        wanted = numbers or connection.column("SELECT number FROM claims WHERE shop IS NULL")
        there, taken = set[str](), list[str]()
        for claim, revision, standing, summary, files in stored_entries(connection, wanted):
            there.add(claim.number)
            if standing.shop and standing.shop != book.shop and (not why or standing.shop in known):
                # a shop that is known has its claims, and gives none away
                way = f"If nobody works under that id: claimpack shop take {claim.number} --because TEXT"
                raise of_another_shop(claim.number, standing.shop, "" if standing.shop in known else way)
            if standing.shop != book.shop:
                named = standing.model_copy(update={SHOP: book.shop})
                update(connection, Entry(claim, revision + 1, named, summary, files), (told,), author)
                taken.append(claim.number)
        for missing in (number for number in numbers if number not in there):
            raise no_such_claim(connection, missing)
        return taken
