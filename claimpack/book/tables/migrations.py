"""How an older book becomes a newer one: ordered steps, each in one transaction with its record."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from typing import Any, NamedTuple

from pydantic import ValidationError
from sqlalchemy import Column, Connection, Engine, Table, Update, bindparam, inspect, select, text

from claimpack.book.tables import engines, schema
from claimpack.book.tables.entries import Entry
from claimpack.book.tables.rows import Row, claim_values, event_of, held_rows, serial_rows, standing_columns
from claimpack.book.tables.writing import named, put
from claimpack.core.claims.claim import Claim
from claimpack.core.events.events import START_OF_CHAIN
from claimpack.core.events.fold import Folding
from claimpack.core.events.standing import Standing
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.errors import WrongState

_SOME = 500


class Migration(NamedTuple):
    """One step: its name, and what it does to the book."""

    name: str
    apply: Callable[[Connection], None]


def _first_tables(connection: Connection) -> None:
    schema.metadata.create_all(connection)
    connection.execute(schema.chain.insert().values(id=1, length=0, hash=START_OF_CHAIN))


def _approval_until(connection: Connection) -> None:
    """A book made by this version has the column already; no claim of an older one knows such a day."""
    _gains_column(connection, schema.claims.c.approval_until)


def _makers_of_plans(_connection: Connection) -> None:
    """No table changes: digests may name the maker as plans do from here on, which an older program cannot read."""


def _refused_rest(connection: Connection) -> None:
    """Claims can tell what was refused of them; what it is follows with the step after."""
    _gains_column(connection, schema.claims.c.refused_rest)


def _derived_anew(connection: Connection) -> None:
    """Serials compare without blanks; claims know when the maker was heard of; revisions carry their summary.

    What follows from the history and the documents is derived anew: earlier versions derived some of it otherwise.
    Whatever is derived otherwise from here on takes such a step again. Rows are written whole, so that every column
    of this version must be there first.
    """
    for table in schema.metadata.sorted_tables:
        _gains(connection, table, [column for column in table.columns if column.nullable])
    numbers = list(connection.scalars(select(schema.claims.c.number)))
    for first in range(0, len(numbers), _SOME):
        _derive(connection, numbers[first : first + _SOME])


def _heard_of(connection: Connection) -> None:
    """Claims know when the maker was heard of; a book that was derived anew with these columns has them already."""
    if any(_gains_column(connection, column) for column in (schema.claims.c.heard, schema.claims.c.owed_again)):
        _derived_anew(connection)


def _approval_wanted(connection: Connection) -> None:
    """Claims tell whether the maker's approval is lacking, each from the next time on that it is judged."""
    _gains_column(connection, schema.claims.c.approval_wanted)


def _holds_read_anew(connection: Connection) -> None:
    """Lists tell a machine by its own number; held parts know the day of the repair, which a hold may count from."""
    _derived_anew(connection)


def _folded_anew(connection: Connection) -> None:
    """Where claims stand is folded from their events alone, a part paid before any answer accepts nothing.

    Claims know when money was taken back, and when it had been paid.
    """
    if [column for column in _CHARGED_BACK if _gains_column(connection, column)]:
        _derived_anew(connection)


_CHARGED_BACK = (schema.claims.c.charged_back_on, schema.claims.c.charged_from)


def _salts_and_backups(connection: Connection) -> None:
    """What is recorded carries chance from here on, so that it can be erased; backups are written down."""
    for column in (schema.revisions.c.salt, schema.events.c.salt):
        _gains_column(connection, column)
    schema.backups.create(connection, checkfirst=True)


def _goodwill(connection: Connection) -> None:
    """Claims tell whether they ask a favour, and where they stand why they were filed all the same."""
    if _gains_column(connection, schema.claims.c.asks_goodwill):
        _derived_anew(connection)


def _judged_by(connection: Connection) -> None:
    """Drafts tell under which plan files they were judged; those judged before are judged anew when they are listed."""
    for column in (schema.claims.c.elsewhere, schema.claims.c.judged_by):
        _gains_column(connection, column)


def _cases(connection: Connection) -> None:
    """Claims tell what kind of case they are, and drafts whether the maker was asked for its approval."""
    columns = schema.claims.c
    if _gains(connection, schema.claims, [columns.case_kind, columns.approval_state, columns.approval_asked]):
        _derived_anew(connection)


def _part_awaited(connection: Connection) -> None:
    """Claims tell whether the maker waits for the failed part, each from the next time on that it is judged."""
    _gains_column(connection, schema.claims.c.part_awaited)


def _memos(connection: Connection) -> None:
    """Claims are found by the maker's number for them, and payments know their memo."""
    if _gains_column(connection, schema.claims.c.reference_word):
        _derived_anew(connection)


def _derive(connection: Connection, numbers: Sequence[str]) -> None:
    """Write the rows of some claims but their files and revisions, as they follow from documents and history."""
    values, serials, held = [], list[Row](), list[Row]()
    for entry in _entries(connection, numbers):
        stands = standing_columns(entry.standing)
        values.append(named(schema.claims, claim_values(entry.claim, entry.revision, entry.summary, stands)))
        serials += serial_rows(entry.claim)
        held += held_rows(entry.claim, entry.standing, entry.summary)
    if values:
        known = [row["number"] for row in values]
        connection.execute(
            _update_by_number(), [{f"to_{name}": value for name, value in row.items()} for row in values]
        )
        for table, rows in ((schema.serials, serials), (schema.held, held)):
            connection.execute(table.delete().where(table.c.claim.in_(known)))
            put(connection, table, rows)


def _update_by_number() -> Update:
    columns = schema.claims.columns.keys()
    update = schema.claims.update().where(schema.claims.c.number == bindparam("to_number"))
    return update.values({name: bindparam(f"to_{name}") for name in columns if name != "number"})


def _entries(connection: Connection, numbers: Sequence[str]) -> Iterator[Entry]:
    """Whole claims but their files; those that cannot be read are left out, the proof of the book names them."""
    standings = _standings(connection, numbers)
    claims, kept = schema.claims.c, schema.revisions.c
    of_now = (kept.claim == claims.number) & (kept.revision == claims.revision)
    columns = (claims.number, claims.revision, claims.digest, kept.document)
    query = select(*columns).join_from(schema.claims, schema.revisions, of_now).where(claims.number.in_(numbers))
    for number, revision, summary, document in connection.execute(query).all():
        with suppress(ValidationError):
            claim, told = Claim.model_validate_json(document), ClaimSummary.model_validate_json(summary)
            yield Entry(claim, revision, standings[number], told)


def _standings(connection: Connection, numbers: Sequence[str]) -> dict[str, Standing]:
    found = {number: Folding() for number in numbers}
    events = schema.events.c
    query = select(schema.events).where(events.claim.in_(numbers)).order_by(events.position)
    for row in connection.execute(query).mappings():
        with suppress(ValueError):
            found[row["claim"]].take(event_of(row))
    return {number: folding.standing for number, folding in found.items()}


def _gains_column(connection: Connection, column: Column[Any]) -> bool:
    return _gains(connection, column.table, [column])


def _gains(connection: Connection, table: Table, columns: Sequence[Column[Any]]) -> bool:
    """Whether a book lacked some of these columns, and was given them, each with its index if it has one."""
    known = {found["name"] for found in inspect(connection).get_columns(table.name)}
    lacking = [column for column in columns if column.name not in known]
    for column in lacking:
        connection.execute(text(f"ALTER TABLE {table.name} ADD COLUMN {column.name} TEXT"))
        for index in table.indexes:
            if column in index.columns.values():
                index.create(connection)
    return bool(lacking)


MIGRATIONS: tuple[Migration, ...] = (
    Migration("first tables", _first_tables),
    Migration("the day an approval expires", _approval_until),
    Migration("the maker as plans write it", _makers_of_plans),
    Migration("what was refused of a claim accepted in part", _refused_rest),
    Migration("what follows from claims and their history, derived anew", _derived_anew),
    Migration("when the maker was heard of", _heard_of),
    Migration("whether the maker's approval is lacking", _approval_wanted),
    Migration("the unit's own serial, and held parts by the day of repair", _holds_read_anew),
    Migration("where claims stand, folded anew", _folded_anew),
    Migration("chance in what is recorded, and backups", _salts_and_backups),
    Migration("what is asked as a favour", _goodwill),
    Migration("under which plans drafts were judged", _judged_by),
    Migration("what kind of case a claim is, and whether an approval was asked for", _cases),
    Migration("whether the maker waits for the part", _part_awaited),
    Migration("the maker's number, and memos of payments", _memos),
)
"""Every step, in order; a step that has been released is never changed."""


def applied(engine: Engine) -> int:
    """How many steps a book has seen; changes nothing."""
    with engines.reading(engine) as connection:
        return _seen(connection)


def _seen(connection: Connection) -> int:
    if not inspect(connection).has_table("migrations"):
        return 0
    return len(connection.execute(select(schema.migrations.c.number)).all())


def pending(engine: Engine, steps: tuple[Migration, ...] = MIGRATIONS) -> tuple[Migration, ...]:
    """The steps a book has not seen; changes nothing.

    Raises:
        WrongState: the book is newer than this program.
    """
    seen = applied(engine)
    if seen > len(steps):
        raise WrongState(
            f"the book is newer than this program: step {seen}, and this program knows {len(steps)}",
            "An older program would damage what a newer one has written.",
            "Install the newer claimpack on this machine too.",
        )
    return steps[seen:]


def migrate(engine: Engine, steps: tuple[Migration, ...] = MIGRATIONS) -> None:
    """Bring a book up to date; of several that try at once, one does it and the others wait.

    Raises:
        WrongState: the book is newer than this program.
    """
    while pending(engine, steps):
        with engine.begin() as connection:
            engines.queue_for_migration(connection)
            seen = _seen(connection)
            for number, migration in enumerate(steps[seen : seen + 1], start=seen + 1):
                migration.apply(connection)
                connection.execute(schema.migrations.insert().values(number=number, name=migration.name))
