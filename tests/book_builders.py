"""Entries and events for tests of the book."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from decimal import Decimal
from pathlib import Path
from typing import Any

from builders import CLAIM, changed
from made_once import made_once

from claimpack.book.book import Book
from claimpack.book.opening import open_book
from claimpack.book.tables.entries import Author, Entry
from claimpack.book.tables.rows import KeptFile
from claimpack.core.claims.claim import Claim
from claimpack.core.events.event_kinds import EventName
from claimpack.core.events.events import NewEvent
from claimpack.core.events.standing import Standing
from claimpack.core.judging.claim_summary import ClaimSummary

DAY = dt.date(2026, 3, 1)
SUMMARY = ClaimSummary(plan="halden-test", verdict="covered", currency="USD", claimed=Decimal("159.70"))


@made_once
def an_empty_book(place: Path) -> Path:
    """The file of a book with nothing in it."""
    open_book(str(place / "book.sqlite"), create=True).engine.dispose()
    return place / "book.sqlite"


def at(hour: int, minute: int = 0) -> dt.datetime:
    """A moment of the day tests play on."""
    return dt.datetime(2026, 3, 1, hour, minute, tzinfo=dt.UTC)


ANA = Author("Ana", at(9))
BEN = Author("Ben", at(10, 30))


def happened(what: EventName, why: str = "", on: dt.date = DAY, **facts: str) -> NewEvent:
    """Something that happened."""
    return NewEvent(what=what, on=on, why=why, facts=facts)


OPENED = happened("opened")
EDITED = happened("edited")


def kept(path: str, sha256: str = "ab" * 32) -> KeptFile:
    """A file as the vault keeps it."""
    return KeptFile(path, sha256, 1000, at(8), "f0" * 8)


def an_entry(number: str = "26-0001", *files: KeptFile, summary: ClaimSummary = SUMMARY, **changes: Any) -> Entry:
    """A new claim for the book, changed as `a_claim` is."""
    claim = Claim.model_validate(changed(CLAIM, {"number": number, **changes}))
    return Entry(claim, 0, Standing(), summary, files)


MAKERS = ("halden", "orrin-vale", "tessaly-pumps")
COMPLAINTS = ("Will not start.", "Loses power when hot.", "Leaks fuel at the tap.", "Stops under load.")


def many_entries(count: int) -> Iterator[Entry]:
    """So many different claims, as a shop would collect them over the years."""
    first = dt.date(2015, 1, 2)
    for index in range(count):
        presented = first + dt.timedelta(days=index % 4000)
        changes = {
            "maker": MAKERS[index % 3],
            "unit__serials": [
                {"role": "unit", "value": f"HC70-{index:06}"},
                {"role": "engine", "value": f"E70-{index:06}"},
            ],
            "owner__name": f"Owner {index % 977}",
            "owner__phone": "555-0142",
            "dates": {"purchased": "2014-12-01", "presented": presented.isoformat()},
            "failure__complaint": COMPLAINTS[index % 4],
            "parts": [{"number": f"P-{index % 311}", "name": "Short block", "unit_cost": "96.20"}],
            "labour": [{"operation": "short-block-replace", "hours": "1.6", "technician": "Ben"}],
            "held": [{"part": "short block", "shelf": f"B{index % 9}", "since": presented.isoformat()}],
        }
        photo = kept("photos/plate.jpg", f"{index:064x}")
        yield an_entry(f"{presented:%y}-{index:06}", photo, **changes)


def plans_about_events(book: Book, ask: Callable[[], object]) -> list[str]:
    """How SQLite answers each question about events that is asked of a book in a file."""
    driver, asked = book.engine.driver(), list[str]()
    driver.set_trace_callback(asked.append)
    book.engine.take_back(driver)
    ask()
    questions = [said for said in asked if "FROM events" in said]
    return [" ".join(step[3] for step in driver.execute(f"EXPLAIN QUERY PLAN {said}")) for said in questions]


def with_owner(claim: Claim, name: str) -> Claim:
    return claim.model_copy(update={"owner": claim.owner.model_copy(update={"name": name})})


def rename(book, number, name, author=ANA, revision=None):
    with book.change(number, author, revision) as change:
        change.save(with_owner(change.claim, name), SUMMARY, EDITED)
