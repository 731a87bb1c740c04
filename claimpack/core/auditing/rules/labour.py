"""Audit rules about labour: a technician in two places, days too long, more hours than the schedule."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.auditing.audited import AuditedClaim, GroupKey, Irregularity, Measures, Weight, listed
from claimpack.core.auditing.rule import OURS, PRACTICE, AcrossRule, OneClaimRule
from claimpack.core.clauses.operations import Operation
from claimpack.core.facts.lines import Labour
from claimpack.core.pricing.labour import clocked, hardly_worked, labour_times
from claimpack.core.values.money import ZERO, plain, to_step
from claimpack.core.values.wording.sentence import say
from claimpack.core.values.words import folded

_A_DAY = timedelta(days=1)


class Shift(NamedTuple):
    """Work of one technician from one moment to another; included in other work of the claim, it is not claimed."""

    started: datetime
    ended: datetime
    claim: str
    technician: str
    operation: str
    is_included: bool


def shifts(audited: AuditedClaim) -> Iterator[tuple[GroupKey, Shift]]:
    """The clocked work on a claim, by the technician of a shop; whoever pays, nobody works in two places."""
    if audited.is_withdrawn:
        return
    included = _included(audited)
    for entry in audited.claim.labour:
        if entry.worker and entry.started and entry.ended:
            within = folded(entry.operation) in included
            shift = Shift(entry.started, entry.ended, audited.number, entry.worker, entry.operation, within)
            yield audited.hand(entry.worker), shift


def _included(audited: AuditedClaim) -> set[str]:
    """The operations that another operation of the claim includes."""
    plan, worked = audited.plan, audited.claim.labour
    # work alone on a claim can be inside no other
    if plan is None or len(worked) < 2:
        return set()
    operations = [plan.scheduled_operation(entry.operation) for entry in worked]
    return {folded(code) for each in operations if each for code in plan.included_in(each.code)}


def labour_at_one_time(worked: Sequence[Shift], _measures: Measures) -> Iterator[Irregularity]:
    """One technician's work on two things at one time; serious where they are of two claims.

    Within a claim, an operation may be worked on inside another that includes it. Where some clocks carry a time zone
    and some do not, all are read as the shop's own time.

    Source: common practice, no source.
    """
    ordered = sorted(_comparable(worked))
    # in order of their starts each needs comparing with the one that ends last so far, and with no other
    last = ordered[0]
    for shift in ordered[1:]:
        belong_together = shift.claim == last.claim and (shift.is_included or last.is_included)
        if shift.started < last.ended and not belong_together:
            yield _at_one_time(last, shift)
        last = max(last, shift, key=lambda each: each.ended)


def _comparable(worked: Sequence[Shift]) -> Sequence[Shift]:
    # a clock with a zone and one without cannot be compared; the shop's own time is what both mean
    if all(shift.started.tzinfo for shift in worked):
        return worked
    return [
        shift._replace(started=shift.started.replace(tzinfo=None), ended=shift.ended.replace(tzinfo=None))
        for shift in worked
    ]


def _at_one_time(first: Shift, second: Shift) -> Irregularity:
    claims = tuple(sorted({first.claim, second.claim}))
    weight: Weight = "serious" if len(claims) > 1 else "look"
    # only the time both were running is at one time
    until = min(first.ended, second.ended)
    when = {"started": _moment(second.started), "ended": _moment(until)}
    key = "labour-at-one-time" if len(claims) > 1 else "labour-at-one-time.one-claim"
    said = say(key, who=first.technician, claims=listed(claims), **when)
    return Irregularity((said,), claims, weight, {"one": _told(first), "other": _told(second)})


def _told(shift: Shift) -> str:
    return f"{shift.claim}, {shift.operation}, {_moment(shift.started)} to {_moment(shift.ended)}"


def _moment(at: datetime) -> str:
    return f"{at:%Y-%m-%d %H:%M}"


class HoursWorked(NamedTuple):
    """Hours of one technician on one day; by the clock, or as stated without one."""

    day: date
    hours: Decimal
    claim: str
    technician: str
    by_clock: bool


def hours_by_day(audited: AuditedClaim) -> Iterator[tuple[GroupKey, HoursWorked]]:
    """The hours worked on a claim, by the technician of a shop and day; without a clock, by the day it was repaired."""
    if audited.is_withdrawn:
        return
    for entry in audited.claim.labour:
        if entry.worker:
            for day, hours, by_clock in _days(entry, audited.claim.dates.repaired):
                worked = HoursWorked(day, hours, audited.number, entry.worker, by_clock)
                yield (*audited.hand(entry.worker), day), worked


def _days(entry: Labour, repaired: date | None) -> Iterator[tuple[date, Decimal, bool]]:
    """An entry's hours a day; a clock that ran for more than a day is not split, since nobody works that long."""
    worked = clocked(entry)
    on = entry.started.date() if entry.started else repaired
    if worked is None or on is None:
        return
    started, ended = entry.started, entry.ended
    # typed hours go before the clock; a clock of more than a day was forgotten, and is asked about before filing
    if entry.hours is not None or started is None or ended is None or ended - started > _A_DAY:
        yield on, worked, entry.started is not None
        return
    # work over midnight counts to each of its two days
    midnight = datetime.combine(on + _A_DAY, time(), started.tzinfo)
    # a shift from noon to two in the night is no day of fourteen hours
    first = min(ended, midnight) - started
    yield on, _hours(first), True
    if ended > midnight:
        yield ended.date(), _hours(ended - midnight), True


def _hours(length: timedelta) -> Decimal:
    return Decimal(int(length.total_seconds())) / 3600


def day_too_long(worked: Sequence[HoursWorked], measures: Measures) -> Iterator[Irregularity]:
    """More hours of one technician in a day than anybody works; serious where clocks show more than 24.

    Source: common practice, no source; a day has 24 hours.
    """
    total = sum((each.hours for each in worked), ZERO)
    if total <= measures.shop_hours:
        return
    # hours that were typed may be of several days under one date; more than 24 by the clock cannot be
    by_clock = sum((each.hours for each in worked if each.by_clock), ZERO)
    claims = tuple(sorted({each.claim for each in worked}))
    key, first = "day-too-long" if len(claims) > 1 else "day-too-long.one-claim", worked[0]
    said = say(key, who=first.technician, hours=_shown(total), day=first.day, claims=listed(claims))
    evidence = {each.claim: f"{_shown(_of_claim(worked, each.claim))} h" for each in worked[:20]}
    yield Irregularity((said,), claims, "serious" if by_clock > 24 else "look", evidence)


def _of_claim(worked: Sequence[HoursWorked], claim: str) -> Decimal:
    return sum((each.hours for each in worked if each.claim == claim), ZERO)


def _shown(hours: Decimal) -> str:
    return plain(to_step(hours, Decimal("0.01"), "nearest"))


def labour_beyond_schedule(audited: AuditedClaim, measures: Measures) -> Iterator[Irregularity]:
    """A clock that ran far beyond an operation's time schedule.

    No plan pays more than its schedule but one that pays the time worked, and under that one longer work is no
    exception: only what a clock left running would show is asked about, whoever pays for it.

    Source: common practice, no source; the hours are the plan's.
    """
    plan = audited.plan
    if plan is None or audited.is_withdrawn:
        return
    worked: dict[str, Decimal] = {}
    for time_of in labour_times(audited.claim, plan):
        operation = plan.scheduled_operation(time_of.entry.operation)
        # work that is in no schedule has nothing to be measured by
        if operation and time_of.entry.payer == "maker":
            worked[operation.code] = worked.get(operation.code, ZERO) + (time_of.clocked or ZERO)
    for operation in plan.operation:
        hours = worked.get(operation.code, ZERO)
        if hours > operation.hours * measures.clock_beyond:
            yield _beyond(audited, operation, hours)


def labour_hardly_worked(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """An operation claimed by the time schedule for which next to no time is written down.

    Source: a rule of this tool's, no source; the hours are the plan's.
    """
    if audited.plan is None or audited.is_withdrawn:
        return
    for found in hardly_worked(audited.claim, audited.plan):
        hours = _shown(found.worked)
        said = say("labour-hardly-worked", operation=found.name, claimed=_shown(found.claimed), hours=hours)
        evidence = {"operation": found.code, "hours": hours, "schedule": plain(found.schedule)}
        yield audited.irregular(said, evidence, "look")


def _beyond(audited: AuditedClaim, operation: Operation, hours: Decimal) -> Irregularity:
    told = {"hours": _shown(hours), "schedule": plain(operation.hours)}
    said = say("labour-beyond-schedule", operation=operation.name or operation.code, **told)
    return audited.irregular(said, {"operation": operation.code, **told}, "look")


LABOUR_RULES = (
    AcrossRule(
        "labour-at-one-time",
        "A technician works on two things at one time.",
        PRACTICE,
        shifts,
        labour_at_one_time,
    ),
    AcrossRule(
        "day-too-long",
        "A technician's hours are more than a day holds.",
        PRACTICE,
        hours_by_day,
        day_too_long,
    ),
    OneClaimRule(
        "labour-beyond-schedule",
        "A clock ran far beyond the hours that the time schedule gives.",
        PRACTICE,
        labour_beyond_schedule,
    ),
    OneClaimRule(
        "labour-hardly-worked",
        "The time schedule's hours are claimed, and next to no time is written down.",
        OURS,
        labour_hardly_worked,
    ),
)
"""The rules about how long somebody worked."""
