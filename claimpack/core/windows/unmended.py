"""Earlier repairs that did not mend what failed: told of in time, they keep cover from being over by its date."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.repair_time import RepairTime
from claimpack.core.facts.cases import EarlierRepair
from claimpack.core.plans.component_words import is_known, is_same_component
from claimpack.core.plans.plan import Plan
from claimpack.core.values.periods import Period, moved
from claimpack.core.windows.reasons import Reason, passes, unknown

KEPT_OPEN = ("repair.unmended", "repair.unmended-by", "repair.unmended-by-law")
"""What is said of a window that is past its last day, and not over for what a repair did not mend."""

_Numbered = tuple[int, EarlierRepair, bool | None]
"""An earlier repair with its number, and whether it was of what failed; None where that is open."""


class Unmended(NamedTuple):
    """An earlier repair of what failed that did not mend it, or may not have.

    Args:
        earlier: the repair.
        told: the day it was told that it had not mended it: the day given, or that on which the unit was brought in
            again if that was before; the first it may be where neither is given.
        by: the last day to tell.
        again: the day of the repair after it; None where that is the one at hand.
        rule: what says so.
        lacks: the fact, as a key of the claim, without which it is open; empty where nothing is.
        key: the same, with the number of the earlier repair it is of, as in `earlier[1].mended`.
    """

    earlier: EarlierRepair
    told: date
    by: date
    again: date | None
    rule: RepairTime
    lacks: str = ""
    key: str = ""

    @property
    def repaired(self) -> date:
        """The day it was completed."""
        return self.earlier.repaired

    @property
    def in_time(self) -> bool:
        """Whether it was told in time, or may have been."""
        return self.told <= self.by


def repairs_told_of(claim: Claim, plan: Plan, rule: RepairTime) -> tuple[Unmended, ...]:
    """The earlier repairs of what failed that did not mend it, or may not have, the first first.

    The day the unit was brought in again counts as the day it was told, where no earlier one is given.

    Source: Cal. Civ. Code 1795.6(b) (notified within 60 days after the repair was completed); that a unit brought in
    again tells of it is a choice of this tool's.
    """
    if rule.unmended_within is None:
        return ()
    before: list[_Numbered] = [
        (number, earlier, is_same_component(claim.component(), earlier.component, plan))
        for number, earlier in enumerate(claim.earlier, start=1)
        if earlier.repaired <= claim.dates.presented
    ]
    of_it = sorted((each for each in before if each[2] is not False), key=lambda each: each[1].repaired)
    return tuple(
        each
        for place, (_, earlier, _) in enumerate(of_it)
        if not earlier.mended
        for each in _kept_open_by(claim, plan, rule, of_it[place:])
    )


def _kept_open_by(claim: Claim, plan: Plan, rule: RepairTime, repairs: Sequence[_Numbered]) -> Iterator[Unmended]:
    """What the first of some repairs does, once for each that may be the next of what failed."""
    (number, earlier, same), *rest = repairs
    by = moved(earlier.repaired, rule.unmended_within or Period())
    lacks, in_time = _lacking(claim, plan, earlier, same), bool(earlier.told and earlier.told <= by)
    for following in (*rest, None):
        after = following[1] if following else None
        brought_in = after.presented if after else claim.dates.presented
        days = (earlier.told, brought_in or (None if in_time else earlier.repaired))
        told = min(day for day in days if day)
        if not lacks and following and not in_time:
            number, lacks = following[0], _lacks_of_next(claim, plan, following)
        numbered = lacks.replace("earlier.", f"earlier[{number}].")
        yield Unmended(earlier, told, by, after.repaired if after else None, rule, lacks, numbered)
        if following is None or following[2]:
            return
        if not lacks:
            number, lacks = following[0], _which_component(claim, plan)


def _lacking(claim: Claim, plan: Plan, earlier: EarlierRepair, same: bool | None) -> str:
    if same is None:
        return _which_component(claim, plan)
    # that the same component failed again does not tell that it is the same failure
    return "earlier.mended" if earlier.mended is None and earlier.told is None else ""


def _lacks_of_next(claim: Claim, plan: Plan, following: _Numbered) -> str:
    """What is open of the day of the next repair, on which that of the one before was told at the latest."""
    _, after, same = following
    return _which_component(claim, plan) if same is None else "earlier.presented" if after.presented is None else ""


def _which_component(claim: Claim, plan: Plan) -> str:
    return "earlier.component" if is_known(claim.component(), plan) else "failure.component"


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


def kept_open(repairs: Sequence[Unmended], was: date, event: date) -> Reason:
    """That the last repair up to the event that was told of in time keeps cover open past the last day it had."""
    (*_, last) = (each for each in repairs if each.in_time and not each.lacks and each.repaired <= event)
    within, cites = last.rule.unmended_within, last.rule.cites
    facts = {"repaired": last.repaired, "told": last.told, "by": last.by, "within_period": within, "was": was}
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


def as_it_read(claim: Claim, repairs: Sequence[Unmended], span: tuple[date, date]) -> tuple[Unmended, Claim] | None:
    """The repair told of in time after which it was not repaired again, and the claim with what was read at it.

    None where there is none.

    Args:
        claim: the claim.
        repairs: the repairs that may not have mended it, the first first.
        span: the first day of cover and the day judged on, the earliest each may be.
    """
    starts, event = span
    last = next((each for each in reversed(repairs) if each.in_time and starts <= each.repaired), None)
    if last is None or (last.again and last.again < event):
        return None
    read = {"hours": last.earlier.hours, "meters": last.earlier.meters, "meter": claim.unit.has_hour_meter}
    return last, claim.model_copy(update={"unit": claim.unit.model_copy(update=read)})


def past_a_limit(repair: Unmended, now: Reason, then: Reason | None) -> list[Reason]:
    """What is said of a limit by meter: it closes nothing for sure that was not past it at a repair that keeps it open.

    Source: Cal. Civ. Code 1795.6(b) keeps a period from being over; whether that goes for its limits by meter too is
    for no program to say.
    """
    if now.outcome != "fail" or (then and then.outcome == "fail"):
        return [now]
    asks = repair.lacks or "unmended_within"
    facts = {"repaired": repair.repaired, "fact_word": asks}
    return [now._replace(outcome="unknown", asks=asks), unknown(now.rule, asks, "repair.unmended-limit", **facts)]
