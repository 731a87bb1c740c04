"""How long failed parts are kept for the maker: the one rule, whoever tells it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING, Literal, NamedTuple

from claimpack.core.facts.record import Record
from claimpack.core.values.periods import Period, moved, period

if TYPE_CHECKING:
    from claimpack.core.plans.plan import Plan

Start = Literal["", "filed", "repaired", "paid"]


class Starts(NamedTuple):
    """The days a hold may be counted from; None where the claim has not come so far."""

    filed: date | None = None
    paid: date | None = None
    repaired: date | None = None


class HoldRule(Record):
    """A plan's hold: an ISO 8601 period and what it is counted from; both empty where only the maker lets a part go."""

    period: str = ""
    of: Start = ""

    def until(self, starts: Starts) -> date | None:
        """The last day a part must be kept; None where there is no hold, or its first day is not known.

        Source: common practice, no source; the day of the event is left out, the last day counts.
        """
        start = getattr(starts, self.of) if self.of else None
        return moved(start, self.length) if start else None

    @property
    def length(self) -> Period:
        """The period, read; an empty one where there is no hold."""
        return _read(self.period) if self.period else Period()

    @property
    def terms(self) -> str:
        """The rule in words."""
        if not self.of:
            return "until the maker releases it"
        return f"{self.length.in_words()} from the day it is {self.of}, or until the maker releases it"

    @property
    def in_short(self) -> str:
        """The same in fewer words, for tags without room for more."""
        if not self.of:
            return "until released"
        return f"{self.length.in_words()} from {_EVENTS[self.of]}"


class ClaimsHold(NamedTuple):
    """The hold of one claim: the rule its failed parts are kept by, and the days it may be counted from."""

    rule: HoldRule = HoldRule.model_construct()
    starts: Starts = Starts()

    @property
    def until(self) -> date | None:
        """The last day its parts must be kept; None where it is not known."""
        return self.rule.until(self.starts)


_EVENTS = {"filed": "filing", "paid": "payment", "repaired": "repair"}

_read = lru_cache(maxsize=100)(period)


def hold_of(plan: Plan | None) -> HoldRule:
    """The hold of a plan, as it reads."""
    return HoldRule(period=str(plan.hold.for_), of=plan.hold.of) if plan and plan.hold else HoldRule()


def hold_in_force(judged_under: str, as_it_read: HoldRule, plans: Mapping[str, Plan]) -> HoldRule:
    """The hold of a claim in the book: that of the plan it was last judged under, as the plan reads today.

    A plan that was put right counts at once, on tags and in lists alike.

    Args:
        judged_under: the id of that plan; empty where none was found.
        as_it_read: its hold when the claim was last changed, which counts where the plan is no longer within reach.
        plans: the plans within reach, by id.

    Source: common practice, no source; how long a part is held is the plan's.
    """
    return hold_of(plans[judged_under]) if judged_under in plans else as_it_read
