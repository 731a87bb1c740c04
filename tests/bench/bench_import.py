"""Claims put into an empty book, timed against sqlite3 inserting the very same rows into the very same tables.

Run by hand: python tests/bench/bench_import.py
"""

from __future__ import annotations

import datetime as dt
import sqlite3
import statistics
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from book_builders import many_entries
from by_hand import arguments

from claimpack.book.opening import open_book
from claimpack.book.tables.entries import Author, Entry
from claimpack.core.events.events import NewEvent

CLAIMS = 10_000
ROUNDS = 5
IMPORTED = NewEvent(what="imported", on=dt.date(2026, 3, 1))
WRITER = Author("bench", dt.datetime(2026, 3, 1, 9, 0, tzinfo=dt.UTC))

Rows = dict[str, list[tuple[object, ...]]]


def ours(place: Path, entries: list[Entry]) -> float:
    """Seconds for `Book.add` in one transaction."""
    book = open_book(str(place), create=True)
    start = time.perf_counter()
    book.add(entries, WRITER, IMPORTED)
    return time.perf_counter() - start


def rows_of(place: Path) -> Rows:
    """Every row of a book, by table."""
    with closing(sqlite3.connect(place)) as connection:
        tables = [name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return {table: connection.execute(f"SELECT * FROM {table}").fetchall() for table in tables}  # noqa: S608


def raw(place: Path, rows: Rows) -> float:
    """Seconds for sqlite3 alone, in one transaction with the book's own settings."""
    open_book(str(place), create=True)
    with closing(sqlite3.connect(place, isolation_level=None)) as connection:
        for setting in ("journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON"):
            connection.execute(f"PRAGMA {setting}")
        start = time.perf_counter()
        connection.execute("BEGIN IMMEDIATE")
        for table in (name for name in rows if name not in {"chain", "migrations"} and rows[name]):
            marks = ", ".join("?" * len(rows[table][0]))
            connection.executemany(f"INSERT INTO {table} VALUES ({marks})", rows[table])  # noqa: S608
        connection.execute("COMMIT")
        return time.perf_counter() - start


def rounds(folder: Path) -> Iterator[tuple[float, float]]:
    """Seconds of ours and of raw, in turn."""
    entries = list(many_entries(CLAIMS))
    for number in range(ROUNDS):
        spent = ours(folder / f"ours-{number}.sqlite", entries)
        rows = rows_of(folder / f"ours-{number}.sqlite")
        yield spent, raw(folder / f"raw-{number}.sqlite", rows)


def main() -> None:
    """Print both rates and their ratio."""
    with tempfile.TemporaryDirectory() as name:
        measured = list(rounds(Path(name)))
    spent = statistics.median(pair[0] for pair in measured)
    least = statistics.median(pair[1] for pair in measured)
    print(f"{CLAIMS} claims: Book.add {spent:.2f} s ({CLAIMS / spent:.0f} a second), sqlite3 alone {least:.2f} s")
    print(f"rate against sqlite3 alone: {statistics.median(b / a for a, b in measured):.2f} (at least 0.50 wanted)")


if __name__ == "__main__":
    arguments(__doc__)
    main()
