"""What happened to a claim: events, each chained to the one before by its hash."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Callable, Iterable, Mapping
from typing import Any, NamedTuple

from claimpack.core.events.event_kinds import EventName
from claimpack.core.facts.record import Record
from claimpack.core.values.words import Line, Text

START_OF_CHAIN = "0" * 64

SHOP = "shop"
"""The fact of the event that brings a claim into a book of several shops, or names its shop later: whose it is."""

AGAIN = "again"
"""The fact of a note or a letter that says when to look at the claim again."""

AFTER_A_LETTER = ("filed", "answered", "paid", "charged back", "written off", "withdrawn")
"""What comes of a letter, so that nobody need ask again."""


class NewEvent(Record):
    """What is about to be recorded: the business day it counts from, and its facts as text."""

    what: EventName
    on: dt.date
    why: Text = ""
    facts: dict[str, str] = {}


class Event(Record):
    """One recorded change; `document` is the hash of the claim as it stood after it.

    `salt` is chance: once it is erased with what was told, nobody can find that again by hashing guesses. Events of
    books made by an early version have none.
    """

    claim: Line
    revision: int
    at: dt.datetime
    on: dt.date
    who: Line
    what: EventName
    why: Text = ""
    facts: dict[str, str] = {}
    document: str
    previous: str
    salt: str = ""
    hash: str = ""

    def computed_hash(self) -> str:
        """SHA-256 over the canonical JSON of every field but the hash itself.

        Canonical: UTF-8, keys sorted, no blanks, times in ISO 8601 as recorded.
        """
        return sealed(
            {
                "claim": self.claim,
                "revision": self.revision,
                "at": self.at.isoformat(),
                "on": self.on.isoformat(),
                "who": self.who,
                "what": self.what,
                "why": self.why,
                "facts": self.facts,
                "document": self.document,
                "previous": self.previous,
                "salt": self.salt,
            }
        )


def sealed(fields: Mapping[str, Any]) -> str:
    """The hash of an event, given every field but the hash, dates and times in ISO 8601; no salt is left out."""
    import hashlib

    told = {name: value for name, value in fields.items() if value or name != "salt"}
    return hashlib.sha256(_CANONICAL(told).encode()).hexdigest()


class Link(NamedTuple):
    """What makes an event that of one claim, and ties it to the event before."""

    claim: str
    revision: int
    document: str
    previous: str
    salt: str = ""


def sealer(told: Mapping[str, Any]) -> Callable[[Link], str]:
    """What `sealed` gives for events that tell the same and differ in their link alone; faster for many."""
    import hashlib

    text = {name: _CANONICAL(value) for name, value in told.items()}
    head = f'{{"at":{text["at"]},"claim":'
    middle = f',"facts":{text["facts"]},"on":{text["on"]},"previous":'
    tail = f',"what":{text["what"]},"who":{text["who"]},"why":{text["why"]}}}'

    def seal(link: Link) -> str:
        claim, revision, document, previous, salt = link
        about = f'{_CANONICAL(claim)},"document":"{document}"{middle}"{previous}","revision":{revision}'
        salted = f',"salt":"{salt}"' if salt else ""
        return hashlib.sha256(f"{head}{about}{salted}{tail}".encode()).hexdigest()

    return seal


_CANONICAL = json.JSONEncoder(sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode


class Authorship(Record):
    """Who records, and when by the shop's clock."""

    who: Line
    at: dt.datetime

    def told(self, new_event: NewEvent) -> dict[str, Any]:
        """The fields of an event that do not depend on the claim it happened to."""
        return {
            "at": self.at.isoformat(),
            "on": new_event.on.isoformat(),
            "who": self.who,
            "what": new_event.what,
            "why": new_event.why,
            "facts": new_event.facts,
        }


def breaks(events: Iterable[Event], after: str = START_OF_CHAIN) -> list[str]:
    """Where a chain of events does not hold, in order; empty when it holds."""
    found = []
    previous = after
    for position, event in enumerate(events, start=1):
        found += broken(event, position, previous)
        previous = event.hash
    return found


def broken(event: Event, position: int, previous: str, left: str = "") -> list[str]:
    """What does not hold of one event.

    Args:
        event: the event as the book has it.
        position: its place, counted from 1.
        previous: the hash of the event before it.
        left: the hash of what was left of it when something in it was erased; empty where nothing was.
    """
    name = f"event {position} ({event.what} of {event.claim})"
    found = []
    if event.previous != previous:
        found.append(f"{name} does not follow the event before it")
    if event.computed_hash() != (left or event.hash):
        found.append(f"{name} was changed after it was recorded")
    return found
