"""Labour time: what is claimed for an operation beside schedule and clock, and how much of finding the fault."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.operations import Operation
from claimpack.core.facts.lines import Labour
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.lines import PricedLine
from claimpack.core.values.clock import time_between
from claimpack.core.values.money import ZERO, plain, rounded, to_step
from claimpack.core.values.wording.sentence import Sentence, say
from claimpack.core.values.words import folded_often, is_said, nearest

# hours are counted from whole seconds as decimals, so that a third of an hour is rounded once and by the plan's step
_SECONDS = Decimal(3600)
# a skilled hand may be twice as fast as the schedule; ten times as fast is a clock that was not running
_HARDLY = Decimal("0.1")
_NOT_CLAIMED = ("price.included", "price.once")


class OperationMeant(NamedTuple):
    """An operation as it is written down, and what to say about it."""

    operation: str
    note: str = ""


def operation_meant(said: str, plan: Plan | None) -> OperationMeant:
    """The code of the plan's schedule that somebody means; else their own words, the nearest code suggested.

    Source: common practice, no source.
    """
    if plan is None or not plan.operation:
        return OperationMeant(said)
    scheduled = plan.scheduled_operation(said)
    if scheduled:
        return OperationMeant(scheduled.code)
    by_name = {operation.name: operation.code for operation in plan.operation if operation.name}
    near = nearest(said, [*by_name, *(operation.code for operation in plan.operation)])
    meant = f" Did you mean {by_name.get(near, near)}?" if near else ""
    return OperationMeant(said, f"{said!r} is not in the schedule of {plan.id}; it is kept as free text.{meant}")


class LabourTime(NamedTuple):
    """Hours of one labour entry: claimed, by the schedule, as worked; None where that is not known."""

    entry: Labour
    name: str
    claimed: Decimal
    schedule: Decimal | None
    clocked: Decimal | None
    notes: tuple[Sentence, ...] = ()


def clocked(entry: Labour) -> Decimal | None:
    """Hours worked: as stated, else from start to end; None while the clock runs or nothing is given."""
    if entry.hours is not None:
        return entry.hours
    if entry.started is None or entry.ended is None:
        return None
    return Decimal(int(time_between(entry.started, entry.ended).total_seconds())) / _SECONDS


def labour_times(claim: Claim, plan: Plan) -> tuple[LabourTime, ...]:
    """Claimed hours for every labour entry, in the claim's order.

    A known operation is claimed at the schedule's hours, once, whoever worked on it; one that another claimed operation
    includes, in the schedule or not, is claimed at zero. Of operations that include each other the one with more hours
    is claimed, the plan's first where they tie. Where the plan pays the lower of schedule and clock, several entries of
    one operation share the schedule's hours; where it pays the clock, each is claimed at its own. Entries the maker
    pays come first. Free text is claimed at its own time. Each line is rounded to the plan's step.

    Source: common practice, no source; rounding of hours 29 CFR 785.48(b).
    """
    # the hours of a schedule are there once: what the owner pays must not use up what the maker would have paid
    makers_first = sorted(range(len(claim.labour)), key=lambda line: claim.labour[line].payer != "maker")
    done: dict[str, Decimal] = {}
    times = {line: _time(claim, plan, claim.labour[line], done) for line in makers_first}
    return tuple(times[line] for line in range(len(claim.labour)))


class HardlyWorked(NamedTuple):
    """An operation claimed by the time schedule for which next to no time is written down; all in hours."""

    code: str
    name: str
    claimed: Decimal
    worked: Decimal
    schedule: Decimal


def hardly_worked(claim: Claim, plan: Plan) -> tuple[HardlyWorked, ...]:
    """The operations the maker pays by the schedule, with less than a tenth of its hours written down.

    Everybody's time on one operation counts together; an operation with an entry that says no time is left out.

    Source: a rule of this tool's, no source.
    """
    if plan.pays.claim_time != "schedule":
        return ()
    by_code: dict[str, list[LabourTime]] = {}
    for time in labour_times(claim, plan):
        operation = plan.scheduled_operation(time.entry.operation)
        if operation and time.entry.payer == "maker":
            by_code.setdefault(operation.code, []).append(time)
    # with one entry that says no time it is not known how much was worked in all
    found = (_added_up(code, times) for code, times in by_code.items() if all(t.clocked is not None for t in times))
    return tuple(each for each in found if each.claimed and each.worked < each.schedule * _HARDLY)


def _added_up(code: str, times: Sequence[LabourTime]) -> HardlyWorked:
    return HardlyWorked(
        code=code,
        name=times[0].name,
        claimed=sum((time.claimed for time in times), ZERO),
        worked=sum((time.clocked for time in times if time.clocked is not None), ZERO),
        schedule=times[0].schedule or ZERO,
    )


def _time(claim: Claim, plan: Plan, entry: Labour, done: dict[str, Decimal]) -> LabourTime:
    operation = plan.scheduled_operation(entry.operation)
    worked = clocked(entry)
    shown = None if worked is None else to_step(worked, Decimal("0.01"), "nearest")
    # asked before all else: work within other claimed work is not paid again, scheduled or not
    including = _including(claim, plan, entry.operation)
    if including:
        hours, note = ZERO, say("price.included", operation=including.name or including.code)
    elif operation is None:
        hours, note = worked or ZERO, _free(entry)
    elif _is_claimed_in_full(plan, operation, done):
        hours, note = ZERO, say("price.once")
    else:
        hours, note = _by(plan, operation, worked, done), _beside_schedule(plan, operation, entry, shown)
    # nothing is not rounded up to a step of the plan
    is_claimed = note.key not in _NOT_CLAIMED
    claimed = to_step(hours, plan.pays.labour_step, plan.pays.labour_rounding) if is_claimed else ZERO
    if operation and is_claimed:
        # what was claimed counts, after rounding, or several short entries would round up past the schedule
        done[operation.code] = done.get(operation.code, ZERO) + claimed
    step = say("price.rounded", claimed=plain(claimed), step=plain(plan.pays.labour_step))
    return LabourTime(
        entry=entry,
        name=operation.name or operation.code if operation else entry.operation,
        claimed=claimed,
        schedule=operation.hours if operation else None,
        clocked=shown,
        notes=(note,) if claimed == hours else (note, step),
    )


def _is_claimed_in_full(plan: Plan, operation: Operation, done: dict[str, Decimal]) -> bool:
    if operation.code not in done or plan.pays.claim_time == "actual":
        return False
    return plan.pays.claim_time == "schedule" or done[operation.code] >= operation.hours


def _by(plan: Plan, operation: Operation, worked: Decimal | None, done: dict[str, Decimal]) -> Decimal:
    if plan.pays.claim_time == "actual":
        return worked or ZERO
    # entries of one operation share its hours
    left = operation.hours - done.get(operation.code, ZERO)
    return left if plan.pays.claim_time == "schedule" or worked is None else min(left, worked)


def _including(claim: Claim, plan: Plan, said: str) -> Operation | None:
    """The claimed operation that includes this one, if there is one."""
    own = plan.scheduled_operation(said)
    # work the owner pays for includes nothing of the maker's
    of_maker = {folded_often(entry.operation) for entry in claim.labour if entry.payer == "maker"}
    others = [other for other in plan.operation if folded_often(other.code) in of_maker and other is not own]
    including = (other for other in others if is_said(said, plan.included_in(other.code)))
    return next((other for other in including if own is None or not _stays(plan, own, other)), None)


def _stays(plan: Plan, operation: Operation, including: Operation) -> bool:
    """Whether an operation is claimed although another includes it: they include each other, and it has more hours."""
    # included one way only: the larger stays, and this one goes
    if not is_said(including.code, plan.included_in(operation.code)):
        return False
    # of two that include each other one must stay, or both would be paid nothing
    in_order = sorted((operation, including), key=plan.operation.index)
    return max(in_order, key=lambda one: one.hours) is operation


def _beside_schedule(plan: Plan, operation: Operation, entry: Labour, shown: Decimal | None) -> Sentence:
    schedule = plain(operation.hours)
    if shown is None:
        return say("price.no-time" if plan.pays.claim_time == "actual" else "price.schedule", schedule=schedule)
    # told, as a shop that works beyond the schedule can ask the maker for more beforehand, not afterwards
    if shown > operation.hours and plan.pays.claim_time != "actual":
        return say("price.beyond", schedule=schedule, beyond=plain(shown - operation.hours))
    # hours that were typed are nobody's clock
    key = "price.schedule-clock" if entry.hours is None else "price.schedule-stated"
    return say(key, schedule=schedule, clocked=plain(shown))


def _free(entry: Labour) -> Sentence:
    worked = clocked(entry)
    if worked is None:
        return say("price.no-time")
    key = "price.clocked" if entry.hours is None else "price.stated"
    return say(key, clocked=plain(to_step(worked, Decimal("0.01"), "nearest")))


def is_diagnosis(operation: str, plan: Plan) -> bool:
    """Whether labour of an operation is the diagnosis that the plan has terms for."""
    diagnosis = plan.pays.diagnosis
    if diagnosis is None:
        return False
    scheduled = plan.scheduled_operation(diagnosis.operation)
    return is_said(operation, [diagnosis.operation, *([scheduled.name] if scheduled and scheduled.name else [])])


def hours_paid(times: Sequence[LabourTime], plan: Plan) -> tuple[Decimal, ...]:
    """The hours that are paid of each entry: those claimed, of the maker's diagnosis up to its limit for all together.

    Source: common practice, no source.
    """
    left, found = _limit(plan), []
    for time in times:
        hours = time.claimed
        if left is not None and time.entry.payer == "maker" and is_diagnosis(time.entry.operation, plan):
            hours = min(hours, left)
            left -= hours
        found.append(hours)
    return tuple(found)


def up_to_the_limit(line: PricedLine, hours: Decimal, plan: Plan) -> list[PricedLine]:
    """A line of labour at the hours that are paid; what is beyond them is the shop's.

    Source: common practice, no source.
    """
    limit = _limit(plan)
    if limit is None:
        return [line]
    why = say("price.over-diagnosis", hours=plain(limit))
    own, *rest = line.split(rounded(hours * line.unit_price, plan.currency), "shop", why)
    kept = [own._replace(quantity=hours), *rest]
    # of hours that cost nothing there is no rest, and they are told all the same
    return kept if hours else rest or kept


def _limit(plan: Plan) -> Decimal | None:
    """The hours of diagnosis that are paid at most; None for as many as there are."""
    return plan.pays.diagnosis.hours if plan.pays.diagnosis else None
