"""Notes about a claim: written down at any time, perhaps with a day to look at it again."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.events.events import AFTER_A_LETTER, AGAIN, Event, NewEvent
from claimpack.core.events.fold import Folding
from claimpack.core.events.standing import Standing
from claimpack.core.events.transitions import may_follow
from claimpack.errors import BadInput


class Note(NamedTuple):
    """A note: the day it was written, who wrote it, what it says, and the day to look again; None for none."""

    on: date
    who: str
    text: str
    again: date | None


def noting(text: str, on: date, again: date | None) -> NewEvent:
    """A note to be recorded.

    Raises:
        BadInput: it says nothing, or the day to look again is over.
    """
    if not text.strip():
        raise BadInput("a note needs a text", do='As in: claimpack note 26-0041 "Owner calls back on Friday."')
    if again and again < on:
        raise BadInput(f"--again {again} is over", "The day to look again must be in the future.", "Correct the day.")
    return NewEvent(what="noted", on=on, why=text.strip(), facts={AGAIN: again.isoformat()} if again else {})


def notes_of(events: Iterable[Event]) -> list[Note]:
    """The notes among a claim's events, the latest first."""
    noted = [event for event in events if event.what == "noted"]
    return [Note(event.on, event.who, event.why, _again(event)) for event in reversed(noted)]


def to_look_again(events: Sequence[Event]) -> Note | None:
    """The note or letter that says when to look at a claim again; a later note without a day takes it off.

    So does what comes after a letter: an answer, money, or the claim sent in again or given up; not what was undone.

    Source: a rule of this tool's, no source.
    """
    latest: Event | None = None
    counting = Folding(events).counting
    for event in events:
        if event.what in _SAY_WHEN:
            latest = event
        elif latest and latest.what == "chased" and event.what in AFTER_A_LETTER and event in counting:
            latest = None
    if latest is None:
        return None
    again = _again(latest)
    return Note(latest.on, latest.who, latest.why, again) if again else None


_SAY_WHEN = ("noted", "chased")


def chased(standing: Standing, number: str, on: date, asks: str, again: date) -> NewEvent:
    """A letter to the maker that went out, to be recorded: what it asks for, and the next day to ask.

    Raises:
        WrongState: the maker does not have the claim.
        BadInput: the next day to ask is over.
    """
    event = NewEvent(what="chased", on=on, why=f"Letter sent, asking for {asks}.", facts={AGAIN: again.isoformat()})
    may_follow(standing, event, number)
    if again < on:
        raise BadInput(f"--again {again} is over", "The day to ask again must be in the future.", "Correct the day.")
    return event


def _again(event: Event) -> date | None:
    said = event.facts.get(AGAIN)
    return date.fromisoformat(said) if said else None
