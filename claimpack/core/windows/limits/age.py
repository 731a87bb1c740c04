"""Whether a window is still open: its age and its registration."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.window import Window
from claimpack.core.plans.plan import Plan
from claimpack.core.values.periods import Period
from claimpack.core.values.wording.sentence import days_in_words
from claimpack.core.windows import unmended
from claimpack.core.windows.in_repair import NONE, InRepair, Lacking
from claimpack.core.windows.judged_days import JudgedDay, before_the_sale
from claimpack.core.windows.limits import registering
from claimpack.core.windows.limits.last_days import LastDays
from claimpack.core.windows.reasons import Reason, fails, passes, settled, unknown


class Span(NamedTuple):
    """A window laid on the calendar: its first day, its last day, and what was said about them.

    While days are open, its period may be over, or it may at worst not have started. `rests_on` is what is not given
    and may make its last day a later one.
    """

    starts: date | None
    ends: date | None
    reasons: tuple[Reason, ...]
    in_repair: InRepair = NONE
    may_be_over: bool = True
    rests_on: Lacking | None = None


class _Days(NamedTuple):
    """What the age of a window goes by: its first day, the day judged on, and its last day by those."""

    claim: Claim
    window: Window
    start: JudgedDay
    event: JudgedDay
    last: LastDays

    def end(self, starts: date, *, in_time: bool, event: date | None = None) -> date:
        return self.last.of(starts, in_time=in_time, event=event, resold=self.last.soonest_resale)


class _Case(NamedTuple):
    """One way in which what a claim leaves open may be: days, registration, time in repair, a second sale."""

    starts: date
    event: date
    in_time: bool
    longest: bool
    resold: date | None


def by_age(claim: Claim, plan: Plan, window: Window, start: JudgedDay, event: JudgedDay) -> Span:
    """The window's days, whether the event is among them, and whether the unit was registered in time if that counts.

    Days that are not known are tried at the edges of where they may lie: what comes out the same whichever they are is
    said, and of the rest only a day is asked for that could change it. The last day counts.

    Source: Reg. (EEC, Euratom) 1182/71 Art. 3; the last day's convention is the plan's.
    """
    # cover that never starts has no days, and the reason why is that of the age
    if start.reason.outcome == "fail":
        return Span(None, None, (start.reason._replace(rule="age"),))
    days = _Days(claim, window, start, event, LastDays.laid(claim, plan, window))
    cases = _cases(days)
    certain = {case.in_time for case in cases} == {True} and window.registered_within is not None
    ends = days.end(start.on, in_time=certain, event=event.on) if start.on else None
    told: list[Reason] = []
    if window.registered_within and not window.registered_adds:
        told.append(_condition(days, cases))
        # a unit that must be registered is judged by age as if it were: whether it was is said by itself
        cases = [case for case in cases if case.in_time] or cases
    elif certain and start.on:
        told.append(registering.in_time(claim, window, registering.register_by(claim, window, start, start.on)))
    told += _age(days, cases)
    if days.last.asks and settled(told) is not True:
        # A second owner's period may end before the window starts: no day of it is worth telling.
        ends = None
    # over in one case is enough for a question; over in none, and a limit may still speak
    over = settled(told) is not None or any(case.event > _case_end(days, case, case.starts) for case in cases)
    return Span(start.on, ends, tuple(told), days.last.in_repair, over, _rests_on(days, cases) if ends else None)


def _rests_on(days: _Days, cases: Sequence[_Case]) -> Lacking | None:
    """What is not given and moves the last day, whether or not that decides anything."""
    ends = {(case.in_time, case.event, _case_end(days, case, case.starts)) for case in cases}
    return days.last.lacking if len(ends) > len({(case.in_time, case.event) for case in cases}) else None


def _cases(days: _Days) -> list[_Case]:
    claim, window, start, event = days.claim, days.window, days.start, days.event
    by = registering.register_by(claim, window, start, start.earliest) if start.from_sale else None
    # besides its own edges a start matters where the event is, and where the time to register ends
    starts = _edges(start, (event.earliest, event.latest, *([by] if by else [])))
    ends = days.last.every(starts)
    return [
        _Case(day, judged_on, in_time, longest, resold)
        for day in starts
        for judged_on in _edges(event, (*starts, *ends))
        for in_time in registering.may_be_in_time(claim, window, start, day)
        for longest in days.last.stays_may_be_longest
        for resold in days.last.resales
    ]


def _edges(day: JudgedDay, others: Iterable[date]) -> list[date]:
    """The first and the last day that one may be, and those between on which another makes a difference."""
    # a verdict can change only where one day passes another: between two such places every day gives the same
    return sorted({day.earliest, day.latest, *(min(max(other, day.earliest), day.latest) for other in others)})


def _age(days: _Days, cases: Sequence[_Case]) -> list[Reason]:
    claim, window, start, event = days.claim, days.window, days.start, days.event
    inside = {case: _is_inside(days, case) for case in cases}
    # whatever is open, the answer is the same: nothing is asked
    if len(set(inside.values())) == 1:
        return _settled_age(days, cases)
    told = []
    if window.registered_adds and _decides(inside, "in_time"):
        longer = days.end(start.on, in_time=True, event=event.on) if start.on else None
        told.append(registering.open_question(claim, window, start, longer))
    if _decides(inside, "longest"):
        told.append(_question_of_repairs(days, inside))
    if _decides(inside, "resold"):
        told.append(days.last.question_of_resale())
    length = window.period
    if _decides(inside, "starts"):
        told.append(unknown("age", start.reason.asks, "age.start-unknown", length_period=length))
    if _decides(inside, "event"):
        told.append(unknown("age", event.reason.asks, "age.event-unknown", length_period=length))
    return told


def _question_of_repairs(days: _Days, inside: dict[_Case, bool]) -> Reason:
    """The question whether a repair mended what failed, where that alone may change it; else for days in repair."""
    by_date = days._replace(last=days.last.by_date())
    repair = days.last.in_repair.open_repair
    if repair and any(_is_inside(by_date, case) != is_inside for case, is_inside in inside.items() if case.longest):
        return unmended.question(repair)
    return days.last.in_repair.question()


def _settled_age(days: _Days, cases: Sequence[_Case]) -> list[Reason]:
    """What is said of a window's age where everything still open leaves it the same."""
    start, event = days.start, days.event
    certain = all(case.in_time for case in cases)
    lacking = _rests_on(days, cases)
    if start.on and event.on and not days.last.asks and not lacking:
        return [*_late_registration(days, start.on, event.on), *_told(days, start.on, event.on, in_time=certain)]
    if _is_inside(days, cases[0]) and start.on and event.on and lacking:
        ends = days.end(start.on, in_time=certain, event=event.on)
        facts = {"event": event.on, "starts": start.on, "ends": ends, "fact_word": lacking.fact, "named": lacking.key}
        return [passes("age", "age.inside-at-least", **facts)]
    if _is_inside(days, cases[0]):
        latest = max(cases, key=lambda case: case.event - _case_end(days, case, case.starts))
        return [passes("age", "age.inside-anyway", length_period=_length(days, latest))]
    # of all that may be the case the one that missed by least is told: it missed by so much at least
    nearest = min(cases, key=lambda case: case.event - _case_end(days, case, case.starts))
    ends = _case_end(days, nearest, nearest.starts)
    late = max((nearest.event - ends).days, 0)
    if not late:
        return [fails("age", "event.before-start", event=nearest.event, starts=nearest.starts)]
    facts = {"event": nearest.event, "ends": ends, "late_period": days_in_words(late)}
    return [fails("age", "age.outside-anyway", length_period=_length(days, nearest), **facts)]


def _length(days: _Days, case: _Case) -> Period:
    return days.last.length(case.starts, in_time=case.in_time, event=case.event, longest=case.longest)


def _told(days: _Days, starts: date, event: date, *, in_time: bool) -> list[Reason]:
    """What is said of a window whose days are all known: what moved its last day, and whether the event is inside."""
    by_date = days._replace(last=days.last.by_date())
    moved, since, length = by_date.last.told(starts, event, in_time=in_time)
    ends = by_date.end(starts, in_time=in_time, event=event)
    repairs = days.last.in_repair.unmended
    if ends < event <= days.end(starts, in_time=in_time, event=event):
        return [*moved, unmended.kept_open(repairs, ends, event)]
    told = [*moved, within(event, since, ends, length)]
    told += unmended.told_late(repairs, (starts, ends)) if event > ends else []
    # whoever asks at the counter may not know of a repair: a "no" that one would turn says so
    if ends < event <= days.last.if_repaired(starts, event, in_time=in_time):
        told.append(passes("age", "repair.none", starts=starts, ends=ends, adds_period=days.window.repair_adds))
    return told


def _late_registration(days: _Days, starts: date, event: date) -> list[Reason]:
    """That it was registered too late, where the event lies in what being in time would have added."""
    claim, window = days.claim, days.window
    if True in registering.may_be_in_time(claim, window, days.start, starts):
        return []
    shorter, longer = (days.end(starts, in_time=in_time, event=event) for in_time in (False, True))
    by = registering.register_by(claim, window, days.start, starts)
    return [registering.too_late(claim, by)] if shorter < event <= longer else []


def _condition(days: _Days, cases: Sequence[_Case]) -> Reason:
    """Registration in time as a condition of the window."""
    claim, window, start = days.claim, days.window, days.start
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
    pairs = {(case.starts, case.event, case.longest, case.resold) for case in inside}
    open_registration = len(pairs) < len(inside)
    others = [name for name in _Case._fields if name != field and (name != "in_time" or open_registration)]
    outcomes: dict[tuple[object, ...], set[bool]] = {}
    for case, outcome in inside.items():
        outcomes.setdefault(tuple(getattr(case, name) for name in others), set()).add(outcome)
    return any(len(found) > 1 for found in outcomes.values())


def _is_inside(days: _Days, case: _Case) -> bool:
    start, event = days.start, days.event
    in_order = not (start.may_follow or event.free or (start.on and event.on))
    starts = min(case.starts, case.event) if in_order else case.starts
    return starts <= case.event <= _case_end(days, case, starts)


def _case_end(days: _Days, case: _Case, starts: date) -> date:
    return days.last.of(starts, in_time=case.in_time, event=case.event, longest=case.longest, resold=case.resold)


def within(event: date, starts: date, ends: date, length: Period | None = None) -> Reason:
    """Whether an event lies in a span of days, first and last day included; the length is told where it is one."""
    if event < starts:
        return fails("age", "event.before-start", event=event, starts=starts)
    form, said = ("span", {}) if length is None else ("age", {"length_period": length})
    facts = {"event": event, "starts": starts, "ends": ends, **said}
    if event > ends:
        return fails("age", f"{form}.outside", late_period=days_in_words((event - ends).days), **facts)
    if event == ends:
        return passes("age", f"{form}.last-day", **facts)
    return passes("age", f"{form}.inside", left_period=days_in_words((ends - event).days), **facts)
