"""Claims written into the book: rows, revisions and the chained history, in the caller's transaction."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from sqlalchemy import Connection, Table, select

from claimpack.book import rows, schema
from claimpack.book.entries import Author, Entry
from claimpack.core.events import Event, Happening
from claimpack.core.states import stand
from claimpack.errors import BadInput
from claimpack.files import hash_of

Told = Mapping[str, tuple[Happening, ...]]
"""What happened, by claim number."""


def refuse_known(connection: Connection, numbers: Sequence[str]) -> None:
    """Refuse claim numbers that are in the book already, or given twice.

    Raises:
        BadInput: with the numbers.
    """
    seen: set[str] = set()
    twice = sorted({number for number in numbers if number in seen or seen.add(number)})  # type: ignore[func-returns-value]
    known = _known(connection, numbers) or twice
    if known:
        shown = ", ".join(known[:5]) + (f" and {len(known) - 5} more" if len(known) > 5 else "")
        raise BadInput(
            f"claim {shown} is in the book already",
            "A claim number stands for one claim for ever.",
            "Give another number, or change the claim that is there.",
        )


def _known(connection: Connection, numbers: Sequence[str]) -> list[str]:
    found: list[str] = []
    for first in range(0, len(numbers), 500):
        some = schema.claims.c.number.in_(numbers[first : first + 500])
        found.extend(connection.scalars(select(schema.claims.c.number).where(some).order_by(schema.claims.c.number)))
    return found


def insert(connection: Connection, entries: Sequence[Entry], told: Told, author: Author) -> None:
    """Put new claims in, each at its first revision."""
    new = [entry._replace(standing=stand(told[entry.claim.number]), revision=1) for entry in entries]
    _put_rows(connection, new)
    _record(connection, [(entry, told[entry.claim.number]) for entry in new], author)


_DERIVED = (schema.serials, schema.held, schema.kept_files)


def _put_rows(connection: Connection, entries: Sequence[Entry]) -> None:
    claims = [rows.claim_columns(entry.claim, entry.revision, entry.standing, entry.digest) for entry in entries]
    _put(connection, schema.claims, claims)
    _put(connection, schema.revisions, [_revision(row) for row in claims])
    _put_derived(connection, entries)


def _put_derived(connection: Connection, entries: Sequence[Entry]) -> None:
    _put(connection, schema.serials, [row for entry in entries for row in rows.serial_rows(entry.claim)])
    _put(connection, schema.held, [row for entry in entries for row in rows.held_rows(entry.claim, entry.standing)])
    kept = [row for entry in entries for row in rows.file_rows(entry.claim.number, entry.files)]
    _put(connection, schema.kept_files, kept)


def _put(connection: Connection, table: Table, values: list[dict[str, Any]]) -> None:
    if values:
        connection.execute(table.insert(), values)


def _revision(row: Mapping[str, Any]) -> dict[str, Any]:
    return {"claim": row["number"], "revision": row["revision"], "document": row["document"]}


def update(connection: Connection, entry: Entry, happenings: tuple[Happening, ...], author: Author) -> None:
    """Replace a claim by its next revision; the one before stays among the revisions."""
    number = entry.claim.number
    for table in _DERIVED:
        connection.execute(table.delete().where(table.c.claim == number))
    row = rows.claim_columns(entry.claim, entry.revision, entry.standing, entry.digest)
    connection.execute(schema.claims.update().where(schema.claims.c.number == number).values(**row))
    _put(connection, schema.revisions, [_revision(row)])
    _put_derived(connection, [entry])
    _record(connection, [(entry, happenings)], author)


def _record(connection: Connection, told: Iterable[tuple[Entry, tuple[Happening, ...]]], author: Author) -> None:
    """Chain what happened to the end of the history; the end is locked, so that two writers cannot share it."""
    end = connection.execute(select(schema.chain).where(schema.chain.c.id == 1).with_for_update()).one()
    length, previous = int(end.length), str(end.hash)
    recorded = []
    for entry, happenings in told:
        document = hash_of(rows.document_of(entry.claim).encode())
        for happening in happenings:
            event = Event(
                claim=entry.claim.number,
                revision=entry.revision,
                at=author.at,
                on=happening.on,
                who=author.who,
                what=happening.what,
                why=happening.why,
                facts=happening.facts,
                document=document,
                previous=previous,
            ).sealed()
            length, previous = length + 1, event.hash
            recorded.append(rows.event_columns(event, length))
    if recorded:
        connection.execute(schema.events.insert(), recorded)
        connection.execute(schema.chain.update().where(schema.chain.c.id == 1).values(length=length, hash=previous))
