"""Audit rules about labour: a technician in two places, days too long, more hours than the schedule."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.audited import AuditedClaim, Irregularity, Measures, Weight, listed
from claimpack.core.claim import Labour
from claimpack.core.labour import clocked
from claimpack.core.money import ZERO, plain, to_step
from claimpack.core.words import folded

Key = tuple[Hashable, ...]

_A_DAY = timedelta(days=1)


class Shift(NamedTuple):
    """Work of one technician from one moment to another."""

    started: datetime
    ended: datetime
    claim: str
    technician: str
    operation: str


def shifts(audited: AuditedClaim) -> Iterator[tuple[Key, Shift]]:
    """The clocked work on a claim, by technician; whoever pays, nobody works in two places."""
    if audited.standing.state == "withdrawn":
        return
    for entry in audited.claim.labour:
        if entry.technician and entry.started and entry.ended:
            shift = Shift(entry.started, entry.ended, audited.number, entry.technician, entry.operation)
            yield (folded(entry.technician),), shift


def labour_at_one_time(worked: Sequence[Shift], _measures: Measures) -> Iterator[Irregularity]:
    """One technician's work on two things at one time; serious where they are of two claims.

    Where some clocks carry a time zone and some do not, all are read as the shop's own time.

    Source: common practice, no source.
    """
    ordered = sorted(_comparable(worked))
    last = ordered[0]
    for shift in ordered[1:]:
        if shift.started < last.ended:
            yield _at_one_time(last, shift)
        last = max(last, shift, key=lambda each: each.ended)


def _comparable(worked: Sequence[Shift]) -> Sequence[Shift]:
    if all(shift.started.tzinfo for shift in worked):
        return worked
    return [
        shift._replace(started=shift.started.replace(tzinfo=None), ended=shift.ended.replace(tzinfo=None))
        for shift in worked
    ]


def _at_one_time(first: Shift, second: Shift) -> Irregularity:
    claims = tuple(sorted({first.claim, second.claim}))
    weight: Weight = "serious" if len(claims) > 1 else "look"
    until = min(first.ended, second.ended)
    where = f"claims {listed(claims)}" if len(claims) > 1 else f"two operations of claim {claims[0]}"
    return Irregularity(
        rule="labour-at-one-time",
        claims=claims,
        what=f"{first.technician} works on {where} at one time, {_moment(second.started)} to {_moment(until)}.",
        evidence={"one": _told(first), "other": _told(second)},
        weight=weight,
    )


def _told(shift: Shift) -> str:
    return f"{shift.claim}, {shift.operation}, {_moment(shift.started)} to {_moment(shift.ended)}"


def _moment(at: datetime) -> str:
    return at.isoformat(sep=" ", timespec="minutes")


class HoursWorked(NamedTuple):
    """Hours of one technician on one day; by the clock, or as stated without one."""

    day: date
    hours: Decimal
    claim: str
    technician: str
    by_clock: bool


def hours_by_day(audited: AuditedClaim) -> Iterator[tuple[Key, HoursWorked]]:
    """The hours worked on a claim, by technician and day; hours without a clock count on the day it was repaired."""
    if audited.standing.state == "withdrawn":
        return
    for entry in audited.claim.labour:
        if entry.technician:
            for day, hours, by_clock in _days(entry, audited.claim.dates.repaired):
                worked = HoursWorked(day, hours, audited.number, entry.technician, by_clock)
                yield (folded(entry.technician), day), worked


def _days(entry: Labour, repaired: date | None) -> Iterator[tuple[date, Decimal, bool]]:
    """An entry's hours a day; a clock that ran for more than a day is not split, since nobody works that long."""
    worked = clocked(entry)
    on = entry.started.date() if entry.started else repaired
    if worked is None or on is None:
        return
    started, ended = entry.started, entry.ended
    if entry.hours is not None or started is None or ended is None or ended - started > _A_DAY:
        yield on, worked, entry.started is not None
        return
    midnight = datetime.combine(on + _A_DAY, time(), started.tzinfo)
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
    by_clock = sum((each.hours for each in worked if each.by_clock), ZERO)
    claims = tuple(sorted({each.claim for each in worked}))
    yield Irregularity(
        rule="day-too-long",
        claims=claims,
        what=f"{worked[0].technician} worked {_shown(total)} hours on {worked[0].day}, claims {listed(claims)} say.",
        evidence={each.claim: f"{_shown(_of_claim(worked, each.claim))} h" for each in worked[:20]},
        weight="serious" if by_clock > 24 else "look",
    )


def _of_claim(worked: Sequence[HoursWorked], claim: str) -> Decimal:
    return sum((each.hours for each in worked if each.claim == claim), ZERO)


def _shown(hours: Decimal) -> str:
    return plain(to_step(hours, Decimal("0.01"), "nearest"))


def labour_beyond_schedule(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """More hours on an operation the maker pays than its time schedule gives.

    Source: common practice, no source; the hours are the plan's.
    """
    plan = audited.plan
    if plan is None or audited.standing.state == "withdrawn":
        return
    worked: dict[str, Decimal] = {}
    for entry in audited.claim.labour:
        operation = plan.scheduled_operation(entry.operation) if entry.payer == "maker" else None
        if operation:
            worked[operation.code] = worked.get(operation.code, ZERO) + (clocked(entry) or ZERO)
    for operation in plan.operation:
        hours = worked.get(operation.code, ZERO)
        if hours > operation.hours:
            asked = "they are claimed" if plan.pays.claim_time == "actual" else "the schedule's hours are claimed"
            yield Irregularity(
                rule="labour-beyond-schedule",
                claims=(audited.number,),
                what=(
                    f"{operation.name or operation.code} took {_shown(hours)} hours; the schedule gives "
                    f"{plain(operation.hours)}, and {asked}."
                ),
                evidence={"operation": operation.code, "hours": _shown(hours), "schedule": plain(operation.hours)},
                weight="look",
            )
