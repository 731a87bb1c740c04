"""Claims looked up: the queries behind lists, searches and whole entries."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from pydantic import ValidationError
from sqlalchemy import Column, ColumnElement, Connection, Engine, Select, and_, func, or_, select

from claimpack.book.tables import engines, rows, schema
from claimpack.book.tables.entries import Entry, Wanted
from claimpack.book.tables.rows import KeptFile
from claimpack.core.claims.claim import Claim
from claimpack.core.events.events import Event
from claimpack.core.events.standing import Standing
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.core.steps.listed import ListedClaim
from claimpack.core.values.words import folded, run_on
from claimpack.errors import BadInput

DayRange = tuple[dt.date, dt.date]
"""From a day to a day, both included."""

_SOME, _SHORTEST_RUN_ON = 500, 6


def listed(
    connection: Connection, conditions: Iterable[ColumnElement[bool]], limit: int | None = None
) -> list[ListedClaim]:
    """The claims that meet every condition, the latest brought in first.

    Of all of them the order is made here: asked for it, the database would read every claim by the day it came in
    rather than the few that meet the conditions.
    """
    claims = schema.claims.c
    query = select(*(claims[name] for name in ListedClaim._fields)).where(*conditions)
    if limit is not None:
        query = query.order_by(claims.presented.desc(), claims.number.desc()).limit(limit)
    found = [rows.claim_row(row) for row in connection.execute(query)]
    return sorted(found, key=lambda row: (row.presented, row.number), reverse=True)


def narrowed(wanted: Wanted) -> list[ColumnElement[bool]]:
    """The conditions that make a list the one wanted; each piece of the text must be in some word of the claim."""
    claims = schema.claims.c
    conditions: list[ColumnElement[bool]] = []
    if wanted.states:
        stands = claims.state.in_(wanted.states)
        conditions.append(or_(stands, claims.refused_rest.is_not(None)) if wanted.refused_rest else stands)
    elif wanted.refused_rest:
        conditions.append(claims.refused_rest.is_not(None))
    if wanted.maker:
        conditions.append(of_maker(wanted.maker))
    conditions += [_says(piece) for piece in map(folded, wanted.text.split()) if piece]
    return conditions


def of_maker(said: str) -> ColumnElement[bool]:
    """The condition that a claim is on a maker, by any of the words it goes by; the column has one a line."""
    lines = "\n" + schema.claims.c.maker_word + "\n"
    return lines.contains(f"\n{folded(said)}\n", autoescape=True)


def _says(piece: str) -> ColumnElement[bool]:
    """The condition that a claim says a piece; a serial or a phone may be typed without its hyphens and blanks."""
    words = schema.claims.c.words
    plainly = words.contains(piece, autoescape=True)
    run_on = piece.replace(" ", "")
    if len(run_on) < _SHORTEST_RUN_ON or not any(mark.isdecimal() for mark in run_on):
        return plainly
    return or_(plainly, func.replace(words, " ", "").contains(run_on, autoescape=True))


def within(column: Column[Any], spans: Sequence[DayRange]) -> ColumnElement[bool]:
    """The condition that a day lies in one of the spans."""
    return or_(*(and_(column >= first.isoformat(), column <= last.isoformat()) for first, last in spans))


def entry_query() -> Select[Any]:
    """Claims with the document of the revision they stand at."""
    kept = schema.revisions.c
    of_now = (kept.claim == schema.claims.c.number) & (kept.revision == schema.claims.c.revision)
    return select(schema.claims, kept.document).join_from(schema.claims, schema.revisions, of_now)


def stored_entries(connection: Connection, numbers: Sequence[str] | None) -> Iterator[Entry]:
    """Whole claims, by number in order; all of them, or those named that are there."""
    query = entry_query().order_by(schema.claims.c.number)
    if numbers is None:
        # A book of many years does not fit into memory at once.
        for some in connection.execute(query.execution_options(yield_per=_SOME)).mappings().partitions():
            yield from _with_files(connection, some)
        return
    ordered = sorted(set(numbers))
    # A database takes only so many values in one question.
    for first in range(0, len(ordered), _SOME):
        named = schema.claims.c.number.in_(ordered[first : first + _SOME])
        yield from _with_files(connection, connection.execute(query.where(named)).mappings().all())


def _with_files(connection: Connection, claims: Sequence[Any]) -> Iterator[Entry]:
    files = _files_by_claim(connection, [row["number"] for row in claims])
    for row in claims:
        yield entry_of(row, files.get(row["number"], ()))


def _files_by_claim(connection: Connection, numbers: Sequence[str]) -> dict[str, tuple[KeptFile, ...]]:
    files = schema.kept_files.c
    query = select(schema.kept_files).where(files.claim.in_(numbers)).order_by(files.claim, files.path)
    found: dict[str, list[KeptFile]] = {}
    for row in connection.execute(query).mappings():
        found.setdefault(row["claim"], []).append(rows.kept_file(row))
    return {number: tuple(kept) for number, kept in found.items()}


def entry_of(row: Any, files: tuple[KeptFile, ...]) -> Entry:
    """A whole claim from its row and its files.

    Raises:
        BadInput: another program wrote something into the book that is no claim.
    """
    try:
        return Entry(
            claim=Claim.model_validate_json(row["document"]),
            revision=row["revision"],
            standing=Standing.model_validate_json(row["standing"]),
            summary=ClaimSummary.model_validate_json(row["digest"]),
            files=files,
        )
    except ValidationError as error:
        raise BadInput(
            f"claim {row['number']} cannot be read from the book",
            "Another program, or a damaged disk, changed what was kept.",
            "See what else was changed: claimpack shop verify; then restore the book from a copy.",
        ) from error


def events_of(connection: Connection, numbers: Iterable[str]) -> dict[str, list[Event]]:
    """Every event of each of several claims, in the order they were recorded."""
    found: dict[str, list[Event]] = {number: [] for number in numbers}
    events = schema.events
    for some in _parted(sorted(found)):
        query = select(events).where(events.c.claim.in_(some)).order_by(events.c.position)
        for row in connection.execute(query).mappings():
            found[row["claim"]].append(rows.event_of(row))
    return found


def claims_by_serial(engine: Engine) -> dict[str, list[str]]:
    """The claims about each serial number, as serial numbers are compared; of every role."""
    columns, found = schema.serials.c, dict[str, list[str]]()
    with engines.reading(engine) as connection:
        for serial, claim in connection.execute(select(columns.serial, columns.claim).order_by(columns.claim)):
            found.setdefault(serial, []).append(claim)
    return found


def claims_called(
    engine: Engine, names: Iterable[str], serials: Iterable[str], parts: Iterable[str]
) -> dict[str, tuple[str, ...]]:
    """The claims that numbers, references of makers, serials or held parts' numbers may mean, with their serials.

    Args:
        engine: that of the shop's book.
        names: numbers and references, in any spelling.
        serials: serial numbers, in any spelling.
        parts: part numbers of held parts, as they are written.
    """
    wanted = {word for name in names for word in (name, name.upper())}
    claims, about, held = schema.claims.c, schema.serials.c, schema.held.c
    asked = (
        (claims.number, claims.number, wanted),
        (claims.number, claims.reference_word, {run_on(name) for name in wanted}),
        (about.claim, about.serial, {run_on(serial) for serial in serials}),
        (held.claim, held.number, set(parts)),
    )
    with engines.reading(engine) as connection:
        numbers = {
            number
            for number_column, column, words in asked
            for some in _parted(sorted(words - {""}))
            for number in connection.scalars(select(number_column).where(column.in_(some)))
        }
        found: dict[str, list[str]] = {number: [] for number in numbers}
        for some in _parted(sorted(numbers)):
            for claim, serial in connection.execute(select(about.claim, about.serial).where(about.claim.in_(some))):
                found[claim].append(serial)
    return {number: tuple(told) for number, told in found.items()}


def _parted(words: Sequence[str]) -> Iterator[Sequence[str]]:
    """Words a database takes at once."""
    return (words[first : first + _SOME] for first in range(0, len(words), _SOME))


def last_day(engine: Engine) -> dt.date | None:
    """The latest business day of any event; None where nothing has happened."""
    with engines.reading(engine) as connection:
        latest = connection.scalar(select(func.max(schema.events.c.on_day)))
    return dt.date.fromisoformat(latest) if latest else None


def versions(engine: Engine, number: str, first: int, last: int) -> Iterator[tuple[int, Claim | None]]:
    """A claim at every revision from one to another, in order; None for one that is no claim any more.

    Args:
        engine: that of the shop's book.
        number: the claim.
        first: the earliest revision wanted.
        last: the latest.
    """
    kept = schema.revisions.c
    query = select(kept.revision, kept.document).where(kept.claim == number, kept.revision.between(first, last))
    with engines.reading(engine) as connection:
        for revision, document in connection.execute(query.order_by(kept.revision)):
            yield revision, _claim(document)


def _claim(document: str) -> Claim | None:
    try:
        return Claim.model_validate_json(document)
    except ValidationError:
        return None


_ONE_DAY = dt.timedelta(days=1)


def claims_worked_on(engine: Engine, technician: str, started: dt.datetime, ended: dt.datetime) -> list[Entry]:
    """The claims on which a technician's work may have begun about that time, by number in order.

    A day more on either side is looked at, since times are kept with the offset they were written with.

    Args:
        engine: that of the shop's book.
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
    with engines.reading(engine) as connection:
        numbers = list(connection.scalars(query))
        return list(stored_entries(connection, numbers))
