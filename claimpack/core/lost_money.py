"""Money lost again: the last charge-back and the last write-off that still stand, with day and reason."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from claimpack.core.events import Event, Happening

Told = Event | Happening


class LostMoney(NamedTuple):
    """The last charge-back and the last write-off of a claim, as they were recorded; None where there is none."""

    taken_back: Told | None = None
    given_up: Told | None = None


def lost_money(events: Iterable[Told]) -> LostMoney:
    """What the maker took back and what the shop gave up last, leaving out what was undone since.

    Source: a rule of this tool's, no source.
    """
    payments: list[Told] = []
    given_up: list[Told] = []
    for event in events:
        if event.what in ("paid", "charged back"):
            payments.append(event)
        elif event.what == "payment undone":
            payments = payments[:-1]
        elif event.what == "written off":
            given_up.append(event)
        elif event.what == "reopened":
            given_up = given_up[:-1]
        elif event.what in ("filed", "answer undone"):
            given_up = []
    taken_back = [event for event in payments if event.what == "charged back"]
    return LostMoney(next(reversed(taken_back), None), next(reversed(given_up), None))
