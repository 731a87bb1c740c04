"""Whether a window is still open: its age and its registration."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.plans.plan import Plan, Window
from claimpack.core.values.periods import Period, last_day
from claimpack.core.values.wording import days_in_words
from claimpack.core.windows import registering
from claimpack.core.windows.judged_days import JudgedDay, before_the_sale
from claimpack.core.windows.reasons import Reason, fails, passes, unknown


class Span(NamedTuple):
    """A window laid on the calendar: its first day, its last day, and what was said about them."""

    starts: date | None
    ends: date | None
    reasons: tuple[Reason, ...]


class _Case(NamedTuple):
    """One way in which the days that a claim leaves open may lie."""

    starts: date
    event: date
    in_time: bool


def by_age(claim: Claim, plan: Plan, window: Window, start: JudgedDay, event: JudgedDay) -> Span:
    """The window's days, whether the event is among them, and whether the unit was registered where that counts.

    Days that are not known are tried at the edges of where they may lie: what comes out the same whichever they are is
    said, and of the rest only a day is asked for that could change it. The last day counts.

    Source: Reg. (EEC, Euratom) 1182/71 Art. 3; the last day's convention is the plan's.
    """
    if start.reason.outcome == "fail":
        return Span(None, None, (start.reason._replace(rule="age"),))
    cases = _cases(claim, plan, window, start, event)
    certain = {case.in_time for case in cases} == {True} and window.registered_within is not None
    length = _length(window, in_time=certain)
    ends = _end(plan, window, start.on, length) if start.on else None
    told: list[Reason] = []
    if window.registered_within and not window.registered_adds:
        told.append(_condition(claim, window, start, cases))
        cases = [case for case in cases if case.in_time] or cases
    elif certain and start.on:
        told.append(registering.in_time(claim, window, registering.register_by(claim, window, start, start.on)))
    told += _age(claim, plan, window, (start, event), cases)
    return Span(start.on, ends, tuple(told))


def _cases(claim: Claim, plan: Plan, window: Window, start: JudgedDay, event: JudgedDay) -> list[_Case]:
    by = registering.register_by(claim, window, start, start.earliest) if start.from_sale else None
    starts = _edges(start, (event.earliest, event.latest, *([by] if by else [])))
    ends = [_end(plan, window, day, _length(window, in_time=in_time)) for day in starts for in_time in (False, True)]
    return [
        _Case(day, judged_on, in_time)
        for day in starts
        for judged_on in _edges(event, (*starts, *ends))
        for in_time in registering.may_be_in_time(claim, window, start, day)
    ]


def _edges(day: JudgedDay, others: Iterable[date]) -> list[date]:
    """The first and the last day that one may be, and those between on which another makes a difference."""
    return sorted({day.earliest, day.latest, *(min(max(other, day.earliest), day.latest) for other in others)})


def _age(
    claim: Claim, plan: Plan, window: Window, days: tuple[JudgedDay, JudgedDay], cases: Sequence[_Case]
) -> list[Reason]:
    start, event = days
    inside = {case: _is_inside(plan, window, days, case) for case in cases}
    outcomes = set(inside.values())
    if len(outcomes) == 1:
        return _settled_age(claim, plan, window, days, cases)
    told = []
    if window.registered_adds and _decides(inside, "in_time"):
        longer = _end(plan, window, start.on, _length(window, in_time=True)) if start.on else None
        told.append(registering.open_question(claim, window, start, longer))
    length = window.period
    if _decides(inside, "starts"):
        told.append(unknown("age", start.reason.asks, "age.start-unknown", length_period=length))
    if _decides(inside, "event"):
        told.append(unknown("age", event.reason.asks, "age.event-unknown", length_period=length))
    return told


def _settled_age(
    claim: Claim, plan: Plan, window: Window, days: tuple[JudgedDay, JudgedDay], cases: Sequence[_Case]
) -> list[Reason]:
    """What is said of a window's age where everything still open leaves it the same."""
    start, event = days
    if start.on and event.on:
        certain = all(case.in_time for case in cases)
        length = _length(window, in_time=certain)
        late = [] if certain or not window.registered_adds else _late_registration(claim, plan, window, days)
        return [*late, within(event.on, start.on, _end(plan, window, start.on, length), length)]
    if _is_inside(plan, window, days, cases[0]):
        return [passes("age", "age.inside-anyway", length_period=window.period)]
    nearest = min(cases, key=lambda case: case.event - _case_end(plan, window, case))
    ends = _case_end(plan, window, nearest)
    if nearest.event <= ends:
        return [fails("age", "event.before-start", event=nearest.event, starts=nearest.starts)]
    facts = {"event": nearest.event, "ends": ends, "late_period": days_in_words((nearest.event - ends).days)}
    return [fails("age", "age.outside-anyway", length_period=_length(window, in_time=nearest.in_time), **facts)]


def _late_registration(claim: Claim, plan: Plan, window: Window, days: tuple[JudgedDay, JudgedDay]) -> list[Reason]:
    """That it was registered too late, where the event lies in what being in time would have added."""
    starts, judged_on = days[0].on, days[1].on
    if not (starts and judged_on) or True in registering.may_be_in_time(claim, window, days[0], starts):
        return []
    shorter, longer = (_end(plan, window, starts, _length(window, in_time=in_time)) for in_time in (False, True))
    by = registering.register_by(claim, window, days[0], starts)
    return [registering.too_late(claim, by)] if shorter < judged_on <= longer else []


def _condition(claim: Claim, window: Window, start: JudgedDay, cases: Sequence[_Case]) -> Reason:
    """Registration in time as a condition of the window."""
    answers = {case.in_time for case in cases}
    if answers == {True}:
        return registering.in_time(claim, window, registering.register_by(claim, window, start, start.earliest))
    if answers == {False}:
        return registering.too_late(claim, registering.register_by(claim, window, start, start.latest))
    if start.on is None and claim.dates.registered and not before_the_sale(claim.dates):
        return unknown("registration", start.reason.asks, "registered.start-unknown", registered=claim.dates.registered)
    return registering.open_question(claim, window, start)


def _decides(inside: dict[_Case, bool], field: str) -> bool:
    """Whether one of the open facts alone changes the outcome, whatever the others are taken to be."""
    pairs = [(case.starts, case.event) for case in inside]
    open_registration = len(set(pairs)) < len(pairs)
    others = [name for name in _Case._fields if name != field and (name != "in_time" or open_registration)]
    outcomes: dict[tuple[object, ...], set[bool]] = {}
    for case, outcome in inside.items():
        outcomes.setdefault(tuple(getattr(case, name) for name in others), set()).add(outcome)
    return any(len(found) > 1 for found in outcomes.values())


def _is_inside(plan: Plan, window: Window, days: tuple[JudgedDay, JudgedDay], case: _Case) -> bool:
    start, event = days
    in_order = not (start.may_follow or event.free or (start.on and event.on))
    starts = min(case.starts, case.event) if in_order else case.starts
    return starts <= case.event <= _end(plan, window, starts, _length(window, in_time=case.in_time))


def _case_end(plan: Plan, window: Window, case: _Case) -> date:
    return _end(plan, window, case.starts, _length(window, in_time=case.in_time))


def _length(window: Window, *, in_time: bool) -> Period:
    return window.period.plus(window.registered_adds) if in_time and window.registered_adds else window.period


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
