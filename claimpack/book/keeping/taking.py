"""Claims that came in before a book held several shops: whose they are is said once, and recorded of each."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Sequence
from typing import NamedTuple

from claimpack.book.book import Book
from claimpack.book.database import engines
from claimpack.book.database.connections import Connection
from claimpack.book.lookups import stored_entries
from claimpack.book.refusals import no_such_claim, of_another_shop
from claimpack.book.tables.entries import Author, Entry
from claimpack.book.tables.writing import update
from claimpack.core.events.events import SHOP, NewEvent
from claimpack.core.values.numbers_said import how_many
from claimpack.errors import WrongState


class Mistyped(NamedTuple):
    """An id that claims were opened under by mistake, and how anybody knows that no shop has it."""

    shop: str
    why: str


NO_OTHER = Mistyped("", "")


def take(
    book: Book,
    author: Author,
    on: dt.date,
    numbers: Sequence[str] = (),
    mistyped: Mistyped = NO_OTHER,
    *,
    known: Collection[str] = (),
) -> list[str]:
    """Make claims that are of no shop those of the shop that the book is opened for, all or none; returns which.

    A claim that is named is taken from an id as well that is said to be no shop's, and is none that is known.

    Args:
        book: the book, opened for a shop.
        author: who says so, and when.
        on: the day it is said.
        numbers: the claims; without any, all that are of no shop.
        mistyped: the id that the claims stand under and nobody works under.
        known: the shops that there are, whose claims stay their own.

    Raises:
        NotFound: there is no such claim.
        WrongState: one is another shop's.
    """
    told = NewEvent(what="shop named", on=on, why=mistyped.why, facts={SHOP: book.shop})
    with engines.writing(book.engine) as connection:
        wanted = numbers or connection.column("SELECT number FROM claims WHERE shop IS NULL")
        there, taken = set[str](), list[str]()
        for claim, revision, standing, summary, files in stored_entries(connection, wanted):
            there.add(claim.number)
            # a shop that is known has its claims, and gives none away
            may_be_taken = standing.shop in ("", book.shop) or standing.shop == mistyped.shop not in known
            if not may_be_taken:
                raise _stays(connection, claim.number, standing.shop, is_known=standing.shop in known)
            if standing.shop != book.shop:
                named = standing.model_copy(update={SHOP: book.shop})
                update(connection, Entry(claim, revision + 1, named, summary, files), (told,), author)
                taken.append(claim.number)
        for missing in (number for number in numbers if number not in there):
            raise no_such_claim(connection, missing)
        return taken


def _stays(connection: Connection, number: str, shop: str, *, is_known: bool) -> WrongState:
    """The refusal of a claim that another id has; whether a shop works under it, whoever asks has to say."""
    if is_known:
        return of_another_shop(number, shop)
    count = int(connection.value("SELECT count(*) FROM claims WHERE shop = ?", shop))
    return of_another_shop(
        number,
        shop,
        f"If nobody works under that id: claimpack shop take {number} --from {shop} --because TEXT",
        f"The book holds {how_many(count, 'claim')} of {shop}; whether a shop works under that id it does not know.",
    )
