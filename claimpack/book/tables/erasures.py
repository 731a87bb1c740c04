"""What was erased of claims, as their history tells it: the proof of a book goes by what was left."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import suppress
from typing import NamedTuple

from claimpack.book.database.connections import Connection
from claimpack.book.database.sql import condition
from claimpack.book.tables import rows
from claimpack.book.tables.schema import EVERY_EVENT
from claimpack.core.claims.forgetting import erased_of
from claimpack.core.events.events import Event


class Left(NamedTuple):
    """Hashes of what was left: of revisions by claim and revision, of events by claim and place in the history."""

    documents: Mapping[tuple[str, int], str]
    events: Mapping[tuple[str, int], str]


def left_by_erasing(connection: Connection) -> Left:
    """What every erasure left; where something was rewritten twice, the later one tells."""
    documents: dict[tuple[str, int], str] = {}
    events: dict[tuple[str, int], str] = {}
    for event in erasures(connection):
        # an erasure whose hashes cannot be read excuses nothing, and the proof names what then differs
        with suppress(ValueError):
            erased = erased_of(event.facts)
            # by claim as well, so that an erasure in one claim cannot excuse a change in another
            documents |= {(event.claim, revision): sha256 for revision, sha256 in erased.documents.items()}
            events |= {(event.claim, position): sha256 for position, sha256 in erased.events.items()}
    return Left(documents, events)


def erasures(connection: Connection, number: str = "") -> Iterator[Event]:
    """Every erasure of a claim, or of the whole book, in order; one that cannot be read is left out."""
    wanted = [condition("what = 'erased'"), *([condition("claim = ?", number)] if number else [])]
    query = EVERY_EVENT.where(*wanted).then("ORDER BY position")
    for row in connection.execute(query):
        with suppress(ValueError, TypeError):
            yield rows.event_of(row)


def contents_erased(connection: Connection, number: str = "") -> set[str]:
    """The hashes of everything that was erased from the vault on request."""
    return {sha256 for event in erasures(connection, number) for sha256 in event.facts.get("contents", "").split()}
