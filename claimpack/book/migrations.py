"""How an older book becomes a newer one: ordered steps, each in one transaction with its record."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

from sqlalchemy import Column, Connection, Engine, inspect, select, text

from claimpack.book import engines, schema
from claimpack.book.rows import standing_columns
from claimpack.core.events import START_OF_CHAIN
from claimpack.core.states import Standing
from claimpack.errors import WrongState


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
    """Claims learn what the maker refused of them when it accepted a part; a new book has the column from the start."""
    claims = schema.claims
    if not _gains_column(connection, claims.c.refused_rest):
        return
    in_part = claims.c.standing.contains('"part"')
    for number, kept in connection.execute(select(claims.c.number, claims.c.standing).where(in_part)).all():
        rest = standing_columns(Standing.model_validate_json(kept)).refused_rest
        connection.execute(claims.update().where(claims.c.number == number).values(refused_rest=rest))


def _gains_column(connection: Connection, column: Column[Any]) -> bool:
    """Whether a column of claims was lacking, and was added with its index."""
    claims = schema.claims
    if column.name in {found["name"] for found in inspect(connection).get_columns(claims.name)}:
        return False
    connection.execute(text(f"ALTER TABLE {claims.name} ADD COLUMN {column.name} TEXT"))
    next(index for index in claims.indexes if column in index.columns.values()).create(connection)
    return True


MIGRATIONS: tuple[Migration, ...] = (
    Migration("first tables", _first_tables),
    Migration("the day an approval expires", _approval_until),
    Migration("the maker as plans write it", _makers_of_plans),
    Migration("what was refused of a claim accepted in part", _refused_rest),
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
