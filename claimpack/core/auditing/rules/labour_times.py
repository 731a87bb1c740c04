"""Audit rules about when work was done, and under which name."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from claimpack.core.auditing.audited import AuditedClaim, GroupKey, Irregularity, Measures, listed
from claimpack.core.auditing.chance import at_least, stand_out
from claimpack.core.auditing.rule import OURS, PRACTICE, AcrossRule, OneClaimRule
from claimpack.core.clauses.operations import Operation
from claimpack.core.facts.lines import Labour
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.labour import clocked
from claimpack.core.values.wording.sentence import say
from claimpack.core.values.words import word_set

# fewer claims of one technician are too few for any figure to stand out
_LEAST_ALIKE = 8
_SURER = 5
"""A test for each operation is asked apart: each takes a smaller share of false ones."""


def work_when_shut(audited: AuditedClaim, measures: Measures) -> Iterator[Irregularity]:
    """Work clocked on a day or at an hour when the shop is shut, by its own opening hours and holidays.

    Source: common practice, no source; the hours are the shop's.
    """
    for entry in _clocked(audited):
        # a clock that still runs is asked about by when it began
        started, ended = entry.started, entry.ended or entry.started
        if started and ended and (why := audited.house.why_shut(started, ended, measures.around_opening)):
            # a clock that ran into another day names it
            until = f"{ended:%H:%M}" if ended.date() == started.date() else f"{ended:%Y-%m-%d %H:%M}"
            when = {"started": f"{started:%Y-%m-%d %H:%M}", "ended": until}
            key = "work-when-shut" if entry.ended else "work-when-shut.still-on"
            said = say(key, who=_who(entry), why=why, **when)
            yield audited.irregular(said, {"operation": entry.operation}, "look")


def work_outside_visit(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """Work clocked before the unit came in, or after the day the repair was done.

    Source: common practice, no source.
    """
    dates = audited.claim.dates
    for entry in _clocked(audited):
        started = entry.started.date() if entry.started else None
        said = None
        if started and started < dates.presented:
            said = say("work-outside-visit.before", who=_who(entry), worked_on=started, day=dates.presented)
        # whole days: a repair is dated and not timed
        elif started and dates.repaired and started > dates.repaired:
            said = say("work-outside-visit.after", who=_who(entry), worked_on=started, day=dates.repaired)
        if said:
            yield audited.irregular(said, {"operation": entry.operation}, "serious")


def _clocked(audited: AuditedClaim) -> list[Labour]:
    return [] if audited.is_withdrawn else [entry for entry in audited.claim.labour if entry.started]


def _who(entry: Labour) -> str:
    return entry.worker or "Somebody"


class TimeTaken(NamedTuple):
    """How long one technician took for an operation on one line of a claim, in minutes."""

    technician: str
    hand: GroupKey
    minutes: int
    claim: str
    operation: str


_UNKNOWN_WORK = "work that is in no schedule"


def figures(audited: AuditedClaim) -> Iterator[tuple[GroupKey, TimeTaken]]:
    """The minutes written down for work, by operation; hours that are the schedule's own are not a measurement."""
    if audited.is_withdrawn or audited.plan is None:
        return
    for entry in audited.claim.labour:
        worked, operation = clocked(entry), audited.plan.scheduled_operation(entry.operation)
        # the schedule's hours are written down by everybody, and rightly
        if worked is None or not entry.worker or (operation and operation.hours == worked):
            continue
        name = operation.code if operation else _UNKNOWN_WORK
        hand = audited.hand(entry.worker)
        yield (audited.plan.id, name), TimeTaken(entry.worker, hand, round(worked * 60), audited.number, name)


def same_figure_every_time(seen: Sequence[TimeTaken], measures: Measures) -> Iterator[Irregularity]:
    """One technician's time for one operation, the same to the minute far more often than it comes about by itself.

    A clock that is read in quarter hours, tenths or fives gives few figures, and one that others have too is the job's.

    Source: a rule of this tool's, no source; the exact binomial test, with Benjamini and Hochberg's correction.
    """
    by_hand: dict[GroupKey, list[TimeTaken]] = {}
    for each in seen:
        by_hand.setdefault(each.hand, []).append(each)
    # one question for each technician, the likeliest figure: asking about every figure would find one by chance
    asked = [(_oftenest(own), own) for own in by_hand.values() if len(own) >= _LEAST_ALIKE]
    every = Counter(each.minutes for each in seen)
    chances = [at_least(hits, len(own), _usual(minutes, own, every)) for (minutes, hits), own in asked]
    for ((minutes, hits), own), told in zip(asked, stand_out(chances, measures.false_share / _SURER), strict=True):
        if told and hits >= _LEAST_ALIKE:
            claims = tuple(sorted({each.claim for each in own if each.minutes == minutes}))
            said = say(
                "same-figure-every-time",
                who=own[0].technician,
                minutes=minutes,
                hits=hits,
                count=len(own),
                operation=own[0].operation,
            )
            evidence = {"minutes": str(minutes), "claims": listed(claims)}
            yield Irregularity((said,), claims, "look", evidence)


def _oftenest(own: Sequence[TimeTaken]) -> tuple[int, int]:
    return Counter(each.minutes for each in own).most_common(1)[0]


def _usual(minutes: int, own: Sequence[TimeTaken], every: Counter[int]) -> float:
    """How likely a figure is: as often as the others' times are rounded to it by the steps this technician reads in."""
    others = every - Counter(each.minutes for each in own)
    # without the figure itself, which would fit every step it is a multiple of
    rest = [each.minutes for each in own if each.minutes != minutes]
    step = next((step for step in _STEPS if rest and all(each % step == 0 for each in (*rest, minutes))), 1)
    near = sum(often for each, often in others.items() if 2 * abs(each - minutes) <= step)
    # one more and two more: a figure nobody else had yet is rare and not impossible
    return max((near + 1) / (others.total() + 2) if others else 0.0, _LEAST_USUAL[step])


_STEPS = (15, 10, 6, 5)
_LEAST_USUAL = {15: 0.5, 10: 0.4, 6: 0.3, 5: 0.25, 1: 0.12}
"""How often a figure comes by itself at least, by the minutes in which a clock is read."""


def included_by_another_name(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """Work in words of the shop's own that a claimed operation of the schedule is, or includes.

    Source: common practice, no source; what an operation includes is the plan's.
    """
    plan = audited.plan
    if plan is None or audited.is_withdrawn:
        return
    worked = [entry for entry in audited.claim.labour if entry.payer == "maker"]
    for entry in worked:
        if plan.scheduled_operation(entry.operation):
            continue
        # the first is enough: being paid twice is one fault, however many operations hold the work
        found = next((each for each in _paid_for(worked, plan) if _is_said_by(entry.operation, each)), None)
        if found:
            said = say("included-by-another-name", words=repr(entry.operation), operation=found.name or found.code)
            yield audited.irregular(said, {"operation": found.code}, "look")


def _paid_for(worked: Sequence[Labour], plan: Plan) -> list[Operation]:
    """The operations of the schedule that are claimed, and those that they include; the included ones first."""
    own = [operation for entry in worked if (operation := plan.scheduled_operation(entry.operation))]
    included = {code for operation in own for code in plan.included_in(operation.code)}
    return [*(operation for operation in plan.operation if operation.code in included), *own]


_SAY_NOTHING = {
    "and", "off", "out", "the", "new", "again", "for", "with", "under", "once", "more", "work", "all", "well", "second",
    "remove", "removed", "replace", "replaced", "refit", "refitted", "fit", "fitted", "take", "taken", "open", "opened",
    "close", "closed", "test", "tested", "check", "checked", "find", "finding", "change", "changed", "overhaul", "set",
    "run", "fill", "clean", "cleaned", "inspect", "adjust", "adjusted", "assembly", "half", "unit", "machine", "engine",
    "load", "working", "time", "an", "to", "of", "on", "in", "a", "at",
}  # fmt: skip
"""Words that name no component; an engine is in most of them."""

_STEM = 4


def _stems(phrase: str) -> set[str]:
    return {word[:_STEM] for word in word_set(phrase) if word not in _SAY_NOTHING and not word.isdigit()}


def _is_said_by(words: str, operation: Operation) -> bool:
    """Whether words say half of the things that an operation's name does."""
    wanted, said = _stems(operation.name or operation.code.replace("-", " ")), _stems(words)
    # half, since people name the main thing and leave out the rest
    return bool(wanted) and 2 * len(wanted & said) >= len(wanted)


LABOUR_TIME_RULES = (
    OneClaimRule("work-when-shut", "Work is clocked when the shop is shut.", PRACTICE, work_when_shut),
    OneClaimRule(
        "work-outside-visit",
        "Work is clocked before the unit came in, or after the repair was done.",
        PRACTICE,
        work_outside_visit,
    ),
    AcrossRule(
        "same-figure-every-time",
        f"A technician takes the same minutes for an operation nearly every time, {_LEAST_ALIKE} times or more.",
        OURS,
        figures,
        same_figure_every_time,
    ),
    OneClaimRule(
        "included-by-another-name",
        "Work is claimed in words beside an operation that holds it.",
        PRACTICE,
        included_by_another_name,
    ),
)
"""The rules about when work was done, and under which name."""
