"""What happened to a claim: events, each chained to the one before by its hash."""

from __future__ import annotations

import datetime as dt
import hashlib
import json
from collections.abc import Iterable
from typing import Literal

from claimpack.core.claim import Record
from claimpack.core.words import Line, Text

Kind = Literal[
    "opened",
    "edited",
    "corrected",
    "filed",
    "answered",
    "paid",
    "charged back",
    "written off",
    "withdrawn",
    "reopened",
    "part moved",
    "part called back",
    "part sent",
    "part released",
    "part scrapped",
    "shelf counted",
    "imported",
]

START_OF_CHAIN = "0" * 64


class Happening(Record):
    """What is about to be recorded: the business day it counts from, and its facts as text."""

    what: Kind
    on: dt.date
    why: Text = ""
    facts: dict[str, str] = {}


class Event(Record):
    """One recorded change; `document` is the hash of the claim as it stood after it."""

    claim: Line
    revision: int
    at: dt.datetime
    on: dt.date
    who: Line
    what: Kind
    why: Text = ""
    facts: dict[str, str] = {}
    document: str
    previous: str
    hash: str = ""

    def sealed(self) -> Event:
        """The event with its hash."""
        return self.model_copy(update={"hash": self.computed_hash()})

    def computed_hash(self) -> str:
        """SHA-256 over the canonical JSON of every field but the hash itself.

        Canonical: UTF-8, keys sorted, no blanks, times in ISO 8601 as recorded.
        """
        fields = self.model_dump(mode="json", exclude={"hash"})
        fields["at"] = self.at.isoformat()
        text = json.dumps(fields, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
        return hashlib.sha256(text.encode()).hexdigest()


def breaks(events: Iterable[Event], after: str = START_OF_CHAIN) -> list[str]:
    """Where a chain of events does not hold, in order; empty when it holds."""
    found = []
    previous = after
    for position, event in enumerate(events, start=1):
        name = f"event {position} ({event.what} of {event.claim})"
        if event.previous != previous:
            found.append(f"{name} does not follow the event before it")
        if event.computed_hash() != event.hash:
            found.append(f"{name} was changed after it was recorded")
        previous = event.hash
    return found
