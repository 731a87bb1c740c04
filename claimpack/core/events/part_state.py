"""Where one held part stands: folded from its events."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date

from claimpack.core.events.event_kinds import EVENT_KINDS
from claimpack.core.events.events import Event, NewEvent
from claimpack.core.events.states import PartState
from claimpack.core.facts.record import Record


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

    @property
    def on(self) -> date | None:
        """The day it came to where it stands; None for one that is held."""
        return {
            "called back": self.called_back,
            "sent": self.sent,
            "released": self.released,
            "scrapped": self.scrapped,
        }.get(self.state)


AnyEvent = Event | NewEvent
StateChange = dict[str, object]


def _called_back(part: HeldStanding, event: AnyEvent) -> StateChange:
    """A part that is called back already keeps the day it was; the maker named another day to send it by."""
    send_by = event.facts.get("send_by")
    wanted = date.fromisoformat(send_by) if send_by else None
    if part.state == "called back":
        return {"send_by": wanted, "asked_before": (*part.asked_before, part.send_by)}
    return {"state": "called back", "called_back": event.on, "send_by": wanted, "asked_before": ()}


def _counted(_part: HeldStanding, event: AnyEvent) -> StateChange:
    """A part not found at a count is missing from that day on, until a count finds it."""
    return {"missing": event.on if event.facts.get("found") == "no" else None}


def _released(_part: HeldStanding, event: AnyEvent) -> StateChange:
    return {"state": "released", "released": event.on, "rule": event.facts.get("rule", "")}


def part_undone(event: AnyEvent, before: Sequence[AnyEvent]) -> tuple[int, ...]:
    """The places of the events that an event undoes: the last of its kind with the same part.

    A part that a rule let go when it was scrapped was released in the same step.
    """
    kinds: tuple[str, ...] = EVENT_KINDS[event.what].takes_back
    if kinds == ("part scrapped",) and event.facts.get("state") != "released":
        kinds = (*kinds, "part released")
    of_part = [place for place, other in enumerate(before) if other.facts.get("part") == event.facts["part"]]
    last = (max((place for place in of_part if before[place].what == kind), default=-1) for kind in kinds)
    return tuple(place for place in last if place >= 0)


PART_FOLDS: Mapping[str, Callable[[HeldStanding, AnyEvent], StateChange]] = {
    "shelf counted": _counted,
    "part called back": _called_back,
    "part sent": lambda _part, event: {"state": "sent", "sent": event.on},
    "part released": _released,
    "part scrapped": lambda _part, event: {"state": "scrapped", "scrapped": event.on},
}
"""What each event changes of the part it names."""
