"""`report` over a book of 100,000 claims of which 5,000 are pending: every file of it, within a minute.

A process of its own, from its start to its end. Run by hand: python tests/bench/bench_report.py [CLAIMS]
"""

from __future__ import annotations

import datetime as dt
import itertools
import os
import resource
import subprocess
import sys
import tempfile
import time
from decimal import Decimal
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from book_builders import many_entries
from by_hand import Given, arguments

from claimpack.book.book import Book
from claimpack.book.opening import open_book
from claimpack.book.tables.entries import Author
from claimpack.core.events.events import NewEvent
from claimpack.core.judging.claim_summary import ClaimSummary

BATCH = 500
TODAY = dt.date(2026, 9, 7)
WRITER = Author("bench", dt.datetime(2026, 9, 7, 9, 0, tzinfo=dt.UTC))
SUMMARY = ClaimSummary(currency="USD", claimed=Decimal("159.70"), hold_for="P90D", hold_of="filed", verdict="covered")
REASONS = ("No proof of purchase", "Serial plate photo missing", "Wear item", "Outside the coverage period")


def life(batch: int, filed: dt.date, *, pending: bool) -> list[NewEvent]:
    """What happened to the claims of a batch: one in six refused and paid later, the rest paid, or still waiting."""
    received = (filed + dt.timedelta(days=2)).isoformat()
    facts = {"claimed": "159.70", "currency": "USD", "received": received, "revision": "1"}
    happened = [NewEvent(what="opened", on=filed), NewEvent(what="filed", on=filed, facts=facts)]
    if pending:
        return happened
    if batch % 6 == 0:
        why = REASONS[batch // 6 % len(REASONS)]
        answered = filed + dt.timedelta(days=9)
        happened.append(NewEvent(what="answered", on=answered, why=why, facts={"answer": "refused", "form": "yes"}))
        happened.append(NewEvent(what="filed", on=filed + dt.timedelta(days=12), facts=facts))
    paid = filed + dt.timedelta(days=20 + batch % 31)
    return [*happened, NewEvent(what="paid", on=paid, facts={"amount": "159.70"})]


def fill(book: Book, claims: int) -> None:
    """Claims in batches over ten years, the last twentieth of them pending."""
    batches = claims // BATCH
    waiting = (entry._replace(summary=SUMMARY) for entry in many_entries(claims))
    for batch in range(batches):
        pending = batch * 20 >= batches * 19
        filed = TODAY - dt.timedelta(days=60 + (batches - batch) * 3600 // batches)
        if pending:
            filed = TODAY - dt.timedelta(days=1 + batch % 120)
        book.add(list(itertools.islice(waiting, BATCH)), WRITER, *life(batch, filed, pending=pending))


def main() -> None:
    """Fill a book, write the report, print how long it took."""
    claims = arguments(__doc__, Given("claims", 100_000, "how many claims the book has")).claims
    with tempfile.TemporaryDirectory() as folder:
        home = Path(folder) / "shop"
        program = [sys.executable, "-m", "claimpack"]
        subprocess.run([*program, "shop", "init", str(home), "--terms", "us-sc"], check=True, capture_output=True)
        begun = time.perf_counter()
        fill(open_book(str(home / "book.sqlite")), claims)
        print(f"{claims:,} claims put in, {time.perf_counter() - begun:.0f} s with making them")
        for what in ((), ("--pdf",), ("--html",), ("--csv",), ("--xlsx",)):
            begun = time.perf_counter()
            command = [*program, "report", "--out", str(home / "out"), "--today", TODAY.isoformat(), *what]
            environ = {**os.environ, "CLAIMPACK_SHOP": str(home)}
            subprocess.run(command, check=True, capture_output=True, env=environ)
            taken = time.perf_counter() - begun
            most = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
            print(f"report {' '.join(what) or 'whole':8} {taken:6.1f} s (at most 60 wanted), at most {most:,.0f} MB")


if __name__ == "__main__":
    main()
