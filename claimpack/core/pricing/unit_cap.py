"""What the maker has paid for one unit before, where a plan caps all claims of a unit together."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.facts.cases import EarlierRepair
from claimpack.core.plans.plan import Plan
from claimpack.core.values.money import ZERO
from claimpack.core.values.periods import Period, last_day


class PaidBefore(NamedTuple):
    """What earlier claims of the unit were paid, those of which nobody says it; and whether the year is not known."""

    paid: Decimal = ZERO
    not_said: tuple[EarlierRepair, ...] = ()
    year_open: bool = False


NOTHING_BEFORE = PaidBefore()
"""A unit for which nothing was paid before, or a plan that does not ask."""


def paid_before(claim: Claim, plan: Plan, starts: date | None) -> PaidBefore:
    """What counts of the unit's earlier repairs against the plan's cap for a unit.

    A repair counts in the year of cover that it was done in; this claim in that of its repair, else of the day it was
    presented on. While it is not known when cover started, every earlier repair counts. What nobody says of a repair
    counts as nothing; it does not matter where the rest has reached the cap.

    Args:
        claim: the claim, with the earlier repairs that it names.
        plan: the plan.
        starts: the day the years of the unit's cover are counted from; None where that is not known.

    Source: common practice, no source.
    """
    cap = plan.pays.unit_cap
    if cap is None:
        return NOTHING_BEFORE
    counted = [repair for repair in claim.earlier if cap.per == "life" or _in_one_year(claim, plan, repair, starts)]
    paid = sum((repair.paid for repair in counted if repair.paid is not None), ZERO)
    not_said = tuple(repair for repair in counted if repair.paid is None and paid < cap.amount)
    return PaidBefore(paid, not_said, year_open=cap.per == "year" and starts is None and bool(counted))


def _in_one_year(claim: Claim, plan: Plan, repair: EarlierRepair, starts: date | None) -> bool:
    if starts is None:
        return True
    first, last = sorted((repair.repaired, claim.dates.repaired or claim.dates.presented))
    whole_years = range(1, last.year - starts.year + 1)
    ends = (last_day(starts, Period(years=years), plan.last_day, plan.month_end) for years in whole_years)
    return starts <= first and not any(first <= end < last for end in ends)
