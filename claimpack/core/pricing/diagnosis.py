"""Finding the fault: the hours of it that a plan pays."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.labour import LabourTime
from claimpack.core.pricing.lines import PricedLine
from claimpack.core.values.money import plain, rounded
from claimpack.core.values.wording import say
from claimpack.core.values.words import is_said


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
    limit = plan.pays.diagnosis.hours if plan.pays.diagnosis else None
    left, found = limit, []
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
    diagnosis = plan.pays.diagnosis
    if hours == line.quantity or diagnosis is None or diagnosis.hours is None:
        return [line]
    why = say("price.over-diagnosis", hours=plain(diagnosis.hours))
    own, *rest = line.split(rounded(hours * line.unit_price, plan.currency), "shop", why)
    return [own._replace(quantity=hours), *rest] if hours else [each._replace(is_rest=True) for each in rest]
