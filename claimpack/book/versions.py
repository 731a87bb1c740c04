"""A claim as it once was: the revisions of one claim that the book keeps."""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import ValidationError
from sqlalchemy import select

from claimpack.book import engines, schema
from claimpack.book.book import Book
from claimpack.core.claim import Claim


def versions(book: Book, number: str, first: int, last: int) -> Iterator[tuple[int, Claim | None]]:
    """A claim at every revision from one to another, in order; None for one that is no claim any more.

    Args:
        book: the shop's book.
        number: the claim.
        first: the earliest revision wanted.
        last: the latest.
    """
    kept = schema.revisions.c
    query = select(kept.revision, kept.document).where(kept.claim == number, kept.revision.between(first, last))
    with engines.reading(book.engine) as connection:
        for revision, document in connection.execute(query.order_by(kept.revision)):
            yield revision, _claim(document)


def _claim(document: str) -> Claim | None:
    try:
        return Claim.model_validate_json(document)
    except ValidationError:
        return None
