"""Whether what failed is presumed to have been faulty from the start, so that nobody need tell the kind of defect."""

from __future__ import annotations

from datetime import date

from claimpack.core.clauses.window import Window
from claimpack.core.plans.plan import Plan
from claimpack.core.values.periods import last_day
from claimpack.core.windows.judged_days import JudgedDay
from claimpack.core.windows.reasons import Reason, passes

KEY = "presumed.within"


def presumed(plan: Plan, window: Window, starts: date | None, event: JudgedDay) -> list[Reason]:
    """That the event lies in the time in which a fault is presumed to have been there; nothing where it does not.

    A kind of defect that the claim tells counts all the same: the plan's exclusions answer the presumption.

    Source: the law that the window cites.
    """
    if window.presumed_within is None or starts is None or event.on is None:
        return []
    until = last_day(starts, window.presumed_within, window.last_day or plan.last_day, plan.month_end)
    return [passes("defect", KEY, until=until)] if starts <= event.on <= until else []
