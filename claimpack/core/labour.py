"""Labour time: what is claimed for an operation, beside the schedule and the clock."""

from __future__ import annotations

from decimal import Decimal

from claimpack.core.claim import Claim, Labour, Record
from claimpack.core.money import ZERO, Number, plain, to_step
from claimpack.core.plan import Operation, Plan
from claimpack.core.wording import Sentence, say

_SECONDS = Decimal(3600)


class LabourTime(Record):
    """Hours of one labour entry: claimed, by the schedule, by the clock; None where that is not known."""

    entry: Labour
    name: str
    claimed: Number
    schedule: Number | None
    clocked: Number | None
    notes: tuple[Sentence, ...] = ()


def clocked(entry: Labour) -> Decimal | None:
    """Hours worked: as stated, else from start to end; None while the clock runs or nothing is given."""
    if entry.hours is not None:
        return entry.hours
    if entry.started is None or entry.ended is None:
        return None
    return Decimal(int((entry.ended - entry.started).total_seconds())) / _SECONDS


def labour_times(claim: Claim, plan: Plan) -> tuple[LabourTime, ...]:
    """Claimed hours for every labour entry, in the claim's order.

    A known operation is claimed at the schedule's hours, once; one that another claimed operation includes is claimed
    at zero. Free text is claimed at its own time. Each line is rounded to the plan's step.

    Source: common practice, no source; rounding of hours 29 CFR 785.48(b).
    """
    done: set[str] = set()
    times = []
    for entry in claim.labour:
        times.append(_time(claim, plan, entry, done))
        done.add(entry.operation)
    return tuple(times)


def _time(claim: Claim, plan: Plan, entry: Labour, done: set[str]) -> LabourTime:
    operation = plan.scheduled_operation(entry.operation)
    worked = clocked(entry)
    shown = None if worked is None else to_step(worked, Decimal("0.01"), "nearest")
    if operation is None:
        claimed = _stepped(worked or ZERO, plan)
        return LabourTime(
            entry=entry, name=entry.operation, claimed=claimed, schedule=None, clocked=shown, notes=(_free(entry),)
        )
    including = _including(claim, plan, entry)
    if including:
        claimed, notes = ZERO, (say("price.included", operation=including.name or including.code),)
    elif entry.operation in done:
        claimed, notes = ZERO, (say("price.once"),)
    else:
        claimed = _stepped(_by(plan, operation, worked), plan)
        notes = (_beside_schedule(operation, shown, claimed),)
    return LabourTime(
        entry=entry,
        name=operation.name or operation.code,
        claimed=claimed,
        schedule=operation.hours,
        clocked=shown,
        notes=notes,
    )


def _by(plan: Plan, operation: Operation, worked: Decimal | None) -> Decimal:
    if plan.pays.claim_time == "schedule" or (plan.pays.claim_time == "lower" and worked is None):
        return operation.hours
    if plan.pays.claim_time == "actual":
        return worked or ZERO
    return min(operation.hours, worked or ZERO)


def _stepped(hours: Decimal, plan: Plan) -> Decimal:
    return to_step(hours, plan.pays.labour_step, plan.pays.labour_rounding)


def _including(claim: Claim, plan: Plan, entry: Labour) -> Operation | None:
    others = {other.operation for other in claim.labour if other.payer == "maker"} - {entry.operation}
    return next(
        (
            operation
            for operation in plan.operation
            if operation.code in others and entry.operation in operation.includes
        ),
        None,
    )


def _beside_schedule(operation: Operation, shown: Decimal | None, claimed: Decimal) -> Sentence:
    schedule = plain(operation.hours)
    if shown is None:
        return say("price.schedule", schedule=schedule)
    if shown > operation.hours and claimed <= operation.hours:
        return say("price.beyond", schedule=schedule, beyond=plain(shown - operation.hours))
    return say("price.schedule-clock", schedule=schedule, clocked=plain(shown))


def _free(entry: Labour) -> Sentence:
    worked = clocked(entry)
    if worked is None:
        return say("price.no-time")
    key = "price.clocked" if entry.hours is None else "price.stated"
    return say(key, clocked=plain(to_step(worked, Decimal("0.01"), "nearest")))
