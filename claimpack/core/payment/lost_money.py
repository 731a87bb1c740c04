"""Money lost again: the last charge-back and the last write-off that still stand, with day and reason."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from claimpack.core.events.fold import Folding
from claimpack.core.events.part_state import AnyEvent


class LostMoney(NamedTuple):
    """The last charge-back and the last write-off of a claim, as they were recorded; None where there is none."""

    taken_back: AnyEvent | None = None
    given_up: AnyEvent | None = None


def lost_money(events: Iterable[AnyEvent]) -> LostMoney:
    """What the maker took back and what the shop gave up last, leaving out what was undone since.

    Source: a rule of this tool's, no source.
    """
    latest: dict[str, AnyEvent] = {}
    for event in Folding(events).counting:
        if event.what == "filed":
            latest.pop("written off", None)
        latest[event.what] = event
    return LostMoney(latest.get("charged back"), latest.get("written off"))
