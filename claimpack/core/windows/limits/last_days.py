"""The last day of a window: by its period, by time in repair that lengthens it, by a second owner's shorter period."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.window import Window
from claimpack.core.plans.plan import Plan
from claimpack.core.values.periods import LastDay, MonthEnd, Period, last_day
from claimpack.core.windows.in_repair import InRepair, Lacking, in_repair
from claimpack.core.windows.reach import is_second_owner
from claimpack.core.windows.reasons import Reason, passes, unknown


class LastDays(NamedTuple):
    """Where a window ends by the day it starts, and what of that is open.

    Args:
        window: the window.
        counting: whether the same date counts, and how a month's last day does.
        in_repair: the days in repair that lengthen it.
        repaired: the days of earlier repairs, by which it may last longer, the first first.
        resales: the days of a second sale that may cut it short, at the edges of where that may lie; None for none.
        asks: the fact, as a key of the claim, that would say which; empty where that is known.
    """

    window: Window
    counting: tuple[LastDay, MonthEnd]
    in_repair: InRepair
    repaired: tuple[date, ...] = ()
    resales: tuple[date | None, ...] = (None,)
    asks: str = ""

    @classmethod
    def laid(cls, claim: Claim, plan: Plan, window: Window) -> LastDays:
        """The last days of a window under a claim."""
        counting = (window.last_day or plan.last_day, plan.month_end)
        repaired = tuple(sorted(one.repaired for one in claim.earlier)) if window.repair_adds else ()
        return cls(window, counting, in_repair(claim, plan, window), repaired, *_resales(claim, window))

    @property
    def stays_may_be_longest(self) -> tuple[bool, ...]:
        """Whether stays in repair were as long as they may have been: no where nothing is open, else either."""
        # short and long are the two edges; whatever lies between ends between
        return (False, True) if self.in_repair.lacking else (False,)

    @property
    def lacking(self) -> Lacking | None:
        """The fact that is not given and may move the last day; None where there is none."""
        return self.in_repair.lacking or (Lacking(self.asks, self.asks) if self.asks else None)

    def by_date(self) -> LastDays:
        """The same, where no repair that did not mend what failed keeps it open."""
        return self._replace(in_repair=self.in_repair.by_date())

    def of(
        self,
        starts: date,
        *,
        in_time: bool,
        event: date | None = None,
        longest: bool = False,
        resold: date | None = None,
    ) -> date:
        """The last day of a window that starts on a day.

        Args:
            starts: its first day.
            in_time: whether the unit was registered in time.
            event: the day judged on.
            longest: whether stays in repair are taken to be as long as they may have been.
            resold: the day of the second sale that may cut it short, if any.

        Source: common practice, no source; for days in repair see there.
        """
        length = self.length(starts, in_time=in_time, event=event, longest=longest)
        ends = self.in_repair.lengthened(starts, last_day(starts, length, *self.counting), event, most=longest)
        # a second owner never has more than the first had left
        return min(ends, self._of_second_owner(resold, event, longest=longest)) if resold else ends

    def length(self, starts: date, *, in_time: bool, event: date | None = None, longest: bool = False) -> Period:
        """How long a window lasts that starts on a day, the time that an earlier repair adds to it included."""
        length, adds = length_of(self.window, in_time=in_time), self.window.repair_adds
        # the added time is not looked at for a repair that only the added time would let in: it is added once
        within = self._repaired_within(starts, length, event, longest=longest) if adds else None
        return length.plus(adds) if within and adds else length

    def _repaired_within(self, starts: date, length: Period, event: date | None, *, longest: bool) -> date | None:
        """The first earlier repair while a window of some length was open; None where there is none.

        Source: common practice, no source; for repairs that law rewards, the section that the window cites.
        """
        ends = self.in_repair.lengthened(starts, last_day(starts, length, *self.counting), event, most=longest)
        return next((day for day in self.repaired if starts <= day <= ends), None)

    def if_repaired(self, starts: date, event: date, *, in_time: bool) -> date:
        """The last day if the unit was repaired while it was open, whether or not that is given."""
        mended = self._replace(repaired=(starts,))
        return mended.of(starts, in_time=in_time, event=event, resold=self.soonest_resale)

    def every(self, starts: Sequence[date]) -> list[date]:
        """Every last day there may be for some first days, however what is open turns out."""
        return [
            self.of(day, in_time=in_time, longest=longest, resold=resold)
            for day in starts
            # every fact that is open is tried at both its edges: the verdict is certain only where all of them agree
            for in_time in (False, True)
            for longest in self.stays_may_be_longest
            for resold in self.resales
        ]

    def _of_second_owner(self, resold: date, event: date | None, *, longest: bool = False) -> date:
        then = self.window.owners.then if self.window.owners else None
        if then is None:
            # no period of its own: a second owner goes on with what the first has
            return date.max
        return self.in_repair.lengthened(resold, last_day(resold, then, *self.counting), event, most=longest)

    @property
    def soonest_resale(self) -> date | None:
        """The day of the second sale that cuts it short; the first it may be where that is open."""
        return min((day for day in self.resales if day), default=None)

    def told(self, starts: date, event: date, *, in_time: bool) -> tuple[list[Reason], date, Period]:
        """What moved the last day, and the day and the period by which it is counted."""
        resold = self.soonest_resale
        ends = self.of(starts, in_time=in_time, event=event, resold=resold)
        length, counted_from = self.length(starts, in_time=in_time, event=event), starts
        told: list[Reason] = []
        repaired = self._repaired_within(starts, length_of(self.window, in_time=in_time), event, longest=False)
        if repaired:
            told.append(passes("age", "repair.adds", repaired=repaired, adds_period=self.window.repair_adds))
        then = self.window.owners.then if self.window.owners else None
        if resold and then and starts <= resold <= event and ends == self._of_second_owner(resold, event):
            length, counted_from = then, resold
            told.append(passes("owner", "owner.then", then_period=then, resold=resold))
        was = last_day(counted_from, length, *self.counting)
        told += self.in_repair.told(counted_from, was, event)
        return told, counted_from, length.plus(Period(days=max((ends - was).days, 0)))

    def question_of_resale(self) -> Reason:
        """The question whether there was a second sale that cuts the window short, or when."""
        then = self.window.owners.then if self.window.owners else None
        return unknown("age", self.asks, "owner.then-open", then_period=then, fact_word=self.asks)


def _resales(claim: Claim, window: Window) -> tuple[tuple[date | None, ...], str]:
    second = is_second_owner(claim) if window.owners and window.owners.then else False
    if second is False:
        return (None,), ""
    dates = claim.dates
    if dates.resold and second:
        return (dates.resold,), ""
    # nobody sells a unit again before it was first sold
    sold = max((day for day in (dates.purchased, dates.delivered) if day), default=date.min)
    between = (sold, dates.presented)
    # whether there is a second owner is asked first; only then does the day matter
    return (between, "dates.resold") if second else ((None, *between), "owner.first_owner")


def length_of(window: Window, *, in_time: bool) -> Period:
    """The period of a window, longer where a unit registered in time has more."""
    return window.period.plus(window.registered_adds) if in_time and window.registered_adds else window.period
