"""The work of a claim as its plan pays it: hours worked and claimed, and what they are worth at both rates."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.labour import labour_times
from claimpack.core.pricing.rates import labour_rate
from claimpack.core.pricing.retail import Retail
from claimpack.core.values.money import rounded


class Work(NamedTuple):
    """One labour entry of a claim that the maker is asked to pay: hours worked and claimed, worth what at which rate.

    `worked` is None where no time is written down, `retail` where the shop's rate for owners is not known. Worth is
    hours by the plan's rate, before shares and caps.
    """

    operation: str
    technician: str
    worked: Decimal | None
    claimed: Decimal
    worth: Decimal
    retail: Decimal | None


def work_of(claim: Claim, plan: Plan | None, retail: Retail) -> tuple[Work, ...]:
    """The work of a claim as its plan pays it; nothing of a declined repair, and nothing where no plan is known.

    Source: hours and rates as the claim is priced.
    """
    if plan is None or claim.case in ("declined", "campaign"):
        return ()
    level = retail.level_with(plan)
    return tuple(
        Work(
            operation=time.name,
            technician=time.entry.worker,
            worked=time.clocked,
            claimed=time.claimed,
            worth=rounded(time.claimed * labour_rate(time.entry, claim, plan, level).rate, plan.currency),
            retail=None if retail.labour_rate is None else rounded(time.claimed * retail.labour_rate, plan.currency),
        )
        for time in labour_times(claim, plan)
        if time.entry.payer == "maker"
    )
