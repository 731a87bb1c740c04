"""A maker's statement of 300 rows against a book of 100,000 claims: matched, booked, and taken back.

Run by hand: python tests/bench/bench_statement.py [CLAIMS]
"""

from __future__ import annotations

import datetime as dt
import itertools
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from book_builders import many_entries
from by_hand import Given, arguments

from claimpack.book.opening import open_book
from claimpack.book.tables.entries import Author, Entry
from claimpack.core.events.events import NewEvent

CLAIMS, ROWS, BATCH = 100_000, 300, 5_000
DAY = dt.date(2026, 2, 1)
WRITER = Author("bench", dt.datetime(2026, 2, 1, 9, 0, tzinfo=dt.UTC))


def fill(place: str, claims: int) -> list[str]:
    """Filed claims of 150.00, most of them paid; returns the numbers of halden's that are open, and their serials."""
    book = open_book(place, create=True)
    facts = {"claimed": "150.00", "currency": "USD", "revision": "1"}
    filed = (NewEvent(what="imported", on=DAY), NewEvent(what="filed", on=DAY, facts=facts))
    paid = NewEvent(what="paid", on=DAY, facts={"amount": "150.00"})
    entries, still_open = many_entries(claims), list[Entry]()
    for place_ in itertools.count():
        batch = list(itertools.islice(entries, BATCH))
        if not batch:
            break
        is_open = place_ % 20 == 0
        book.add(batch, WRITER, *filed, *(() if is_open else (paid,)))
        still_open += batch if is_open else []
    book.engine.dispose()
    return [f"{one.claim.number},{one.claim.unit.own_serial}" for one in still_open if one.claim.maker == "halden"]


def timed(shop: Path, *arguments: str) -> None:
    """Run one command in the shop, and print how long it took."""
    begun, used = time.perf_counter(), os.times()
    command = [sys.executable, "-m", "claimpack", *arguments]
    ran = subprocess.run(command, check=False, cwd=shop, capture_output=True, text=True)
    after = os.times()
    busy = after.children_user + after.children_system - used.children_user - used.children_system
    told = (ran.stderr if ran.returncode else ran.stdout).strip().splitlines()
    print(
        f"{time.perf_counter() - begun:6.2f} s, {busy:.2f} s of them busy:  {' '.join(arguments)}: "
        f"{ran.returncode}, {told[-1] if told else ''}"
    )


def main() -> None:
    """Fill a book and time the statement, by number and by serial."""
    claims = arguments(__doc__, Given("claims", CLAIMS, "how many claims the book has")).claims
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([sys.executable, "-m", "claimpack", "shop", "init", "shop"], cwd=folder, check=True)
        shop = Path(folder) / "shop"
        (shop / "book.sqlite").unlink(missing_ok=True)
        known = [line.split(",") for line in fill(str(shop / "book.sqlite"), claims)[: 2 * ROWS]]
        for name, first, rows in (("number", "Claim", known[:ROWS]), ("serial", "Serial", known[ROWS:])):
            picked = [row[0] if name == "number" else row[1] for row in rows]
            amounts = ["150.00" if nth % 10 else "120.00" for nth in range(len(picked))]
            lines = [f"{word},{amount}" for word, amount in zip(picked, amounts, strict=True)]
            (shop / f"{name}.csv").write_text("\n".join([f"{first},Amount", *lines, ""]))
            statement = ("statement", f"{name}.csv", "--maker", "halden", "--memo", name)
            (shop / "statements" / "halden.toml").unlink(missing_ok=True)
            timed(shop, *statement, "--dry-run")
            timed(shop, *statement, "--yes")
            timed(shop, "statement", "--undo", name, "--yes")


if __name__ == "__main__":
    main()
