"""Whether a database is sound: read to its end without damage, and made of the book's tables and indexes alone."""

from __future__ import annotations

import functools
import re
import sqlite3
from collections.abc import Iterator, Mapping

from claimpack.book.database import engines
from claimpack.book.database.connections import Connection, database_errors
from claimpack.book.database.hindrances import is_elsewhere, is_read_only
from claimpack.book.database.sql import select
from claimpack.book.keeping import roles
from claimpack.book.tables import finder, schema
from claimpack.book.tables.migrations import MIGRATIONS

DAMAGED = "the book cannot be read to its end: a damaged disk, or another program, changed what was kept"
EMPTY = "the book's file holds no book: its tables are gone"
# the first lines of damage say all that can be done about it: take the backup
_MOST = 12


def unreadable() -> tuple[type[Exception], ...]:
    """What reading a damaged database can raise; what it says may hold text of claims, and is told to nobody."""
    return (*database_errors(), ValueError, TypeError, LookupError, ArithmeticError, AttributeError)


Definitions = Mapping[tuple[str, str], frozenset[str]]
"""What tables, indexes, triggers and views are made of, by kind and name."""


def damage(place: str) -> list[str]:
    """Where a SQLite book's file is damaged, before anything else is read from it or brought up to date in it.

    Nothing is said of a book on a server, which proves its own files, nor of one that only a copy can be read of.
    """
    # opening it to look would write a log beside it
    if is_elsewhere(place) or is_read_only(place):
        return []
    engine = engines.engine_for(place)
    try:
        with engines.reading(engine) as connection:
            return damage_in(connection) or ([] if connection.columns_of("migrations") else [EMPTY])
    except unreadable() as error:
        if engines.is_busy(error):
            raise
        return [DAMAGED]
    finally:
        engine.dispose()


def damage_in(connection: Connection) -> list[str]:
    """Where the pages of a SQLite database do not hold together, as the database itself finds."""
    if connection.on_server:
        return []
    told = connection.column(f"PRAGMA integrity_check({_MOST})")
    return [f"the book's file is damaged: {line}" for said in told if said != "ok" for line in str(said).splitlines()]


def of_other_kinds(connection: Connection) -> Iterator[str]:
    """Values of a SQLite book that are no text, or no number, where the book writes one: it would take any."""
    if connection.on_server:
        return
    for table in schema.TABLES.values():
        kinds = {column.name: "integer" if column.is_number else "text" for column in table.columns}
        # one pass over the table for all of its columns
        counts = ", ".join(f"sum(typeof({name}) NOT IN ('{kind}', 'null'))" for name, kind in kinds.items())
        found = connection.one(f"SELECT {counts} FROM {table.name}")  # noqa: S608  names are ours
        for name, count in zip(kinds, found, strict=True):
            if count:
                yield f"{table.name}.{name} holds a value of a kind that the book does not write"


def not_found(connection: Connection) -> Iterator[str]:
    """What a file's index of letters has otherwise than claims say it: they would not be found by it."""
    if connection.on_server or not connection.columns_of(f"{finder.FINDER}_content"):
        return
    if connection.value(_UNLIKE_CLAIMS) or _letters(connection) not in (None, _letters_of_content(connection)):
        yield "the index by which claims are found does not have what they say"


_UNLIKE_CLAIMS = f"""
SELECT 1 FROM claims WHERE NOT EXISTS (
    SELECT 1 FROM events LEFT JOIN finder_content ON id = position WHERE claim = number
        AND (c0 = {schema.SAID} OR position > (SELECT coalesce(max(id), 0) FROM finder_content))
) LIMIT 1
"""  # noqa: S608  names are ours
"""Whether a claim is neither in the index as it is, nor one that something happened to since."""


def _letters(connection: Connection) -> list[tuple[str, int]] | None:
    """How many claims have each three letters by the index; None where it cannot be asked here, none if damaged."""
    try:
        connection.execute(f"CREATE VIRTUAL TABLE temp.letters USING fts5vocab(main, {finder.FINDER}, row)")
    except sqlite3.DatabaseError:
        return None
    try:
        return [(term, count) for term, count in connection.all("SELECT term, doc FROM temp.letters")]
    except sqlite3.DatabaseError:
        return []
    finally:
        connection.execute("DROP TABLE temp.letters")


def _letters_of_content(connection: Connection) -> list[tuple[str, int]] | None:
    """The same by what it was given, taken in anew."""
    with engines.engine_for(":memory:").transaction() as other:
        other.execute(finder.MADE)
        content = connection.each(select(("id", "c0"), f"{finder.FINDER}_content").then("ORDER BY id"))
        other.driver.executemany(f"INSERT INTO {finder.FINDER} (rowid, said) VALUES (?, ?)", content)  # noqa: S608
        return _letters(other)


def unlike_ours(connection: Connection) -> Iterator[str]:
    """Tables, indexes, triggers and views that are not the book's, or are gone, and steps that are not its own."""
    found = _on_server(connection) if connection.on_server else _in_file(connection)
    ours = _ours_on_server() if connection.on_server else _ours_in_file()
    if ("row security of", "events") in found:
        # a book with roles has all that keeps to them, and nothing else
        ours = {**ours, **roles.definitions()}
    ours = {**ours, **_finder(found, on_server=connection.on_server)}
    for (kind, name), definition in ours.items():
        if (kind, name) not in found:
            yield f"{kind} {name} is gone from the book"
        elif found[kind, name] != definition:
            yield f"{kind} {name} is not as this program makes it"
    yield from (
        f"{kind} {name} was put into the book by another program" for kind, name in found if (kind, name) not in ours
    )
    steps = dict(map(tuple, connection.execute("SELECT number, name FROM migrations")))
    if steps != {number: step.name for number, step in enumerate(MIGRATIONS, start=1)}:
        yield "the steps that made the book are not those of this program"


def _finder(found: Definitions, *, on_server: bool) -> Definitions:
    """What finds claims by their letters, where there is any of it: it need not be."""
    if on_server:
        ours = {("index", finder.ON_SERVER): _index(finder.MADE_ON_SERVER)}
    else:
        # what its module makes beside it is as the module has it
        beside = [("table", f"{finder.FINDER}_{name}") for name in finder.BESIDE]
        ours = {key: found.get(key, frozenset()) for key in beside}
        ours["table", finder.FINDER] = _pieces(finder.MADE) | {f"of {finder.FINDER}"}
    return ours if found.keys() & ours.keys() else {}


def _in_file(connection: Connection) -> Definitions:
    told = connection.all("SELECT type, name, tbl_name, sql FROM sqlite_master")
    return {
        (kind, name): _pieces(sql or "") | {f"of {table}"}
        for kind, name, table, sql in told
        # ANALYZE makes them and is no harm
        if not name.startswith(_STATISTICS)
    }


_STATISTICS = "sqlite_stat"
"""How the tables begin that SQLite makes when it is asked to count rows."""


@functools.cache
def _ours_in_file() -> Definitions:
    # made and read back, so that both sides are in SQLite's own words
    with engines.engine_for(":memory:").transaction() as connection:
        schema.make_all(connection)
        return _in_file(connection)


def _pieces(sql: str) -> frozenset[str]:
    """What a definition says, in any order: a column added later stands last, and its text is named otherwise."""
    # columns of the first tables are VARCHAR, added ones TEXT; to SQLite they are one
    said = " ".join(sql.replace("VARCHAR", "TEXT").replace('"', "").split())
    head, _, body = said.partition("(")
    within, _, tail = body.rpartition(")")
    return frozenset((head.strip(), tail.strip(), *(piece.strip() for piece in re.split(r",(?![^(]*\))", within))))


def _on_server(connection: Connection) -> Definitions:
    found: dict[tuple[str, str], frozenset[str]] = {}
    for table in schema.TABLES:
        columns = connection.columns_of(table)
        if columns:
            found["table", table] = frozenset(_column(name, empty=empty) for name, empty in columns.items())
    ours = list(schema.TABLES)
    for name, told in connection.all(_INDEXES, ours):
        found["index", name] = _index(told)
    found |= roles.found(connection.all(roles.ON_SERVER, ours))
    return found | {(kind, name): frozenset[str]() for kind, name in connection.all(_ACTING, ours, ours, ours, ours)}


@functools.cache
def _ours_on_server() -> Definitions:
    tables = schema.TABLES.values()
    ours = {
        ("table", table.name): frozenset(_column(each.name, empty=each.may_be_empty) for each in table.columns)
        for table in tables
    }
    indexes = {
        ("index", index.name): _index(table.made_index(index, on_server=True))
        for table in tables
        for index in table.indexes
    }
    return ours | indexes


def _column(name: str, *, empty: bool) -> str:
    return f"{name}{'' if empty else ' not null'}"


def _index(told: str) -> frozenset[str]:
    """What an index is over, and of which rows, as a server or the statement that makes it tells behind its table."""
    return frozenset([roles.said(_HEAD_OF_INDEX.sub("", told))])


_HEAD_OF_INDEX = re.compile(r"^.*? ON \S+ (USING btree )?")

_INDEXES = """
SELECT c.relname, pg_get_indexdef(c.oid)
FROM pg_index i JOIN pg_class c ON c.oid = i.indexrelid JOIN pg_class t ON t.oid = i.indrelid
WHERE NOT i.indisprimary AND t.relnamespace = current_schema()::regnamespace AND t.relname = ANY(?)
"""
"""The indexes of the book's tables on a server, as it would make them again."""

_ACTING = """
SELECT 'trigger', tgname FROM pg_trigger JOIN pg_class c ON c.oid = tgrelid
WHERE NOT tgisinternal AND c.relnamespace = current_schema()::regnamespace AND c.relname = ANY(?)
UNION ALL SELECT 'rule', rulename FROM pg_rules WHERE schemaname = current_schema() AND tablename = ANY(?)
UNION ALL SELECT 'row security of', relname FROM pg_class
WHERE relrowsecurity AND relnamespace = current_schema()::regnamespace AND relname = ANY(?)
UNION ALL SELECT 'heirs of', relname FROM pg_class
WHERE relhassubclass AND relnamespace = current_schema()::regnamespace AND relname = ANY(?)
"""
"""What acts on the book's tables on a server, and is none of the book's."""
