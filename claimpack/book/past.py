"""What the book remembers: every event, every revision of a claim and the files it had; the queries behind them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from claimpack.book.database.connections import Connection, FoundRow
from claimpack.book.database.sql import Sql, all_of, any_of, begins, condition, has, ranges, select
from claimpack.book.tables import rows, schema
from claimpack.book.tables.rows import KeptFile
from claimpack.book.tables.schema import EVERY_EVENT, EVERY_REVISION, WITH_REVISION
from claimpack.errors import NotFound

if TYPE_CHECKING:
    from claimpack.core.events.events import Event


def events(connection: Connection, about: Sequence[Sql], latest: int | None = None) -> list[Event]:
    """Every event that meets some conditions, in the order they were recorded; only the latest so many."""
    query = EVERY_EVENT.where(*about)
    ordered = query.then("ORDER BY position DESC LIMIT ?", latest) if latest else query.then("ORDER BY position")
    # the latest are asked for from the end, where the index finds them, and turned round afterwards
    found = [rows.event_of(row) for row in connection.execute(ordered)]
    return found[::-1] if latest else found


def each_event(connection: Connection, about: Sequence[Sql]) -> Iterator[Event]:
    """Every event that meets some conditions, in the order they were recorded, without holding them all at once."""
    return map(rows.event_of, connection.each(EVERY_EVENT.where(*about).then("ORDER BY position")))


def by_claim(
    connection: Connection, about: Sequence[Sql], facts: Sequence[str] = ()
) -> Iterator[tuple[str, list[Event]]]:
    """Every claim with its events that meet some conditions, in the order they were recorded, claim after claim.

    Only those that carry a fact of one of some names, if any are named.
    """
    told = [any_of([has("facts", f'"{fact}": "') for fact in facts])] if facts else []
    found = map(rows.event_of, connection.each(EVERY_EVENT.where(*told, *about).then("ORDER BY claim, position")))
    each = (event for event in found if not facts or not event.facts.keys().isdisjoint(facts))
    for claim, happened in groupby(each, key=lambda event: event.claim):
        yield claim, list(happened)


def with_fact(connection: Connection, fact: str, said: str | None, about: Sequence[Sql]) -> list[Event]:
    """Every event that carries a fact of that name and meets some conditions, the latest first.

    Only those where it says that, if something is asked for.
    """
    # the text that is kept is asked for the pair as it would be written; what else holds it is sifted out below
    wanted = f'"{fact}": "' if said is None else rows.facts_text({fact: said})[1:-1]
    query = EVERY_EVENT.where(_tells(connection, fact, wanted), *about).then("ORDER BY position DESC")
    found = [rows.event_of(row) for row in connection.execute(query)]
    return [event for event in found if fact in event.facts and said in (None, event.facts[fact])]


def _tells(connection: Connection, fact: str, wanted: str) -> Sql:
    """The condition that the facts of an event have a text that begins with the name of one; by its index, if any."""
    if fact not in schema.ASKED_FOR:
        return has("facts", wanted)
    told, carried = schema.fact_told(fact, on_server=connection.on_server)
    return all_of([condition(carried), ranges(told, wanted[: schema.FACT_READ])])


def position_of(connection: Connection, head: str) -> int | None:
    """The place in the history of the event whose hash begins so; None where there is none, or several."""
    # two are enough to know that it is not one
    query = Sql("SELECT position FROM events").where(begins("hash", head)).then("LIMIT 2")
    found = connection.column(query)
    # a shortened head that two events begin with names neither
    return int(found[0]) if len(found) == 1 else None


def kept(connection: Connection, number: str, revision: int) -> FoundRow:
    """A revision of a claim as its row has it.

    Raises:
        NotFound: there is none.
    """
    query = EVERY_REVISION.where(condition("claim = ? AND revision = ?", number, revision))
    found = connection.first(query)
    if found is None:
        raise NotFound(f"claim {number} has no revision {revision}", do=f"See: claimpack history {number}")
    return found


def documents(connection: Connection) -> Iterator[tuple[str, int, str]]:
    """Number, revision and the text its history carries the hash of, of every revision, by number and revision."""
    for row in connection.each(EVERY_REVISION.then("ORDER BY claim, revision")):
        yield row["claim"], row["revision"], rows.proven_of(row)


def files_ever(connection: Connection, number: str) -> list[tuple[str, str]]:
    """Path and content of every file a claim has or once had, each once, the earliest first."""
    told = connection.column("SELECT files FROM revisions WHERE claim = ? ORDER BY revision", number)
    return list(dict.fromkeys(each for lines in told for each in rows.files_in(lines)))


def files_not_recorded(connection: Connection) -> Iterator[tuple[str, KeptFile]]:
    """Claim and file, of the kept files whose size, time and likeness the last revision does not tell."""
    # a revision tells them behind a tab; one from before they were told has none
    told = has("files", "\t")
    early = Sql(f"claim IN (SELECT number FROM {WITH_REVISION} WHERE NOT {told.text})", told.values)  # noqa: S608
    query = select(schema.KEPT_FILES.names, "kept_files").where(early).then("ORDER BY claim, path")
    for row in connection.each(query):
        yield row["claim"], rows.kept_file(row)
