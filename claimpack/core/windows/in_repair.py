"""The days a unit was in repair, where they lengthen cover: how many there were, and how many there may have been."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.repair_time import RepairTime
from claimpack.core.clauses.window import Window
from claimpack.core.plans.plan import Plan
from claimpack.core.plans.uses import uses_known
from claimpack.core.values.wording.sentence import days_in_words
from claimpack.core.values.words import is_among, is_said
from claimpack.core.windows.reasons import Reason, passes, unknown
from claimpack.core.windows.unmended import Unmended, not_over, repairs_told_of

Stay = tuple[date, date]
"""The first and the last day a unit was in repair, both in."""

_TO = " \N{EN DASH} "
_LAST = date.max.toordinal()


class Lacking(NamedTuple):
    """What is not given: the fact, as a key of the claim, and the same with the number of the repair it is of."""

    fact: str
    key: str


class InRepair(NamedTuple):
    """The stays that lengthen a window: those that are certain, and as long as they may have been.

    Args:
        certain: the stays as far as their days are given.
        possible: the same, each as long as it may have been; the same where nothing is open.
        since: the day the unit came in for the repair at hand, while it is not said when it was ready.
        asks: the fact, as a key of the claim, that would say more; empty where nothing is open.
        key: the same, with the number of the earlier repair it is of, as in `earlier[1].returned`.
        rule: what says so; None where nothing does, or that is open.
        unmended: the earlier repairs of what failed that may not have mended it, where cover is then not over by date.
    """

    certain: tuple[Stay, ...] = ()
    possible: tuple[Stay, ...] = ()
    since: date | None = None
    asks: str = ""
    key: str = ""
    rule: RepairTime | None = None
    unmended: tuple[Unmended, ...] = ()

    def lengthened(self, starts: date, ends: date, event: date | None = None, *, most: bool = False) -> date:
        """The last day of a window, one day later for each day in repair that fell into it, as lengthened so far.

        Args:
            starts: its first day.
            ends: its last day without any.
            event: the day judged on; the unit was in repair up to it if it had come in before.
            most: whether every stay is taken to be as long as it may have been.

        Source: Cal. Civ. Code 1795.6(a) (tolled from the day delivered for repair, up to and including the day of its
        return); for other cover the plan's own word.
        """
        counted = self._counted(starts, ends, self._stays(event, most=most))
        # by the numbers of days: with a stay that may have begun at any time they add up to more than a date can be
        last = ends.toordinal() + sum(ended - begun + 1 for begun, ended in counted)
        tolled = date.fromordinal(min(last, _LAST))
        return not_over(self.unmended, (starts, tolled), event, most=most)

    def _counted(self, starts: date, ends: date, stays: Sequence[Stay]) -> Iterator[tuple[int, int]]:
        """The first and the last day of each stay that lengthen a window, by their numbers."""
        counted, last = starts.toordinal() - 1, ends.toordinal()
        for begun, ended in stays:
            # a day of two stays counts once
            first = max(begun.toordinal(), counted + 1)
            # stays come in order, so none after this one begins before the window ends either
            if first > last:
                break
            if ended.toordinal() >= first:
                last, counted = last + ended.toordinal() - first + 1, ended.toordinal()
                yield first, counted

    def _stays(self, event: date | None, *, most: bool) -> list[Stay]:
        now = [(self.since, event)] if self.since and event and event > self.since else []
        return sorted([*(self.possible if most else self.certain), *now])

    def told(self, starts: date, was: date, event: date | None) -> list[Reason]:
        """What is said of the days that moved a last day; nothing where none did."""
        counted = self._counted(starts, was, self._stays(event, most=False))
        stays = [(date.fromordinal(begun), date.fromordinal(ended)) for begun, ended in counted]
        if not stays:
            return []
        ends = self.by_date().lengthened(starts, was, event)
        listed = ", ".join(f"{begun}{_TO}{ended}" if begun < ended else str(begun) for begun, ended in stays)
        facts = {"days_period": days_in_words((ends - was).days), "stays": listed, "was": was, "ends": ends}
        cites, read_on = (self.rule.cites, self.rule.read_on) if self.rule else ("", None)
        if not cites:
            return [passes("age", "repair-time.adds", **facts)]
        return [passes("age", "repair-time.by-law" if read_on else "repair-time.adds-by", cites=cites, **facts)]

    def by_date(self) -> InRepair:
        """The same, where no repair that did not mend what failed keeps cover open."""
        return self._replace(unmended=())

    @property
    def open_repair(self) -> Unmended | None:
        """The first repair of which it is open whether it keeps cover open; None where there is none."""
        return next((each for each in self.unmended if each.lacks and each.in_time), None)

    @property
    def lacking(self) -> Lacking | None:
        """What is not given of them; None where nothing is open."""
        if self.asks:
            return Lacking(self.asks, self.key or self.asks)
        return Lacking(self.open_repair.lacks, self.open_repair.key) if self.open_repair else None

    def question(self) -> Reason:
        """The question for the fact that would say how many days there were."""
        return unknown("age", self.asks, "repair-time.open", fact_word=self.asks)


NONE = InRepair()
"""No day in repair lengthens the window."""


def in_repair(claim: Claim, plan: Plan, window: Window | None = None) -> InRepair:
    """The days in repair that lengthen a window; of one that replaced parts get, where none is named.

    Source: the plan's own word, or that of the law it takes in.
    """
    # a window's own rules first: the one that is told is the one that stands nearer
    rules = (*(window.repair_time_extends if window else ()), *plan.repair_time_extends)
    if not rules:
        return NONE
    answers = [(rule, _is_for(claim, plan, rule)) for rule in rules]
    found = _stays(claim)._replace(unmended=_unmended(claim, plan, answers) if window else ())
    for rule, (is_for, _) in answers:
        if is_for:
            return found._replace(rule=rule)
    open_facts = [fact for _, (is_for, fact) in answers if is_for is None]
    if not open_facts:
        return NONE
    # while it is open whether days count at all, nothing is certain, and the stay at hand may last
    now = [(found.since, date.max)] if found.since else []
    return InRepair((), (*found.possible, *now), asks=open_facts[0], unmended=found.unmended)


def _unmended(
    claim: Claim, plan: Plan, answers: Sequence[tuple[RepairTime, tuple[bool | None, str]]]
) -> tuple[Unmended, ...]:
    found = [
        each if is_for else each._replace(lacks=each.lacks or asks, key=each.key or asks)
        for rule, (is_for, asks) in answers
        if is_for is not False
        for each in repairs_told_of(claim, plan, rule)
    ]
    # a maker's shorter time to tell takes nothing from the longer one that law gives
    return tuple(sorted(found, key=lambda each: (each.repaired, each.by)))


def _is_for(claim: Claim, plan: Plan, rule: RepairTime) -> tuple[bool | None, str]:
    """Whether a rule is for the unit; None with the fact that would say so."""
    place, use = claim.unit.sold_in, claim.unit.use
    # a fact that rules it out is looked for before one that is asked: nothing is asked in vain
    if rule.sold_in is not None and place and not is_among(place, rule.sold_in):
        return False, ""
    if rule.uses is not None and use and not is_said(use, rule.uses) and is_said(use, uses_known([plan])):
        return False, ""
    if rule.sold_in is not None and not place:
        return None, "unit.sold_in"
    if rule.uses is not None and not (use and is_said(use, rule.uses)):
        return None, "unit.use"
    return True, ""


def _stays(claim: Claim) -> InRepair:
    certain: list[Stay] = []
    possible: list[Stay] = []
    asks: list[Lacking] = []
    for number, earlier in enumerate(claim.earlier, start=1):
        begun, ended = earlier.presented, earlier.returned
        # of a stay without days the day of the repair is certain: the unit was there
        certain.append((begun or earlier.repaired, ended or earlier.repaired))
        # it came in no one knows when, and was ready at the latest when it came in again
        possible.append((begun or date.min, ended or max(earlier.repaired, claim.dates.presented)))
        asks += [
            Lacking(f"earlier.{role}", f"earlier[{number}].{role}")
            for role, day in (("presented", begun), ("returned", ended))
            if day is None
        ]
    dates = claim.dates
    first = asks[0] if asks else Lacking("", "")
    if dates.returned is None:
        return InRepair(tuple(certain), tuple(possible), dates.presented, *first)
    now = (dates.presented, dates.returned)
    return InRepair((*certain, now), (*possible, now), None, *first)
