"""Eight writers at one book, on SQLite and on PostgreSQL, whose server is stopped and started again in the middle.

Each writer opens claims of its own and changes claims that all share, again where the server was away. Bad is a change
that was acknowledged and is gone, one that counts twice, and a book that is not whole. Run by hand:
python tests/trust/try_writers.py [CHANGES]
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from book_builders import ANA, EDITED, OPENED, SUMMARY, an_entry
from by_hand import Given, arguments
from forked import Say, Writer, forked
from own_server import as_nobody_special, binaries, free_port, quiet

from claimpack.book.database.connections import database_errors
from claimpack.book.keeping.proof import book_problems
from claimpack.book.opening import open_book
from claimpack.book.tables.entries import Author
from claimpack.errors import ClaimpackError

WRITERS = 8
CHANGES = 150
SHARED = ("26-0001", "26-0002", "26-0003")
PATIENCE = 60.0


def busy(place: str, name: int, changes: int) -> Callable[[Say], None]:
    """A writer; it says a claim's number once a change of it was acknowledged, and goes on after a failure."""

    def work(say: Say) -> None:
        author = Author(f"writer {name}", ANA.at)
        for turn in range(changes):
            number = SHARED[(turn + name) % len(SHARED)]
            _until_taken(lambda number=number: _change(place, number, author), say)
            say(f"done {number}")
            if turn % 5 == 0:
                own = f"26-{name}{turn:05}"
                _until_taken(lambda own=own: _open(place, own, author), say)
                say(f"done {own}")

    return work


def _change(place: str, number: str, author: Author) -> None:
    with closing(_Opened(place)) as opened, opened.book.change(number, author) as change:
        change.save(change.claim, SUMMARY, EDITED)


def _open(place: str, number: str, author: Author) -> None:
    with closing(_Opened(place)) as opened:
        if number not in opened.book.numbers(number):
            opened.book.add([an_entry(number)], author, OPENED)


class _Opened:
    def __init__(self, place: str) -> None:
        self.book = open_book(place)

    def close(self) -> None:
        self.book.engine.dispose()


def _until_taken(write: Callable[[], None], say: Say) -> None:
    """Write, and again while the server is away; a change that failed may have been kept all the same, and is told."""
    deadline = time.monotonic() + PATIENCE
    while True:
        try:
            write()
        except (ClaimpackError, *database_errors()):
            if time.monotonic() > deadline:
                raise
            say("failed once")
            time.sleep(0.2)
        else:
            return


def look_after(place: str, writers: list[Writer], what: str) -> int:
    """Wait for the writers, and look at the book; how much is bad."""
    told = Counter(line for writer in writers for line in writer.finish())
    failed = told.pop("failed once", 0)
    errors = {line: count for line, count in told.items() if line.startswith("error")}
    done = {line.removeprefix("done "): count for line, count in told.items() if line.startswith("done ")}
    book = open_book(place)
    stored = {row.number: row.revision for row in book.claims()}
    lost = {number: count for number, count in done.items() if stored.get(number, 0) < count + (number in SHARED)}
    most = sum(done.values()) + len(SHARED) + failed
    problems = book_problems(book)
    length = book.chain_end()[0]
    book.engine.dispose()
    bad = len(errors) + len(lost) + len(problems) + (length > most)
    changes = sum(done.values())
    print(f"{len(writers)} writers on {what}: {changes} changes acknowledged, {failed} failed and repeated, {bad} bad")
    for wrong in (*errors, *lost, *problems):
        print(f"  {wrong}")
    return bad


def prepared(place: str) -> None:
    """A book with the shared claims."""
    book = open_book(place, create=True)
    book.add([an_entry(number) for number in SHARED], ANA, OPENED)
    book.engine.dispose()


def on_sqlite(folder: Path, changes: int) -> int:
    """The writers at one file."""
    place = str(folder / "book.sqlite")
    prepared(place)
    return look_after(place, [forked(busy(place, name, changes)) for name in range(WRITERS)], "SQLite")


def on_postgresql(folder: Path, changes: int) -> int:
    """The writers at one server, which is stopped at once and started again while they write."""
    programs, how = binaries(), as_nobody_special()
    if programs is None:
        print("PostgreSQL is not installed; not tried.")
        return 1
    if "user" in how:
        os.chown(folder, int(str(how["user"])), int(str(how["group"])))
    data, log = folder / "data", folder / "log"

    def run(*command: object) -> None:
        subprocess.run(
            [str(part) for part in command],
            check=True,
            cwd=folder,
            env=quiet(),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            **how,  # type: ignore[call-overload]
        )

    run(programs / "initdb", "-D", data, "-U", "postgres", "-A", "trust", "-E", "UTF8", "--no-sync")
    port = free_port()
    start = (programs / "pg_ctl", "-D", data, "-w", "-l", log, "-o", f"-p {port} -h 127.0.0.1 -k {folder}", "start")
    stop = (programs / "pg_ctl", "-D", data, "-w", "-m", "immediate", "stop")
    run(*start)
    try:
        place = f"postgresql://postgres@127.0.0.1:{port}/postgres"
        prepared(place)
        writers = [forked(busy(place, name, changes)) for name in range(WRITERS)]
        for _ in range(3):
            time.sleep(4)
            run(*stop)
            time.sleep(0.5)
            run(*start)
        return look_after(place, writers, "PostgreSQL, the server stopped and started three times")
    finally:
        run(*stop)


def main() -> int:
    """Write, and print how many changes were made and how many were bad."""
    changes = arguments(__doc__, Given("changes", CHANGES, "how many each writer makes")).changes
    with tempfile.TemporaryDirectory() as one, tempfile.TemporaryDirectory(prefix="pg.") as other:
        bad = on_sqlite(Path(one), changes) + on_postgresql(Path(other), changes)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
