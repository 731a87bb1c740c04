"""`pending` and `due` in a book of 100,000 claims of which 5,000 are pending, timed against an empty book.

Each run is a process of its own, from its start to its end; medians of five, the two books in turn. Run by hand:
python tests/bench/bench_pending.py
"""

from __future__ import annotations

import datetime as dt
import itertools
import os
import statistics
import subprocess
import sys
import tempfile
import time
from decimal import Decimal
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from book_builders import many_entries
from by_hand import arguments

from claimpack.book.book import Book
from claimpack.book.opening import open_book
from claimpack.book.tables.entries import Author
from claimpack.core.events.events import NewEvent
from claimpack.core.judging.claim_summary import ClaimSummary

PAID, PENDING, BATCH = 95_000, 5_000, 500
ROUNDS = 5
TODAY = dt.date(2026, 9, 7)
WRITER = Author("bench", dt.datetime(2026, 9, 7, 9, 0, tzinfo=dt.UTC))
SUMMARY = ClaimSummary(currency="USD", claimed=Decimal("159.70"), hold_for="P90D", hold_of="filed", verdict="covered")
ASKED = (("pending",), ("pending", "--json"), ("due",), ("due", "--json"), ("due", "--within", "60"))


def life(filed: dt.date, *, paid: bool) -> list[NewEvent]:
    """What happened to a claim filed on a day, its part still on the shelf."""
    received = (filed + dt.timedelta(days=2)).isoformat()
    facts = {"claimed": "159.70", "currency": "USD", "received": received, "revision": "1"}
    happened = [NewEvent(what="opened", on=filed), NewEvent(what="filed", on=filed, facts=facts)]
    if paid:
        happened.append(NewEvent(what="paid", on=filed + dt.timedelta(days=40), facts={"amount": "159.70"}))
    return happened


def fill(book: Book) -> None:
    """Claims in batches: the paid ones over ten years, the pending ones over four months."""
    entries = (entry._replace(summary=SUMMARY) for entry in many_entries(PAID + PENDING))
    for count, paid, span in ((PAID, True, 3600), (PENDING, False, 120)):
        batches = count // BATCH
        for batch in range(batches):
            filed = TODAY - dt.timedelta(days=(60 if paid else 1) + batch * span // batches)
            book.add(list(itertools.islice(entries, BATCH)), WRITER, *life(filed, paid=paid))


def shop(folder: Path) -> Path:
    """A shop under South Carolina's terms, with an empty book."""
    program = [sys.executable, "-m", "claimpack", "shop", "init", str(folder), "--terms", "us-sc", "--currency", "USD"]
    subprocess.run(program, check=True, capture_output=True)
    return folder


def seconds(home: Path, arguments: tuple[str, ...]) -> float:
    """How long one process takes, from its start to its end."""
    program = [sys.executable, "-m", "claimpack", *arguments, "--today", TODAY.isoformat()]
    start = time.perf_counter()
    subprocess.run(
        program,
        check=True,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        env={**os.environ, "CLAIMPACK_SHOP": str(home)},
    )
    return time.perf_counter() - start


def main() -> None:
    """Fill a book and compare."""
    with tempfile.TemporaryDirectory() as folder:
        full, empty = shop(Path(folder) / "full"), shop(Path(folder) / "empty")
        start = time.perf_counter()
        fill(open_book(str(full / "book.sqlite")))
        print(f"{PAID + PENDING} claims put in, {time.perf_counter() - start:.0f} s with making them")
        for arguments in ASKED:
            pairs = [(seconds(full, arguments), seconds(empty, arguments)) for _ in range(ROUNDS)]
            much, little = (statistics.median(side) for side in zip(*pairs, strict=True))
            name = " ".join(arguments)
            print(f"{name:18} {much:.3f} s, empty {little:.3f} s, ratio {much / little:.2f} (at most 2.00 wanted)")


if __name__ == "__main__":
    arguments(__doc__)
    main()
