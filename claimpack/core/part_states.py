"""Where one held part stands: folded from its events."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import Literal

from claimpack.core.claim import Record
from claimpack.core.events import Event, Happening

PartState = Literal["held", "called back", "sent", "released", "scrapped"]


class HeldStanding(Record):
    """Where one held part stands; index counts from 1.

    `asked_before` are the days the maker wanted it sent by, None for none, before it named the one in `send_by`.
    `then_filed`, `then_received` and `then_paid` are the days of its claim as they stood when it was scrapped.
    """

    index: int
    state: PartState = "held"
    called_back: date | None = None
    send_by: date | None = None
    asked_before: tuple[date | None, ...] = ()
    sent: date | None = None
    released: date | None = None
    scrapped: date | None = None
    missing: date | None = None
    rule: str = ""
    then_filed: date | None = None
    then_received: date | None = None
    then_paid: date | None = None


Told = Event | Happening
Change = dict[str, object]

_NOT_SCRAPPED: Change = {"scrapped": None}
_STILL_HERE: Change = {**_NOT_SCRAPPED, "sent": None, "released": None, "rule": ""}
_NOT_ASKED_FOR: Change = {**_STILL_HERE, "called_back": None, "send_by": None, "asked_before": ()}
_TAKEN_BACK: Mapping[str, Change] = {"held": _NOT_ASKED_FOR, "called back": _STILL_HERE, "released": _NOT_SCRAPPED}
"""What is not so any more of a part that stands again where it stood."""


def _called_back(part: HeldStanding, event: Told) -> Change:
    """A part that is called back already keeps the day it was; the maker named another day to send it by."""
    send_by = event.facts.get("send_by")
    wanted = date.fromisoformat(send_by) if send_by else None
    if part.state == "called back":
        return {"send_by": wanted, "asked_before": (*part.asked_before, part.send_by)}
    return {"state": "called back", "called_back": event.on, "send_by": wanted, "asked_before": ()}


def _counted(_part: HeldStanding, event: Told) -> Change:
    """A part not found at a count is missing from that day on, until a count finds it."""
    return {"missing": event.on if event.facts.get("found") == "no" else None}


def _released(_part: HeldStanding, event: Told) -> Change:
    return {"state": "released", "released": event.on, "rule": event.facts.get("rule", "")}


def _undone(part: HeldStanding, event: Told) -> Change:
    state = event.facts["state"]
    if state == part.state and part.asked_before:
        return {"send_by": part.asked_before[-1], "asked_before": part.asked_before[:-1]}
    return {"state": state, **_TAKEN_BACK[state]}


PART_FOLDS: Mapping[str, Callable[[HeldStanding, Told], Change]] = {
    "shelf counted": _counted,
    "part called back": _called_back,
    "part sent": lambda _part, event: {"state": "sent", "sent": event.on},
    "part released": _released,
    "part scrapped": lambda _part, event: {"state": "scrapped", "scrapped": event.on},
    "part call-back undone": _undone,
    "part sending undone": _undone,
    "part release undone": _undone,
    "part scrapping undone": _undone,
}
"""What each event changes of the part it names."""
