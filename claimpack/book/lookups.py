"""Claims looked up: the queries behind lists, searches and whole entries."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING, Any

from claimpack.book.database import engines
from claimpack.book.database.connections import Connection, Engine, FoundRow
from claimpack.book.database.sql import Sql, any_of, condition, has, marks, one_of, ranges, select
from claimpack.book.tables import rows, schema
from claimpack.book.tables.entries import Entry, Wanted
from claimpack.book.tables.rows import KeptFile
from claimpack.book.tables.schema import EVERY_EVENT, WITH_REVISION
from claimpack.core.steps.listed import ListedClaim
from claimpack.core.values.words import folded, run_on
from claimpack.errors import BadInput

if TYPE_CHECKING:
    from claimpack.core.claims.claim import Claim
    from claimpack.core.events.events import Event

DayRange = tuple[dt.date, dt.date]
"""From a day to a day, both included."""

_SOME, _SHORTEST_RUN_ON = 500, 6


def listed(connection: Connection, conditions: Iterable[Sql], limit: int | None = None) -> list[ListedClaim]:
    """The claims that meet every condition, the latest brought in first.

    Of all of them the order is made here: asked for it, the database would read every claim by the day it came in
    rather than the few that meet the conditions.
    """
    query = select(ListedClaim._fields, "claims").where(*conditions)
    if limit is not None:
        query = query.then("ORDER BY presented DESC, number DESC LIMIT ?", limit)
    found = [rows.claim_row(row) for row in connection.execute(query)]
    # the number decides between claims of one day, so that a list never changes by itself
    return sorted(found, key=lambda row: (row.presented, row.number), reverse=True)


def narrowed(connection: Connection, wanted: Wanted) -> list[Sql]:
    """The conditions that make a list the one wanted; each piece of the text must be in some word of the claim."""
    stands = [one_of("state", wanted.states)] if wanted.states else []
    if wanted.refused_rest:
        # an amount is never empty, and asked like this SQLite takes both indexes; asked whether it is there, every row
        stands.append(condition("refused_rest > ''"))
    conditions = [any_of(stands)] if stands else []
    if wanted.maker:
        conditions.append(of_maker(wanted.maker))
    # every word must be found, each anywhere: a name and a model are seldom written side by side
    pieces = [piece for piece in map(folded, wanted.text.split()) if piece]
    if pieces:
        from claimpack.book.tables.finder import may_say

        conditions += [*may_say(connection, pieces), *map(_says, pieces)]
    return conditions


def of_shop(shop: str) -> Sql:
    """The condition that a claim is of a shop, by its id; of none, where that is empty.

    Said so that no database takes an index for it: it would read a whole shop rather than the few claims wanted.
    """
    return condition("coalesce(shop, '') = ?", shop)


def all_of_shop(shop: str) -> Sql:
    """The same where every claim of the shop is wanted, so that the index of shops serves."""
    return condition("shop = ?", shop) if shop else condition("shop IS NULL")


def holds_several(connection: Connection) -> bool:
    """Whether a book holds claims that are told to be of a shop."""
    return connection.first("SELECT 1 FROM claims WHERE shop IS NOT NULL LIMIT 1") is not None


def claims_of(shop: str) -> Sql:
    """The condition that a row is of a claim of a shop."""
    mine = all_of_shop(shop)
    return Sql(f"claim IN (SELECT number FROM claims WHERE {mine.text})", mine.values)  # noqa: S608  a text of ours


def few_of(shop: str) -> Sql:
    """The same where few rows are wanted: each is asked whose claim it is, and not the shop for all of its claims."""
    whose = "EXISTS (SELECT 1 FROM claims WHERE number = claim AND coalesce(shop, '') = ?)"
    return condition(whose, shop)


def of_maker(said: str) -> Sql:
    """The condition that a claim is on a maker, by any of the words it goes by; the column has one a line."""
    # between line breaks, so that a maker is found by a whole name and not by a part of another's
    found = has("(? || maker_word || ?)", f"\n{folded(said)}\n")
    return Sql(found.text, ("\n", "\n", *found.values))


def _says(piece: str) -> Sql:
    """The condition that a claim says a piece; a serial or a phone may be typed without its hyphens and blanks."""
    run_on = piece.replace(" ", "")
    # a number may be typed without its blanks; words run together would find what nobody meant
    if len(run_on) < _SHORTEST_RUN_ON or not any(mark.isdecimal() for mark in run_on):
        return has("words", piece)
    # what is written as it was typed is among what is, blanks aside
    return has(schema.SAID, run_on)


def numbers_beginning(connection: Connection, beginning: str) -> list[str]:
    """Every claim number that begins so, in order."""
    begin = [ranges("number", beginning)] if beginning else []
    return connection.column(Sql("SELECT number FROM claims").where(*begin).then("ORDER BY number"))


def listed_by_serial(connection: Connection, serials: Iterable[str]) -> list[ListedClaim]:
    """The claims about a unit with any of the serial numbers, the latest brought in first."""
    wanted = [run_on(serial) for serial in serials if serial]
    if not wanted:
        return []
    about = f"number IN (SELECT claim FROM serials WHERE serial IN ({marks(len(wanted))}))"  # noqa: S608  marks alone
    return listed(connection, [condition(about, *wanted)])


def claims_by_content(connection: Connection, hashes: Iterable[str]) -> dict[str, list[str]]:
    """The claims that have a file of each content, by number in order; content that none has is left out."""
    found: dict[str, list[str]] = {}
    query = Sql("SELECT DISTINCT sha256, claim FROM kept_files").where(one_of("sha256", hashes))
    for sha256, claim in connection.execute(query.then("ORDER BY claim")):
        found.setdefault(sha256, []).append(claim)
    return found


def within(column: str, spans: Sequence[DayRange]) -> Sql:
    """The condition that a day lies in one of the spans."""
    between = [
        condition(f"{column} >= ? AND {column} <= ?", first.isoformat(), last.isoformat()) for first, last in spans
    ]
    return any_of(between)


_OF_ENTRIES = ("claims.number", "claims.revision", "claims.standing", "claims.digest", "revisions.document")


def stored_entries(
    connection: Connection, numbers: Sequence[str] | None, conditions: Sequence[Sql] = ()
) -> Iterator[Entry]:
    """Whole claims, by number in order; all that meet the conditions, or those named that are there."""
    query = select(_OF_ENTRIES, WITH_REVISION)
    if numbers is None:
        all_of_them = connection.each(query.where(*conditions).then("ORDER BY claims.number"))
        # some at a time, as their files are asked for with one question for all of them
        while some := list(islice(all_of_them, _SOME)):
            yield from _with_files(connection, some)
        return
    ordered = sorted(set(numbers))
    # A database takes only so many values in one question.
    for first in range(0, len(ordered), _SOME):
        named = query.where(one_of("claims.number", ordered[first : first + _SOME]))
        yield from _with_files(connection, connection.all(named.then("ORDER BY claims.number")))


def _with_files(connection: Connection, claims: Sequence[FoundRow]) -> Iterator[Entry]:
    files = _files_by_claim(connection, [row["number"] for row in claims])
    for row in claims:
        yield entry_of(row, files.get(row["number"], ()))


def _files_by_claim(connection: Connection, numbers: Sequence[str]) -> dict[str, tuple[KeptFile, ...]]:
    query = select(schema.KEPT_FILES.names, "kept_files").where(one_of("claim", numbers))
    found: dict[str, list[KeptFile]] = {}
    for row in connection.execute(query.then("ORDER BY claim, path")):
        found.setdefault(row["claim"], []).append(rows.kept_file(row))
    return {number: tuple(kept) for number, kept in found.items()}


def entry_of(row: Any, files: tuple[KeptFile, ...]) -> Entry:
    """A whole claim from its row and its files.

    Raises:
        BadInput: another program wrote something into the book that is no claim.
    """
    from claimpack.core.claims.claim import Claim
    from claimpack.core.events.standing import Standing
    from claimpack.core.judging.claim_summary import ClaimSummary

    try:
        return Entry(
            claim=Claim.model_validate_json(row["document"]),
            revision=row["revision"],
            standing=Standing.model_validate_json(row["standing"]),
            summary=ClaimSummary.model_validate_json(row["digest"]),
            files=files,
        )
    # pydantic's own error is one; it is loaded only where a document is not as the program wrote it
    except ValueError as error:
        raise BadInput(
            f"claim {row['number']} cannot be read from the book",
            "Another program, or a damaged disk, changed what was kept.",
            "See what else was changed: claimpack shop verify; then restore the book from a copy.",
        ) from error


def events_of(connection: Connection, numbers: Iterable[str]) -> dict[str, list[Event]]:
    """Every event of each of several claims, in the order they were recorded."""
    found: dict[str, list[Event]] = {number: [] for number in numbers}
    for some in _parted(sorted(found)):
        query = EVERY_EVENT.where(one_of("claim", some)).then("ORDER BY position")
        for row in connection.execute(query):
            found[row["claim"]].append(rows.event_of(row))
    return found


def claims_by_serial(engine: Engine) -> dict[str, list[str]]:
    """The claims about each serial number, as serial numbers are compared; of every role."""
    found: dict[str, list[str]] = {}
    with engines.reading(engine) as connection:
        for serial, claim in connection.execute("SELECT serial, claim FROM serials ORDER BY claim"):
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
    # numbers are looked up as they are, which the index can, so capitals are tried beside what was typed
    wanted = {word for name in names for word in (name, name.upper())}
    asked = (
        (Sql("SELECT number FROM claims"), "number", wanted),
        (Sql("SELECT number FROM claims"), "reference_word", {run_on(name) for name in wanted}),
        (Sql("SELECT claim FROM serials"), "serial", {run_on(serial) for serial in serials}),
        (Sql("SELECT claim FROM held"), "number", set(parts)),
    )
    with engines.reading(engine) as connection:
        numbers = {
            number
            for query, column, words in asked
            for some in _parted(sorted(words - {""}))
            for number in connection.column(query.where(one_of(column, some)))
        }
        found: dict[str, list[str]] = {number: [] for number in numbers}
        for some in _parted(sorted(numbers)):
            about = Sql("SELECT claim, serial FROM serials").where(one_of("claim", some))
            for claim, serial in connection.execute(about):
                found[claim].append(serial)
    return {number: tuple(told) for number, told in found.items()}


def _parted(words: Sequence[str]) -> Iterator[Sequence[str]]:
    """Words a database takes at once."""
    return (words[first : first + _SOME] for first in range(0, len(words), _SOME))


def last_day(engine: Engine) -> dt.date | None:
    """The latest business day of any event; None where nothing has happened."""
    with engines.reading(engine) as connection:
        latest = connection.value("SELECT max(on_day) FROM events")
    return dt.date.fromisoformat(latest) if latest else None


def versions(engine: Engine, number: str, first: int, last: int) -> Iterator[tuple[int, Claim | None]]:
    """A claim at every revision from one to another, in order; None for one that is no claim any more.

    Args:
        engine: that of the shop's book.
        number: the claim.
        first: the earliest revision wanted.
        last: the latest.
    """
    between = "SELECT revision, document FROM revisions WHERE claim = ? AND revision BETWEEN ? AND ? ORDER BY revision"
    with engines.reading(engine) as connection:
        for revision, document in connection.execute(between, number, first, last):
            yield revision, _claim(document)


def _claim(document: str) -> Claim | None:
    from claimpack.core.claims.claim import Claim

    try:
        return Claim.model_validate_json(document)
    except ValueError:
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
    begun = [f'"started":"{first + dt.timedelta(days=day)}' for day in range(days)]
    name = f'"technician":{json.dumps(technician, ensure_ascii=False)}'
    query = select(["claims.number"], WITH_REVISION).where(
        any_of([has("document", day) for day in begun]), has("document", name, in_any_case=True)
    )
    with engines.reading(engine) as connection:
        numbers = connection.column(query)
        return list(stored_entries(connection, numbers))
