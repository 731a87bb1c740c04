"""Lists, searches and serial look-ups in a book of 100,000 claims, timed against the same in an empty one.

Each is a process of its own that imports, opens the book, asks once and ends. Run by hand:
python tests/bench/bench_book.py [postgresql://user@host/one-empty-database postgresql://user@host/another]
"""

from __future__ import annotations

import datetime as dt
import itertools
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from book_builders import many_entries
from by_hand import Given, arguments

from claimpack.book.opening import open_book
from claimpack.book.tables.entries import Author
from claimpack.core.events.events import NewEvent

CLAIMS = 100_000
BATCH = 5_000
ROUNDS = 5
IMPORTED = NewEvent(what="imported", on=dt.date(2026, 3, 1))
WRITER = Author("bench", dt.datetime(2026, 3, 1, 9, 0, tzinfo=dt.UTC))
START = "import sys; from claimpack.book.opening import open_book; from claimpack.book.tables.entries import Wanted; "
ASKED = {
    "list, the latest 50": "book.claims(Wanted(limit=50))",
    "list of open claims": "book.claims(Wanted(states=('draft', 'filed'), limit=50))",
    "find a serial": "book.claims(Wanted(text='HC70-054321', limit=50))",
    "find words everywhere": "book.claims(Wanted(text='short block', limit=50))",
    "find words nowhere": "book.claims(Wanted(text='gyroscope', limit=50))",
    "find an owner": "book.claims(Wanted(text='owner 500', limit=50))",
    "repeat check by serials": "book.with_serials(['HC70-054321', 'E70-054321'])",
}


def fill(place: str) -> None:
    """Claims in batches, each one transaction."""
    book = open_book(place, create=True)
    entries = many_entries(CLAIMS)
    while batch := list(itertools.islice(entries, BATCH)):
        book.add(batch, WRITER, IMPORTED)
    book.engine.dispose()


def seconds(place: str, question: str) -> float:
    """How long one process takes, from its start to its end."""
    code = f"{START} book = open_book(sys.argv[1]); {question}"
    start = time.perf_counter()
    subprocess.run([sys.executable, "-c", code, place], check=True)
    return time.perf_counter() - start


def compared(full: str, empty: str) -> None:
    """Print the median of each question in both books, and their ratio; the two are asked in turn."""
    for name, question in ASKED.items():
        pairs = [(seconds(full, question), seconds(empty, question)) for _ in range(ROUNDS)]
        much, little = (statistics.median(side) for side in zip(*pairs, strict=True))
        print(f"{name:26} {much:.3f} s, empty {little:.3f} s, ratio {much / little:.2f} (at most 1.50 wanted)")


def main() -> None:
    """Fill a book and compare; databases given by URL must be empty, and the first is left full."""
    said = arguments(
        __doc__,
        Given("full", None, "the URL of an empty database that is filled; without it, files of SQLite"),
        Given("empty", None, "the URL of another, that stays empty"),
    )
    with tempfile.TemporaryDirectory() as folder:
        full, empty = (
            (said.full, said.empty)
            if said.empty
            else [str(Path(folder) / name) for name in ("full.sqlite", "empty.sqlite")]
        )
        open_book(empty, create=True)
        start = time.perf_counter()
        fill(full)
        print(f"{CLAIMS} claims put in, {time.perf_counter() - start:.0f} s with making them")
        compared(full, empty)


if __name__ == "__main__":
    main()
