"""Earlier repairs that did not mend what failed: told of in time, they keep cover from being over by its date."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import zip_longest
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.repair_time import RepairTime
from claimpack.core.facts.cases import EarlierRepair
from claimpack.core.plans.component_words import is_known, is_same_component
from claimpack.core.plans.plan import Plan
from claimpack.core.values.periods import moved
from claimpack.core.windows.reasons import Reason, passes, unknown

KEPT_OPEN = ("repair.unmended", "repair.unmended-by", "repair.unmended-by-law")
"""What is said of a window that is past its last day, and not over for what a repair did not mend."""


class Unmended(NamedTuple):
    """An earlier repair of what failed that did not mend it, or may not have.

    Args:
        repaired: the day it was completed.
        told: the day it was told that it had not mended it: the day given, else that on which the unit was brought in
            again; the first it may be where that is not given.
        by: the last day to tell.
        again: the day of the repair after it; None where that is the one at hand.
        rule: what says so.
        lacks: the fact, as a key of the claim, without which it is open; empty where nothing is.
        key: the same, with the number of the earlier repair it is of, as in `earlier[1].mended`.
    """

    repaired: date
    told: date
    by: date
    again: date | None
    rule: RepairTime
    lacks: str = ""
    key: str = ""

    @property
    def in_time(self) -> bool:
        """Whether it was told in time, or may have been."""
        return self.told <= self.by


def repairs_told_of(claim: Claim, plan: Plan, rule: RepairTime) -> tuple[Unmended, ...]:
    """The earlier repairs of what failed that did not mend it, or may not have, the first first.

    The day the unit was brought in again counts as the day it was told, where no other is given.

    Source: Cal. Civ. Code 1795.6(b) (notified within 60 days after the repair was completed); that a unit brought in
    again tells of it is a choice of this tool's.
    """
    if rule.unmended_within is None:
        return ()
    before = [
        (number, earlier, is_same_component(claim.component(), earlier.component, plan))
        for number, earlier in enumerate(claim.earlier, start=1)
        if earlier.repaired <= claim.dates.presented
    ]
    of_it = sorted((each for each in before if each[2] is not False), key=lambda each: each[1].repaired)
    found: list[Unmended] = []
    for (number, earlier, same), following in zip_longest(of_it, of_it[1:]):
        if earlier.mended:
            continue
        after = following[1] if following else None
        told = earlier.told or _brought_in_again(claim, earlier, after)
        lacks, key = _lacking(claim, plan, earlier, same), number
        if not lacks and not earlier.told and after and after.presented is None:
            lacks, key = "earlier.presented", following[0]
        numbered = lacks.replace("earlier.", f"earlier[{key}].")
        by, again = moved(earlier.repaired, rule.unmended_within), after.repaired if after else None
        found.append(Unmended(earlier.repaired, told, by, again, rule, lacks, numbered))
    return tuple(found)


def _brought_in_again(claim: Claim, earlier: EarlierRepair, after: EarlierRepair | None) -> date:
    """The day the unit was brought in next; the first it may be where that is not given."""
    return (after.presented or earlier.repaired) if after else claim.dates.presented


def _lacking(claim: Claim, plan: Plan, earlier: EarlierRepair, same: bool | None) -> str:
    # that the same component failed again does not tell that it is the same failure
    if earlier.mended is None and earlier.told is None:
        return "earlier.mended"
    if same is None:
        return "earlier.component" if is_known(claim.component(), plan) else "failure.component"
    return ""


def not_over(repairs: Sequence[Unmended], span: tuple[date, date], event: date | None, *, most: bool) -> date:
    """The last day of a span of cover, later where a repair while it was open did not mend what is judged after it.

    Args:
        repairs: the repairs that may not have mended it, the first first.
        span: the first and the last day without them.
        event: the day judged on.
        most: whether what is open is taken to keep cover open.
    """
    starts, last = span
    if event is None or event <= last:
        return last
    for each in repairs:
        # until it is repaired again it is not over; then it is for that repair to have mended it
        if each.in_time and (most or not each.lacks) and starts <= each.repaired <= last:
            last = max(last, each.again or max(each.by, event))
    return last


def kept_open(repairs: Sequence[Unmended], span: tuple[date, date]) -> Reason:
    """That the last repair told of in time keeps cover open past the last day of its span."""
    (*_, last) = (each for each in repairs if each.in_time and not each.lacks and each.repaired >= span[0])
    within, cites = last.rule.unmended_within, last.rule.cites
    facts = {"repaired": last.repaired, "told": last.told, "by": last.by, "within_period": within, "was": span[1]}
    if not cites:
        return passes("age", "repair.unmended", **facts)
    return passes("age", "repair.unmended-by-law" if last.rule.read_on else "repair.unmended-by", cites=cites, **facts)


def told_late(repairs: Sequence[Unmended], span: tuple[date, date]) -> list[Reason]:
    """That a repair would keep cover open if it had been told of in time: whoever judges may know of an earlier day."""
    late = [each for each in repairs if not each.in_time and span[0] <= each.repaired <= span[1]]
    return [
        passes("age", "repair.unmended-late", repaired=each.repaired, by=each.by, told=each.told) for each in late[-1:]
    ]


def question(repair: Unmended) -> Reason:
    """The question for the fact that would say whether a repair keeps cover open."""
    facts = {"repaired": repair.repaired, "by": repair.by, "fact_word": repair.lacks}
    return unknown("age", repair.lacks, "repair.unmended-open", **facts)
