"""How an older book becomes a newer one: ordered steps, each in one transaction with its record."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from typing import TYPE_CHECKING, NamedTuple

from claimpack.book.database import engines
from claimpack.book.database.connections import Connection, Engine
from claimpack.book.database.sql import Sql, one_of, select
from claimpack.book.tables import finder, schema
from claimpack.book.tables.entries import Entry
from claimpack.book.tables.rows import Row, claim_values, event_of, held_rows, serial_rows, standing_columns
from claimpack.book.tables.schema import EVERY_EVENT, WITH_REVISION, Table
from claimpack.errors import WrongState

if TYPE_CHECKING:
    from claimpack.core.events.standing import Standing

# claims derived at a time, so that a book of any size fits into memory
_SOME = 500


class Migration(NamedTuple):
    """One step: its name, and what it does to the book."""

    name: str
    apply: Callable[[Connection], None]


def _first_tables(connection: Connection) -> None:
    from claimpack.book.tables.writing import put
    from claimpack.core.events.events import START_OF_CHAIN

    schema.make_all(connection)
    # there from the start: it is the row that writers lock
    put(connection, schema.CHAIN, [(1, 0, START_OF_CHAIN)])


def _approval_until(connection: Connection) -> None:
    """A book made by this version has the column already; no claim of an older one knows such a day."""
    _gains(connection, schema.CLAIMS, "approval_until")


def _makers_of_plans(_connection: Connection) -> None:
    """No table changes: digests may name the maker as plans do from here on, which an older program cannot read."""


def _refused_rest(connection: Connection) -> None:
    """Claims can tell what was refused of them; what it is follows with the step after."""
    _gains(connection, schema.CLAIMS, "refused_rest")


def _derived_anew(connection: Connection) -> None:
    """Serials compare without blanks; claims know when the maker was heard of; revisions carry their summary.

    What follows from the history and the documents is derived anew: earlier versions derived some of it otherwise.
    Whatever is derived otherwise from here on takes such a step again. Rows are written whole, so that every column
    of this version must be there first.
    """
    # a step of early days runs under the schema of today
    for table in schema.TABLES.values():
        _gains(connection, table, *(column.name for column in table.columns if column.may_be_empty))
    numbers = connection.column("SELECT number FROM claims")
    for first in range(0, len(numbers), _SOME):
        _derive(connection, numbers[first : first + _SOME])
    # words written by nothing that happened
    finder.make_anew(connection)


def _heard_of(connection: Connection) -> None:
    """Claims know when the maker was heard of; a book that was derived anew with these columns has them already."""
    # a book made by this version has the columns from its first table, and nothing to derive
    if _gains(connection, schema.CLAIMS, "heard", "owed_again"):
        _derived_anew(connection)


def _approval_wanted(connection: Connection) -> None:
    """Claims tell whether the maker's approval is lacking, each from the next time on that it is judged."""
    _gains(connection, schema.CLAIMS, "approval_wanted")


def _holds_read_anew(connection: Connection) -> None:
    """Lists tell a machine by its own number; held parts know the day of the repair, which a hold may count from."""
    _derived_anew(connection)


def _folded_anew(connection: Connection) -> None:
    """Where claims stand is folded from their events alone, a part paid before any answer accepts nothing.

    Claims know when money was taken back, and when it had been paid.
    """
    if _gains(connection, schema.CLAIMS, "charged_back_on", "charged_from"):
        _derived_anew(connection)


def _salts_and_backups(connection: Connection) -> None:
    """What is recorded carries chance from here on, so that it can be erased; backups are written down."""
    for table in (schema.REVISIONS, schema.EVENTS):
        _gains(connection, table, "salt")
    schema.make(connection, schema.BACKUPS)


def _goodwill(connection: Connection) -> None:
    """Claims tell whether they ask a favour, and where they stand why they were filed all the same."""
    if _gains(connection, schema.CLAIMS, "asks_goodwill"):
        _derived_anew(connection)


def _judged_by(connection: Connection) -> None:
    """Drafts tell under which plan files they were judged; those judged before are judged anew when they are listed."""
    _gains(connection, schema.CLAIMS, "elsewhere", "judged_by")


def _cases(connection: Connection) -> None:
    """Claims tell what kind of case they are, and drafts whether the maker was asked for its approval."""
    if _gains(connection, schema.CLAIMS, "case_kind", "approval_state", "approval_asked"):
        _derived_anew(connection)


def _part_awaited(connection: Connection) -> None:
    """Claims tell whether the maker waits for the failed part, each from the next time on that it is judged."""
    _gains(connection, schema.CLAIMS, "part_awaited")


def _seller_alone(connection: Connection) -> None:
    """Drafts tell whether the seller owes it alone, each from the next time on that it is judged."""
    _gains(connection, schema.CLAIMS, "seller_alone")


def _memos(connection: Connection) -> None:
    """Claims are found by the maker's number for them, and payments know their memo."""
    if _gains(connection, schema.CLAIMS, "reference_word"):
        _derived_anew(connection)


def _clocks(connection: Connection) -> None:
    """Claims tell when they were filed first, and from when a time to answer runs that no question stops."""
    if _gains(connection, schema.CLAIMS, "first_filed", "asked_filed", "asked_received", "decided"):
        _derived_anew(connection)


def _shops(connection: Connection) -> None:
    """Claims tell whose they are, where a book holds several shops; no claim of an older one knows of any."""
    _gains(connection, schema.CLAIMS, "shop")


def _facts_asked_for(connection: Connection) -> None:
    """Events are found by the facts that are asked for, without reading all of them."""
    schema.make(connection, schema.EVENTS)


def _found_by_letters(connection: Connection) -> None:
    """Claims are found by three letters in a row, without reading what each says."""
    finder.make(connection)


def _events_by_day(connection: Connection) -> None:
    """The latest day of what happened is known without reading every event."""
    schema.make(connection, schema.EVENTS)


def _letters(connection: Connection) -> None:
    """Claims tell whether a refusal gave no reason, and when a letter about them went out.

    Rows left out of a statement are found.
    """
    schema.make(connection, schema.EVENTS)
    if _gains(connection, schema.CLAIMS, "gave_no_grounds", "chased_on", "ask_again"):
        _derived_anew(connection)


def _charge_backs_by_day(connection: Connection) -> None:
    """When money was taken back, and when it had been paid, goes by the days, in whatever order that was recorded."""
    _derived_anew(connection)


def _derive(connection: Connection, numbers: Sequence[str]) -> None:
    """Write the rows of some claims but their files and revisions, as they follow from documents and history."""
    from claimpack.book.tables.writing import put, replace

    known, serials, held = list[str](), list[Row](), list[Row]()
    for entry in _entries(connection, numbers):
        stands = standing_columns(entry.standing)
        replace(connection, schema.CLAIMS, claim_values(entry.claim, entry.revision, entry.summary, stands))
        known.append(entry.claim.number)
        serials += serial_rows(entry.claim)
        held += held_rows(entry.claim, entry.standing, entry.summary)
    for table, rows in ((schema.SERIALS, serials), (schema.HELD, held)):
        connection.execute(Sql(f"DELETE FROM {table.name}").where(one_of("claim", known)))  # noqa: S608  names are ours
        put(connection, table, rows)


def _entries(connection: Connection, numbers: Sequence[str]) -> Iterator[Entry]:
    """Whole claims but their files; those that cannot be read are left out, the proof of the book names them."""
    from pydantic import ValidationError

    from claimpack.core.claims.claim import Claim
    from claimpack.core.judging.claim_summary import ClaimSummary

    standings = _standings(connection, numbers)
    columns = ("claims.number", "claims.revision", "claims.digest", "revisions.document")
    query = select(columns, WITH_REVISION).where(one_of("claims.number", numbers))
    for number, revision, summary, document in connection.all(query):
        # a claim that another program made unreadable stays as it is: the proof of the book tells of it
        with suppress(ValidationError):
            claim, told = Claim.model_validate_json(document), ClaimSummary.model_validate_json(summary)
            yield Entry(claim, revision, standings[number], told)


def _standings(connection: Connection, numbers: Sequence[str]) -> dict[str, Standing]:
    from claimpack.core.events.fold import Folding

    found = {number: Folding() for number in numbers}
    query = EVERY_EVENT.where(one_of("claim", numbers)).then("ORDER BY position")
    for row in connection.execute(query):
        # likewise an event, which must not keep the rest of the book from being opened
        with suppress(ValueError):
            found[row["claim"]].take(event_of(row))
    return {number: folding.standing for number, folding in found.items()}


def _gains(connection: Connection, table: Table, *names: str) -> bool:
    """Whether a book lacked some of these columns, and was given them, each with its index if it has one."""
    known = connection.columns_of(table.name)
    lacking = [name for name in names if name not in known]
    for name in lacking:
        # TEXT, since both databases know it; what it says is compared and not its name (soundness)
        connection.execute(f"ALTER TABLE {table.name} ADD COLUMN {name} TEXT")
        for index in table.indexes:
            if name in index.columns:
                connection.execute(table.made_index(index, on_server=connection.on_server))
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
    Migration("when claims were filed first, and asked about", _clocks),
    Migration("several shops", _shops),
    Migration("whether the seller owes it alone", _seller_alone),
    Migration("events by the facts that are asked for", _facts_asked_for),
    Migration("claims by the letters of their words", _found_by_letters),
    Migration("events by their day", _events_by_day),
    Migration("refusals without a reason, and letters that went out", _letters),
    Migration("charge-backs by their day", _charge_backs_by_day),
)
"""Every step, in order; a step that has been released is never changed."""


def applied(engine: Engine) -> int:
    """How many steps a book has seen; changes nothing."""
    with engines.reading(engine) as connection:
        return _seen(connection)


def _seen(connection: Connection) -> int:
    # a new file, or an emptied one: whoever opens it tells which
    if not connection.columns_of("migrations"):
        return 0
    return int(connection.value("SELECT count(*) FROM migrations"))


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
    from claimpack.book.tables.writing import put

    # one step to a transaction; between two of them another program may have taken the next
    while pending(engine, steps):
        with engines.migrating(engine) as connection:
            seen = _seen(connection)
            for number, migration in enumerate(steps[seen : seen + 1], start=seen + 1):
                migration.apply(connection)
                put(connection, schema.MIGRATIONS, [(number, migration.name)])
