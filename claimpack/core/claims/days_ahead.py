"""Days of a claim that have not come yet: a claim says what has happened, so none may lie ahead."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from datetime import date
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.errors import BadInput

_DATES = (
    "purchased",
    "delivered",
    "in_service",
    "registered",
    "failed",
    "presented",
    "repaired",
    "resold",
    "transferred",
    "returned",
)
_EARLIER = ("repaired", "presented", "returned", "told")
_DAYS = {
    "unit.built",
    "unit.invoiced",
    *(f"dates.{role}" for role in _DATES),
    "approval.asked",
    "approval.on",
    "part_sold.sold",
    "part_sold.fitted",
    "questions.asked",
    "questions.answered",
    "labour.started",
    "labour.ended",
    "held.since",
    *(f"earlier.{role}" for role in _EARLIER),
    "parts.core_returned",
    "papers.on",
}


class DayAhead(NamedTuple):
    """A key of a claim whose day is still to come."""

    key: str
    on: date

    @property
    def role(self) -> str:
        """The key without places in lists, as in `labour.started`."""
        return re.sub(r"\[\d+\]|\.\d+", "", self.key)


def days_ahead(claim: Claim, today: date) -> tuple[DayAhead, ...]:
    """The days of a claim after today, in the order of its keys; the time of day does not count.

    Source: a claim is a statement of fact: common practice, no source.
    """
    return tuple(DayAhead(key, day) for key, day in _every_day(claim) if day and day > today)


def known_until(claim: Claim, today: date) -> date:
    """The last day of which something may be known: "what if it came in then" may be asked, and nothing after it."""
    return max(today, claim.dates.presented)


def as_known_on(claim: Claim, today: date) -> Claim:
    """A claim without the days of its unit's life that are still to come: they decide nothing, and are asked for.

    Source: a claim is a statement of fact: common practice, no source.
    """
    known = known_until(claim, today)
    # the other days are of this claim's work, or a claim that says them cannot have come in before
    dates = {role: None for role in _DATES if (getattr(claim.dates, role) or known) > known}
    unit = {"invoiced": None} if (claim.unit.invoiced or known) > known else {}
    without = {"dates": claim.dates.model_copy(update=dates), "unit": claim.unit.model_copy(update=unit)}
    return claim.model_copy(update=without) if dates or unit else claim


def _every_day(claim: Claim) -> Iterator[tuple[str, date | None]]:
    yield "unit.built", claim.unit.built
    yield "unit.invoiced", claim.unit.invoiced
    for role in _DATES:
        yield f"dates.{role}", getattr(claim.dates, role)
    yield "approval.asked", claim.approval.asked if claim.approval else None
    yield "approval.on", claim.approval.on if claim.approval else None
    yield "part_sold.sold", claim.part_sold.sold
    yield "part_sold.fitted", claim.part_sold.fitted
    for place, question in enumerate(claim.questions, start=1):
        yield f"questions[{place}].asked", question.asked
        yield f"questions[{place}].answered", question.answered
    for place, used in enumerate(claim.parts, start=1):
        yield f"parts[{place}].core_returned", used.core_returned
    for place, work in enumerate(claim.labour, start=1):
        yield f"labour[{place}].started", work.started.date() if work.started else None
        yield f"labour[{place}].ended", work.ended.date() if work.ended else None
    for place, paper in enumerate(claim.papers, start=1):
        yield f"papers[{place}].on", paper.on
    for place, part in enumerate(claim.held, start=1):
        yield f"held[{place}].since", part.since
    for place, repair in enumerate(claim.earlier, start=1):
        yield from ((f"earlier[{place}].{role}", getattr(repair, role)) for role in _EARLIER)


def new_days_ahead(before: Claim, after: Claim, today: date) -> tuple[DayAhead, ...]:
    """The days after today that a claim did not have before a change; those it had may be put right one by one.

    Source: a claim is a statement of fact: common practice, no source.
    """
    # counted by what they are of, not by their place in a list: items may have been moved
    known = Counter((day.role, day.on) for day in days_ahead(before, today))
    fresh = []
    for day in days_ahead(after, today):
        known[day.role, day.on] -= 1
        if known[day.role, day.on] < 0:
            fresh.append(day)
    return tuple(fresh)


def written_days_ahead(written: Iterable[tuple[str, str | None]], today: date) -> tuple[DayAhead, ...]:
    """The days after today among keys and values as they were typed; what is no day is passed over.

    Source: a claim is a statement of fact: common practice, no source.
    """
    found = []
    for key, text in written:
        # a date or a moment: its first ten characters are the day
        with suppress(ValueError):
            day = DayAhead(key, date.fromisoformat((text or "")[:10]))
            if day.role in _DAYS and day.on > today:
                found.append(day)
    return tuple(found)


def refuse_days_ahead(
    ahead: Sequence[DayAhead],
    today: date,
    source: str,
    options: Mapping[str, str] | None = None,
    do: str = "Correct the day; or say which day it is with --today.",
) -> None:
    """Refuse days still to come.

    Args:
        ahead: the days.
        today: the day it is.
        source: the claim, the file or the command, for the message.
        options: where a command gave the values: the option that gave each key.
        do: what to do about it.

    Raises:
        BadInput: there is one; each key is named with its day, and today.
    """
    if not ahead:
        return
    names = [(options or {}).get(day.key, f"key {day.key}") for day in ahead]
    said = [f"{source}: {name}: {day.on} is still to come" for name, day in zip(names, ahead, strict=True)]
    raise BadInput(f"{said[0]}; today is {today}", "A claim says what has happened.", do, tuple(said[1:]))
