"""Claims found by the letters of their words, of which three in a row are in an index, rather than by reading each.

What is found are the claims that may say a text: whoever asks looks at their words as well, and is answered the same
without the index. On a server it is one of pg_trgm, where its owner may have that. In a file it is a table of FTS5's,
where this machine's SQLite has it: a copy of what claims say, each under the place of its last event, brought up behind
the history. Claims that something happened to since are all looked at.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager

from claimpack.book.database.connections import Connection, database_errors
from claimpack.book.database.sql import Sql, condition, has, one_of
from claimpack.book.tables.schema import SAID

FINDER, ON_SERVER = "finder", "claims_by_words"
"""The table in a file, beside which its module has others of its own, and the index on a server."""

BESIDE = ("content", "data", "idx", "config")

MADE = f"CREATE VIRTUAL TABLE {FINDER} USING fts5(said, detail=none, columnsize=0, tokenize='trigram case_sensitive 1')"
MADE_ON_SERVER = f"CREATE INDEX IF NOT EXISTS {ON_SERVER} ON claims USING gin (({SAID}) gin_trgm_ops)"

_LETTERS = 3
# a text that many claims say is soon found among the latest, without an index
_FEW = 2_000
# few enough to be looked at by everybody who looks for something, so that not every change writes into the index
_BEHIND = 500
_AT_ONCE = 20_000
"""Events that a change to the book takes in: a fraction of a second."""

_MOST_ASKED = 30


def make(connection: Connection) -> None:
    """Make the index, in a file where it is worth one, and take every claim in; where it cannot be had, do nothing."""
    if not connection.on_server:
        _catch_up(connection)
        return
    connection.execute("SAVEPOINT before_finder")
    try:
        connection.execute("CREATE EXTENSION IF NOT EXISTS pg_trgm")
        connection.execute(MADE_ON_SERVER)
    except database_errors():
        connection.execute("ROLLBACK TO SAVEPOINT before_finder")


def make_anew(connection: Connection) -> None:
    """Take everything that claims said out of a file's index, and in what they say now; a server sees to it itself."""
    if connection.on_server or not connection.columns_of(f"{FINDER}_content"):
        return
    _empty(connection)
    _catch_up(connection)


def _empty(connection: Connection) -> None:
    """Take everything out of a file's index.

    Source: the SQLite project's FTS5 documentation, "FTS5 Data Structures" (the records 1 and 10 of an empty index).
    """
    with _where_it_can_be_had():
        connection.execute(f"DROP TABLE {FINDER}")
        return
    # as plain tables where this machine lacks its module: what was erased must go all the same
    for emptied in (
        "DELETE FROM finder_content",
        "DELETE FROM finder_idx",
        "DELETE FROM finder_data WHERE id NOT IN (1, 10)",
        "UPDATE finder_data SET block = CASE id WHEN 1 THEN x'' ELSE x'00000000000000' END",
    ):
        connection.execute(emptied)


def follow(connection: Connection) -> None:
    """Bring a file's index up where it is far behind what happened; for whoever changes the book."""
    if not connection.on_server:
        _catch_up(connection, _AT_ONCE)


def _catch_up(connection: Connection, most: int | None = None) -> None:
    length, seen = _length(connection), seen_by(connection)
    if length - seen <= _BEHIND:
        return
    with _where_it_can_be_had():
        if not seen:
            connection.execute(f"DROP TABLE IF EXISTS {FINDER}")
            connection.execute(MADE)
        _take_in(connection, seen, min(length, seen + most) if most else length)


def _take_in(connection: Connection, seen: int, last: int) -> None:
    """Take in what those claims say to which something happened after one event, up to another."""
    late = "SELECT claim, max(position) AS place FROM events WHERE position > ? AND position <= ? GROUP BY claim"
    before = f"SELECT position FROM events JOIN ({late}) AS late ON late.claim = events.claim WHERE position <= ?"  # noqa: S608  names are ours
    connection.execute(f"DELETE FROM {FINDER} WHERE rowid IN ({before})", seen, last, seen)  # noqa: S608
    # in the order in which it is kept
    said = f"SELECT place, {SAID} FROM ({late}) AS late JOIN claims ON number = claim ORDER BY place"  # noqa: S608
    connection.execute(f"INSERT INTO {FINDER} (rowid, said) {said}", seen, last)


@contextmanager
def _where_it_can_be_had() -> Iterator[None]:
    """Leave undone what needs the index of a file where this machine's SQLite has nothing to make it, or it is damaged.

    Whatever else is wrong with the file is raised: SQLite may have undone the whole transaction for it.
    """
    try:
        yield
    except sqlite3.DatabaseError as error:
        if error.sqlite_errorcode & 0xFF not in (sqlite3.SQLITE_ERROR, sqlite3.SQLITE_CORRUPT):
            raise


def _length(connection: Connection) -> int:
    return int(connection.value("SELECT length FROM chain"))


def seen_by(connection: Connection) -> int:
    """The last event that a file's index has taken in; 0 where there is none, or it cannot be read here."""
    with _where_it_can_be_had():
        return int(connection.value(f"SELECT rowid FROM {FINDER} ORDER BY rowid DESC LIMIT 1") or 0)  # noqa: S608
    return 0


def may_say(connection: Connection, pieces: Iterable[str]) -> list[Sql]:
    """The condition that a claim may say all of some folded texts; none where too many may, or nobody can tell."""
    runs = [run for piece in pieces if len(run := piece.replace(" ", "")) >= _LETTERS]
    if not runs:
        return []
    if connection.on_server:
        is_there = connection.value("SELECT to_regclass(?)", ON_SERVER)
        return [has(SAID, run) for run in runs] if is_there else []
    seen = seen_by(connection)
    if not seen or _length(connection) - seen > _FEW:
        return []
    found = _places(connection, runs)
    if found is None:
        return []
    late = Sql("SELECT claim FROM events").where(condition("position > ?", seen))
    known = Sql("SELECT claim FROM events").where(one_of("position", found))
    return [one_of("number", {*connection.column(late), *connection.column(known)})]


def _places(connection: Connection, runs: Sequence[str]) -> list[int] | None:
    """The last events of the claims that may say some texts, by a file's index; None where it tells too many."""
    threes = dict.fromkeys(run[first : first + _LETTERS] for run in runs for first in range(len(run) - _LETTERS + 1))
    quoted = [three.replace('"', '""') for three in threes]
    # asked for fewer it only finds more
    wanted = " AND ".join([f'"{three}"' for three in quoted[:_MOST_ASKED]])
    with _where_it_can_be_had():
        query = f"SELECT rowid FROM {FINDER} WHERE {FINDER} MATCH ? LIMIT ?"  # noqa: S608
        found = connection.column(query, wanted, _FEW + 1)
        return found if len(found) <= _FEW else None
    return None
