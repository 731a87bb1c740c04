"""The same questions to the book, to sqlite3 and to DuckDB.

Run by hand: python tests/bench/questions.py book shop/book.sqlite "every claim"
"""

from __future__ import annotations

import csv
import sqlite3
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from by_hand import Given, arguments

from claimpack.book.book import Book
from claimpack.book.opening import open_book
from claimpack.book.tables.entries import Wanted
from claimpack.core.events.states import PENDING
from claimpack.core.steps.listed import ListedClaim

SELECT = f"SELECT {', '.join(ListedClaim._fields)} "
PENDING_SQL = ", ".join(f"'{state}'" for state in PENDING)
ASKED: dict[str, tuple[Callable[[Book], Any], str]] = {
    "the latest 50": (
        lambda book: book.claims(Wanted(limit=50)),
        SELECT + "FROM claims ORDER BY presented DESC, number DESC LIMIT 50",
    ),
    "every pending claim": (
        lambda book: book.claims(Wanted(states=PENDING)),
        SELECT + f"FROM claims WHERE state IN ({PENDING_SQL}) ORDER BY presented DESC, number DESC",
    ),
    "how many are paid": (
        lambda book: book.count(Wanted(states=("paid",))),
        "SELECT count(*) FROM claims WHERE state = 'paid'",
    ),
    "words that are nowhere": (
        lambda book: book.claims(Wanted(text="gyroscope")),
        SELECT + "FROM claims WHERE instr(words, 'gyroscope') > 0",
    ),
    "every claim": (
        lambda book: book.claims(Wanted()),
        SELECT + "FROM claims ORDER BY presented DESC, number DESC",
    ),
}
"""Questions to a book, as the book is asked and in SQL; the book turns what it finds into dates and amounts as well."""


def book_asked(place: str, question: str) -> None:
    """Print the processor's seconds for a question to the book, once it is open."""
    book = open_book(place)
    _timed(lambda: ASKED[question][0](book))


def sqlite_asked(place: str, question: str) -> None:
    """The same for sqlite3, which gives the rows as they are."""
    driver = sqlite3.connect(place)
    _timed(lambda: driver.execute(ASKED[question][1]).fetchall())


def duckdb_asked(place: str, question: str) -> None:
    """The same for DuckDB, with a file of its own made of the same rows."""
    import duckdb

    driver = duckdb.connect(place, read_only=True)
    _timed(lambda: driver.execute(ASKED[question][1]).fetchall())


def _timed(ask: Callable[[], Any]) -> None:
    ask()
    begun, times = time.process_time(), 0
    # a question that takes microseconds is asked until it can be measured
    while times < 3 or (time.process_time() - begun < 0.3 and times < 2_000):
        ask()
        times += 1
    print((time.process_time() - begun) / times)


def for_duckdb(place: str, out: str) -> None:
    """The claims of a book in a file of DuckDB's."""
    import duckdb

    listed = Path(out).with_suffix(".csv")
    names = ["words", *ListedClaim._fields]
    with listed.open("w", newline="") as file:
        rows = csv.writer(file)
        rows.writerow(names)
        rows.writerows(sqlite3.connect(place).execute(f"SELECT {', '.join(names)} FROM claims"))  # noqa: S608
    duckdb.connect(out).execute("CREATE TABLE claims AS SELECT * FROM read_csv(?, all_varchar = true)", [str(listed)])


WHOM: dict[str, Callable[[str, str], None]] = {
    "book": book_asked,
    "sqlite3": sqlite_asked,
    "duckdb": duckdb_asked,
    "for-duckdb": for_duckdb,
}

if __name__ == "__main__":
    SAID = arguments(
        __doc__,
        Given("whom", str, f"one of {', '.join(WHOM)}"),
        Given("file", str, "the book"),
        Given("question", str, f"one of {', '.join(ASKED)}; for for-duckdb the file to write"),
    )
    WHOM[SAID.whom](SAID.file, SAID.question)
