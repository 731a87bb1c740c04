"""How an older book becomes a newer one: ordered steps, each in one transaction with its record."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from sqlalchemy import Connection, Engine, inspect, select

from claimpack.book import schema
from claimpack.core.events import START_OF_CHAIN
from claimpack.errors import WrongState


class Migration(NamedTuple):
    """One step: its name, and what it does to the book."""

    name: str
    apply: Callable[[Connection], None]


def _first_tables(connection: Connection) -> None:
    schema.metadata.create_all(connection)
    connection.execute(schema.chain.insert().values(id=1, length=0, hash=START_OF_CHAIN))


MIGRATIONS: tuple[Migration, ...] = (Migration("first tables", _first_tables),)
"""Every step, in order; a step that has been released is never changed."""


def applied(engine: Engine) -> int:
    """How many steps a book has seen; changes nothing."""
    if not inspect(engine).has_table("migrations"):
        return 0
    with engine.connect() as connection:
        return len(connection.execute(select(schema.migrations.c.number)).all())


def pending(engine: Engine) -> tuple[Migration, ...]:
    """The steps a book has not seen; changes nothing.

    Raises:
        WrongState: the book is newer than this program.
    """
    seen = applied(engine)
    if seen > len(MIGRATIONS):
        raise WrongState(
            f"the book is newer than this program: step {seen}, and this program knows {len(MIGRATIONS)}",
            "An older program would damage what a newer one has written.",
            "Install the newer claimpack on this machine too.",
        )
    return MIGRATIONS[seen:]


def migrate(engine: Engine) -> None:
    """Bring a book up to date.

    Raises:
        WrongState: the book is newer than this program.
    """
    first = applied(engine) + 1
    for number, migration in enumerate(pending(engine), start=first):
        with engine.begin() as connection:
            migration.apply(connection)
            connection.execute(schema.migrations.insert().values(number=number, name=migration.name))
