"""The tables of the book, the same in SQLite and PostgreSQL."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from claimpack.book.database.connections import Connection
from claimpack.book.database.sql import select
from claimpack.book.tables.columns import kinds_of
from claimpack.core.steps.listed import ListedClaim


class Column(NamedTuple):
    """A column: text, unless it is a number; always filled, unless it may be empty.

    Dates and times are ISO 8601 text, money and hours decimal text: exact, and they sort.
    """

    name: str
    is_number: bool = False
    may_be_empty: bool = False


class Index(NamedTuple):
    """An index over some columns, of those rows alone in which the first is filled if so said; or over a fact."""

    name: str
    columns: tuple[str, ...]
    only_filled: bool = False
    fact: str = ""


class Table(NamedTuple):
    """A table, its key, and its indexes."""

    name: str
    columns: tuple[Column, ...]
    key: tuple[str, ...]
    indexes: tuple[Index, ...] = ()
    of_a_claim: bool = False

    @property
    def names(self) -> list[str]:
        """The names of the columns, in order."""
        return [column.name for column in self.columns]

    def made_by(self, *, on_server: bool) -> Iterator[str]:
        """The statements that make the table."""
        # Text sorts by its letters' numbers, whatever language the server speaks.
        text = 'VARCHAR COLLATE "C"' if on_server else "VARCHAR"
        lines = [
            f"{column.name} {'INTEGER' if column.is_number else text}{'' if column.may_be_empty else ' NOT NULL'}"
            for column in self.columns
        ]
        lines.append(f"PRIMARY KEY ({', '.join(self.key)})")
        if self.of_a_claim:
            lines.append("FOREIGN KEY(claim) REFERENCES claims (number)")
        # a later step makes a table that a book made by this version has from the start
        yield f"CREATE TABLE IF NOT EXISTS {self.name} ({', '.join(lines)})"
        for index in self.indexes:
            yield self.made_index(index, on_server=on_server)

    def made_index(self, index: Index, *, on_server: bool) -> str:
        """The statement that makes an index."""
        over, some = ", ".join(index.columns), f"{index.columns[0]} IS NOT NULL" if index.only_filled else ""
        if index.fact:
            over, some = fact_told(index.fact, on_server=on_server)
        where = f" WHERE {some}" if some else ""
        return f"CREATE INDEX IF NOT EXISTS {index.name} ON {self.name} ({over}){where}"


FACT_READ = 100
"""The letters from the name of a fact on that its index holds: a server takes no long ones."""


def fact_told(fact: str, *, on_server: bool) -> tuple[str, str]:
    """What an event says from a fact on, and the condition that it carries the fact, as its index has them.

    Both are found as text: facts that another program made unreadable must not keep a book from being opened.
    """
    place = f"""{"strpos" if on_server else "instr"}(facts, '"{fact}": "')"""
    return f"substr(facts, {place}, {FACT_READ})", f"{place} > 0"


def text(*names: str) -> tuple[Column, ...]:
    """Columns of text that is always there."""
    return tuple(Column(name) for name in names)


def some(*names: str) -> tuple[Column, ...]:
    """Columns of text that may be empty."""
    return tuple(Column(name, may_be_empty=True) for name in names)


def number(name: str) -> tuple[Column, ...]:
    """A column of a number."""
    return (Column(name, is_number=True),)


NEVER_EMPTY = frozenset(
    {
        *("number", "revision", "state", "maker", "model", "component", "owner", "serial", "presented"),
        *("refused_for_form", "currency", "claimed", "paid", "outstanding", "plan", "terms", "verdict"),
    }
)
"""Columns of claims that are always filled; what came later is empty where it has nothing to say."""


def _listed(name: str, kind: Any) -> Column:
    """The column of a field of a listed claim."""
    filled = name in NEVER_EMPTY
    # one that may be empty is text whatever its kind, since a later version adds it to older books as text
    return Column(name, is_number=filled and kind in {int, bool}, may_be_empty=not filled)


CLAIMS = Table(
    "claims",
    (
        *(_listed(name, kind) for name, kind in kinds_of(ListedClaim).items()),
        # the summary of a claim is in the column digest, which keeps the name it has in the books that shops have
        *text("standing", "digest", "maker_word", "words"),
        # the maker's number for the claim, as such numbers are compared
        *some("reference_word"),
        # whose it is, where the book holds several shops
        *some("shop"),
    ),
    ("number",),
    (
        Index("claims_by_state", ("state", "presented", "number")),
        Index("claims_by_presented", ("presented", "number")),
        Index("claims_by_filed", ("filed",)),
        Index("claims_by_paid_on", ("paid_on",)),
        Index("claims_by_file_by", ("file_by",)),
        Index("claims_by_approval_until", ("approval_until",)),
        Index("claims_by_reference", ("reference_word",)),
        Index("claims_by_refused_rest", ("refused_rest",), only_filled=True),
        # of no row in a book of one shop, which writes nothing into it
        Index("claims_by_shop", ("shop",), only_filled=True),
    ),
)

SAID = "replace(words, ' ', '')"
"""What a claim says, run together: a number is looked for without its blanks."""

SERIALS = Table(
    "serials",
    text("claim", "role", "serial", "component"),
    # one unit may have several engines, and each serial its own row
    ("claim", "role", "serial"),
    (Index("serials_by_serial", ("serial",)),),
    of_a_claim=True,
)

HELD = Table(
    "held",
    (
        *text("claim"),
        *number("part_index"),
        *text("part", "number", "shelf", "shelf_word", "state"),
        *some("since", "send_by", "keep_until", "missing", "repaired"),
    ),
    ("claim", "part_index"),
    (
        Index("held_by_state", ("state", "keep_until")),
        Index("held_by_shelf", ("shelf_word",)),
        Index("held_by_repaired", ("repaired",)),
    ),
    of_a_claim=True,
)

KEPT_FILES = Table(
    "kept_files",
    (*text("claim", "path", "sha256"), *number("bytes"), *some("taken", "likeness")),
    ("claim", "path"),
    (Index("kept_files_by_content", ("sha256",)),),
    of_a_claim=True,
)

REVISIONS = Table(
    "revisions",
    # no foreign key: the claim's row is written after its revision where a book is restored
    (*text("claim"), *number("revision"), *text("document", "files"), *some("digest", "salt")),
    ("claim", "revision"),
)

ASKED_FOR = ("again", "finding", "from", "import", "left_out", "memo", "sort", "statement", "undoes")
"""Facts by which events are asked for, each with an index; any other is looked for in every event."""

EVENTS = Table(
    "events",
    (
        *number("position"),
        *text("claim"),
        *number("revision"),
        *text("at", "on_day", "who", "what", "why", "facts", "document", "previous", "hash"),
        *some("salt"),
    ),
    ("position",),
    (
        Index("events_by_claim", ("claim", "position")),
        Index("events_by_day", ("on_day",)),
        *(Index(f"events_by_{fact}", ("facts",), fact=fact) for fact in ASKED_FOR),
    ),
)

# counted apart from the events, so that events cut off at the end are missed
CHAIN = Table("chain", (*number("id"), *number("length"), *text("hash")), ("id",))
"""Where the history ends: one row, by which writers queue on a server."""

CLOCKS = Table("clocks", text("technician", "claim", "operation", "started"), ("technician",))
BACKUPS = Table("backups", (*text("at", "who", "place"), *number("length")), ("at",))
MIGRATIONS = Table("migrations", (*number("number"), *text("name")), ("number",))

TABLES: dict[str, Table] = {
    table.name: table
    for table in (
        *(BACKUPS, CHAIN, CLAIMS, CLOCKS, EVENTS, MIGRATIONS, REVISIONS),
        *(HELD, KEPT_FILES, SERIALS),
    )
}
"""Every table of the book by name; those with rows of claims after the claims."""


EVERY_EVENT = select(EVENTS.names, "events")
EVERY_REVISION = select(REVISIONS.names, "revisions")
WITH_REVISION = "claims JOIN revisions ON revisions.claim = claims.number AND revisions.revision = claims.revision"
"""Claims with the revision they stand at."""


def make_all(connection: Connection) -> None:
    """Make every table that is not there yet, with its indexes."""
    for table in TABLES.values():
        make(connection, table)


def make(connection: Connection, table: Table) -> None:
    """Make a table that is not there yet, with its indexes."""
    for statement in table.made_by(on_server=connection.on_server):
        connection.execute(statement)
