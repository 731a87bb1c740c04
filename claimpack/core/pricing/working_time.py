"""A technician's working time as it is written down: what one day holds, and what lies at one time with other work."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.facts.lines import Labour
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.labour import clocked
from claimpack.core.values.clock import Shown, shop_time, span_in_words, time_between, time_in_words
from claimpack.core.values.money import plain
from claimpack.core.values.numbers_said import hours_said
from claimpack.core.values.words import folded, some_of
from claimpack.errors import BadInput

MOST_HOURS = Decimal(24)
"""The most hours that one entry may have."""

LONG_HOURS = Decimal(16)
"""Hours of one entry over which it is worth another look."""

_MOST_TOLD = 3


class Stretch(NamedTuple):
    """Work of one technician on one thing; ended is the time it is where the clock still runs."""

    claim: str
    technician: str
    operation: str
    started: datetime
    ended: datetime
    runs: bool = False


def must_fit_a_day(entry: Labour, shown: Shown, do: str) -> None:
    """Refuse an entry of more hours than a day has.

    Args:
        entry: the labour about to be written down.
        shown: what the shop's clocks show.
        do: what to do about it.

    Raises:
        BadInput: it has more than 24 hours, stated or from start to end.

    Source: common practice, no source; a day has 24 hours.
    """
    worked = clocked(entry)
    if worked is None or worked <= MOST_HOURS:
        return
    said = f"--hours {plain(entry.hours)}" if entry.hours is not None else _time_of(entry, shown)
    raise BadInput(
        f"{said} is more than one entry can have",
        "A day holds 24 hours, and an entry is one technician's work in one go; nothing was written.",
        do,
    )


def _time_of(entry: Labour, shown: Shown) -> str:
    (work,) = stretches("", [entry])
    return f"{span_in_words(work.started, work.ended, shown)}, {_passed(entry)},"


def _passed(entry: Labour) -> str:
    (work,) = stretches("", [entry])
    return time_in_words(time_between(work.started, work.ended))


def long_in_words(entry: Labour) -> str:
    """What to say of an entry of more hours than anybody works in one go; empty where it has no more than 16.

    Source: a rule of this tool's, no source.
    """
    worked = clocked(entry)
    if worked is None or worked <= LONG_HOURS:
        return ""
    said = hours_said(entry.hours) if entry.hours is not None else _passed(entry)
    return f"{said} is long for one entry."


def stretches(claim: str, labour: Iterable[Labour]) -> list[Stretch]:
    """The entries of a claim that say from when to when, in order."""
    return [
        Stretch(claim, entry.worker, entry.operation, entry.started, entry.ended)
        for entry in labour
        if entry.started and entry.ended
    ]


def at_one_time(new: Stretch, others: Iterable[Stretch], plan: Plan | None) -> list[Stretch]:
    """Other work of the same technician at the time of this one, the earliest first; to the end of one is not into it.

    On one claim, an operation may be worked on inside another that includes it. Where one of two times carries no time
    zone, both are read as the shop's own.

    Source: common practice, no source.
    """
    found = [other for other in others if _is_same_person(new, other) and _shares_time(new, other)]
    return sorted(
        (other for other in found if not _belong_together(new, other, plan)),
        key=lambda other: other.started.replace(tzinfo=None),
    )


def _is_same_person(one: Stretch, other: Stretch) -> bool:
    return bool(one.technician) and folded(one.technician) == folded(other.technician)


def _shares_time(one: Stretch, other: Stretch) -> bool:
    times = [one.started, one.ended, other.started, other.ended]
    if not all(time.tzinfo for time in times):
        times = [time.replace(tzinfo=None) for time in times]
    return max(times[0], times[2]) < min(times[1], times[3])


def _belong_together(one: Stretch, other: Stretch, plan: Plan | None) -> bool:
    if plan is None or one.claim != other.claim:
        return False
    first, second = plan.scheduled_operation(one.operation), plan.scheduled_operation(other.operation)
    if first is None or second is None:
        return False
    return second.code in plan.included_in(first.code) or first.code in plan.included_in(second.code)


def overlap_in_words(new: Stretch, others: Sequence[Stretch], shown: Shown) -> str:
    """What to say of other work at one time, naming claim, operation and time; empty where there is none."""
    if not others:
        return ""
    told = some_of([_told(new, other, shown) for other in others], _MOST_TOLD, "; ")
    return f"{new.technician} works on something else at that time: {told}."


def _told(new: Stretch, other: Stretch, shown: Shown) -> str:
    where = "this claim" if other.claim == new.claim else f"claim {other.claim}"
    if other.runs:
        return f"{where}, {other.operation}, a clock that runs since {shop_time(other.started, shown)}"
    return f"{where}, {other.operation}, {span_in_words(other.started, other.ended, shown)}"
