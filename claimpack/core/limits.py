"""Whether a window is still open: its age, its hours, its registration."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.claim import Claim, Unit
from claimpack.core.money import plain
from claimpack.core.periods import Period, last_day, moved
from claimpack.core.plan import Plan, Window
from claimpack.core.reasons import Reason, fails, passes, unknown
from claimpack.core.wording import days_in_words
from claimpack.core.words import is_among


class Span(NamedTuple):
    """A window laid on the calendar: its first day, its last day, and what was said about them."""

    starts: date | None
    ends: date | None
    reasons: tuple[Reason, ...]


def by_age(claim: Claim, plan: Plan, window: Window, starts: date | None, event: date | None) -> Span:
    """The window's days and whether the event is among them; the last day counts.

    Source: Reg. (EEC, Euratom) 1182/71 Art. 3; the last day's convention is the plan's.
    """
    if starts is None or event is None:
        return _not_yet(claim, plan, window, starts)
    length, registration = _registered(claim, plan, window, starts, event)
    ends = _end(plan, window, starts, length)
    reasons = () if registration is None else (registration,)
    if registration is not None and registration.outcome == "unknown" and window.registered_adds:
        return Span(starts, ends, reasons)
    return Span(starts, ends, (*reasons, within(event, starts, ends, length)))


def _not_yet(claim: Claim, plan: Plan, window: Window, starts: date | None) -> Span:
    """What can be said of a window while its start or the event is not known."""
    length, ends = window.period, None
    if starts:
        by = moved(starts, window.registered_within) if window.registered_within else None
        in_time = by and claim.dates.registered and claim.dates.registered <= by
        length = length.plus(window.registered_adds) if in_time and window.registered_adds else length
        ends = _end(plan, window, starts, length)
    return Span(starts, ends, (unknown("age", "", "age.unknown", length_period=length),))


def within(event: date, starts: date, ends: date, length: Period | None = None) -> Reason:
    """Whether an event lies in a span of days, first and last day included; the length is told where it is one."""
    if event < starts:
        return fails("age", "event.before-start", event=event, starts=starts)
    facts: dict[str, object] = {"event": event, "starts": starts, "ends": ends}
    form = "span" if length is None else "age"
    if length is not None:
        facts["length_period"] = length
    if event == ends:
        return passes("age", f"{form}.last-day", **facts)
    if event < ends:
        return passes("age", f"{form}.inside", left_period=days_in_words((ends - event).days), **facts)
    return fails("age", f"{form}.outside", late_period=days_in_words((event - ends).days), **facts)


def _end(plan: Plan, window: Window, starts: date, length: Period) -> date:
    return last_day(starts, length, window.last_day or plan.last_day, plan.month_end)


def _registered(claim: Claim, plan: Plan, window: Window, starts: date, event: date) -> tuple[Period, Reason | None]:
    """The window's length after what registration did to it, and the reason where it did something."""
    if window.registered_within is None:
        return window.period, None
    by = moved(starts, window.registered_within)
    registered, adds = claim.dates.registered, window.registered_adds
    longer = window.period.plus(adds) if adds else window.period
    if registered and registered <= by:
        return longer, _in_time(registered, by, adds)
    longer_end = _end(plan, window, starts, longer)
    if adds and not _end(plan, window, starts, window.period) < event <= longer_end:
        return window.period, None
    if registered:
        return window.period, fails("registration", "registered.late", registered=registered, by=by)
    if claim.dates.never_registered:
        return window.period, fails("registration", "registered.never", by=by)
    key = "registered.would-decide" if adds else "registered.unknown"
    return window.period, unknown("registration", "dates.registered", key, by=by, ends=longer_end)


def _in_time(registered: date, by: date, adds: Period | None) -> Reason:
    if adds is None:
        return passes("registration", "registered.in-time", registered=registered, by=by)
    return passes("registration", "registered.adds", registered=registered, by=by, adds_period=adds)


def by_hours(unit: Unit, most: Decimal | None) -> Reason | None:
    """The hour meter is not over the limit; a reading equal to it is inside. None where there is no limit.

    Source: whichever comes first, and age alone without a meter: 13 CCR 2425(b)(2), 40 CFR 1039.120(b).
    A reading equal to the limit: common practice, no source.
    """
    if most is None:
        return None
    limit = plain(most)
    if unit.meter is False:
        return passes("hours", "hours.no-meter", limit=limit)
    if unit.hours is None and unit.meter is None:
        return unknown("hours", "unit.hours", "hours.meter-unknown", limit=limit)
    if unit.hours is None:
        return unknown("hours", "unit.hours", "hours.unknown", limit=limit)
    facts = {"hours": plain(unit.hours), "limit": limit}
    if unit.hours > most:
        return fails("hours", "hours.outside", over=plain(unit.hours - most), **facts)
    if unit.hours == most:
        return passes("hours", "hours.at-limit", **facts)
    return passes("hours", "hours.inside", left=plain(most - unit.hours), **facts)


def by_schedule(claim: Claim, window: Window) -> Reason | None:
    """A part with a scheduled renewal is covered up to the first one.

    Source: 13 CCR 2405(c)(3).
    """
    component = claim.component()
    renewal = next((item for item in window.scheduled if is_among(component, [item.component])), None)
    if renewal is None or not component:
        return None
    facts = {"component": component, "limit": plain(renewal.hours)}
    if claim.unit.meter is False:
        return passes("schedule", "scheduled.no-meter", **facts)
    if claim.unit.hours is None:
        return unknown("schedule", "unit.hours", "scheduled.unknown", **facts)
    if claim.unit.hours > renewal.hours:
        return fails("schedule", "scheduled.outside", hours=plain(claim.unit.hours), **facts)
    return passes("schedule", "scheduled.inside", hours=plain(claim.unit.hours), **facts)
