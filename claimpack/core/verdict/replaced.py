"""The window of a part that was put in under warranty before."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.facts.cases import EarlierRepair
from claimpack.core.plans.component_words import is_known, is_same_component, names_one_of
from claimpack.core.plans.plan import Plan
from claimpack.core.values.periods import last_day
from claimpack.core.values.words import folded
from claimpack.core.verdict.window_judging import judge_window
from claimpack.core.windows import applies
from claimpack.core.windows.in_repair import InRepair, Lacking, in_repair
from claimpack.core.windows.judged import WindowJudgement
from claimpack.core.windows.judged_days import JudgedDay, known_day
from claimpack.core.windows.limits.age import within
from claimpack.core.windows.limits.meters import is_past_an_end
from claimpack.core.windows.reasons import Reason, fails, passes, settled, unknown

WINDOW_ID = "replaced"
NAME = "replaced-part warranty"

_GO_ALONG = ("hours", "meter", "schedule", "registration")


class Renewed(NamedTuple):
    """The window of a replaced part, or none and why there is none."""

    window: WindowJudgement | None = None
    reasons: tuple[Reason, ...] = ()


class _Spell(NamedTuple):
    """How long the replaced part is covered: its own period, and what was left of the window it was put in under.

    `was` is where its own period ends without the days in repair.
    """

    earlier: EarlierRepair
    questions: tuple[Reason, ...]
    was: date | None
    event: date | None
    in_repair: InRepair
    first: WindowJudgement | None = None

    def _own(self, *, most: bool = False) -> date | None:
        return self.was and self.in_repair.lengthened(self.earlier.repaired, self.was, self.event, most=most)

    @property
    def own_end(self) -> date | None:
        return self._own()

    @property
    def ends(self) -> date | None:
        return self.first.ends if self.first else self.own_end

    @property
    def at_most(self) -> date | None:
        """The last day it may have, where the days in repair are not all given."""
        longest = self._own(most=True)
        return max(longest, self.ends) if longest and self.ends else self.ends


def judge_replaced(claim: Claim, plan: Plan, judged: Sequence[WindowJudgement], event: JudgedDay) -> Renewed:
    """The window of a replaced part, where the plan has one and the part was put in while cover was open.

    It starts at the latest earlier repair of the component on a day when a window of the plan was open, or the one of
    the part replaced before. It ends after its own period; if the plan keeps what remained, no sooner than the window
    the part was first put in under. The conditions of that window (hours, renewal, registration) go along where the
    part lives on its remaining time, and not within its own period.

    Source: 13 CCR 2405(c)(1) (the remaining time); a period of its own is the plan's.
    """
    put_in: list[tuple[EarlierRepair, WindowJudgement, date]] = []
    stays = in_repair(claim, plan)
    out_of_cover: list[Reason] = []
    # oldest first: a part put in under the window of the one before it lives on that one's time
    for earlier in sorted(_of_the_component(claim, plan, event), key=lambda repair: repair.repaired):
        before = [
            (window, at_most)
            for repair, window, at_most in put_in
            if names_one_of(repair.component, [earlier.component], plan)
        ]
        questions = _open_then(claim, plan, earlier, (judged, before, event))
        if questions is None:
            facts = {"component": earlier.component, "repaired": earlier.repaired}
            out_of_cover = [fails("replaced", "replaced.nothing", **facts)]
            continue
        questions += _same_part(claim, plan, earlier)
        own = _Spell(earlier, tuple(questions), _own_end(plan, earlier), event.on, stays)
        spell = _with_what_was_left(plan, own, judged, event)
        if spell.ends is None and any(window.at_least or window.is_past_its_last_day for window in judged):
            # What was left of a window without a last day is that window itself, which is judged beside this.
            continue
        # all spells are kept and not the last alone: the part before it may still be the one that is open
        put_in.append((earlier, _laid(claim, plan, spell, event), spell.at_most or date.min))
    if not put_in:
        return Renewed(reasons=tuple(out_of_cover))
    # an open window before one that waits, that before a closed one; of equals `max` keeps the first, which is the
    # latest
    latest_first = [window for _, window, _ in reversed(put_in)]
    return Renewed(max(latest_first, key=lambda window: (window.holds is True, window.holds is None)))


def _of_the_component(claim: Claim, plan: Plan, event: JudgedDay) -> list[EarlierRepair]:
    """The repairs not after the event of what failed, and of what may be the same by a word the plan does not know."""
    if plan.replaced is None:
        return []
    # Without a period of its own a part is covered where the window it was put in under is: nothing more to ask about.
    told = (True, None) if plan.replaced.period else (True,)
    before = [earlier for earlier in claim.earlier if earlier.repaired <= event.latest]
    return [earlier for earlier in before if is_same_component(claim.component(), earlier.component, plan) in told]


def _same_part(claim: Claim, plan: Plan, earlier: EarlierRepair) -> list[Reason]:
    """The question whether an earlier repair was of the component that failed, where their words do not tell."""
    word, facts = claim.component(), {"earlier": earlier.component, "repaired": earlier.repaired}
    if is_same_component(word, earlier.component, plan):
        return []
    if not word:
        return [unknown("replaced", "failure.component", "replaced.component-unknown", **facts)]
    asks = "earlier.component" if is_known(word, plan) else "failure.component"
    return [unknown("replaced", asks, "replaced.other-word", component=word, **facts)]


def _open_then(
    claim: Claim,
    plan: Plan,
    earlier: EarlierRepair,
    so_far: tuple[Sequence[WindowJudgement], Sequence[tuple[WindowJudgement, date]], JudgedDay],
) -> list[Reason] | None:
    """What is open of whether cover was open on the day of an earlier repair: nothing if it was, None if it was not."""
    judged, before, event = so_far
    day = known_day(earlier.repaired, event.reason, free=True)
    then = [judge_window(_as_it_was(claim, plan, earlier), plan, window, day) for window in plan.window]
    # the meter read less on an earlier day: what today's reading closes may have been open then
    then = [_unread(window, earlier) for window in then]
    own = [window for window, _ in before if window.ends and earlier.repaired <= window.ends]
    may_be_open = any(window.ends and window.ends < earlier.repaired <= at_most for window, at_most in before)
    # the part before counts only if it was itself put in without a doubt: a doubt is not handed down as a fact
    if any(window.holds for window in then) or any(window.applies and _was_certain(window) for window in own):
        return []
    # Without a period of its own the part lives on what was left, and a window that is closed now has left nothing.
    has_own = _own_end(plan, earlier) is not None
    matter = [was for was, now in zip(then, judged, strict=True) if has_own or now.holds is not False]
    waiting = [reason for window in matter if window.holds is None for reason in window.reasons if reason.asks]
    waiting += [in_repair(claim, plan).question()] if may_be_open else []
    waiting += [reason for window in own for reason in window.reasons if reason.rule == "replaced"]
    asked = dict.fromkeys(reason.asks for reason in waiting if reason.outcome == "unknown")
    facts = {"component": earlier.component, "repaired": earlier.repaired}
    questions = [unknown("replaced", asks, "replaced.unknown", fact_word=asks, **facts) for asks in asked]
    return questions or None


def _was_certain(window: WindowJudgement) -> bool:
    return not any(reason.rule == "replaced" and reason.outcome == "unknown" for reason in window.reasons)


def _as_it_was(claim: Claim, plan: Plan, earlier: EarlierRepair) -> Claim:
    """The claim with the meter as it stood at an earlier repair, and what failed then, by a defect nobody names."""
    unit = claim.unit
    hours = unit.hours_run if earlier.hours is None else earlier.hours
    read = {folded(meter.kind): meter for meter in (*unit.other_meters, *earlier.meters)}
    meters = tuple(read.values())
    as_read = unit.model_copy(update={"hours": hours, "meter": unit.has_hour_meter, "meters": meters})
    component = claim.component() if is_known(claim.component(), plan) else earlier.component
    # why it failed then is not why it fails now, so today's defect must not exclude yesterday's repair
    failure = claim.failure.model_copy(update={"component": component, "defect": None})
    return claim.model_copy(update={"unit": as_read, "failure": failure})


def _unread(window: WindowJudgement, earlier: EarlierRepair) -> WindowJudgement:
    """A window judged by today's readings, where those of an earlier day are asked for: they were no higher."""
    asks = {} if earlier.hours is not None else {"hours": "earlier.hours", "schedule": "earlier.hours"}
    asks |= {} if earlier.meters else {"meter": "earlier.meters"}
    reasons = tuple(
        reason._replace(outcome="unknown", asks=asks[reason.rule])
        if reason.rule in asks and reason.outcome == "fail"
        else reason
        for reason in window.reasons
    )
    if reasons == window.reasons:
        return window
    opens = [reason for reason in reasons if reason.rule in ("age", "start", *_GO_ALONG)]
    # One that closes with the last of several ends is not closed by its age while a reading is open.
    opens = [reason for reason in opens if not (window.at_least and is_past_an_end(reason))]
    return window._replace(reasons=reasons, inside=settled(opens))


def _own_end(plan: Plan, earlier: EarlierRepair) -> date | None:
    if plan.replaced is None or plan.replaced.period is None:
        return None
    return last_day(earlier.repaired, plan.replaced.period, plan.last_day, plan.month_end)


def _with_what_was_left(plan: Plan, spell: _Spell, judged: Sequence[WindowJudgement], event: JudgedDay) -> _Spell:
    """The part's own period, or the remaining time where that ends later and its conditions do not cut it short."""
    first = _put_in_under(plan, judged, spell.earlier.repaired)
    if first and first.ends and spell.own_end:
        within_own = event.latest <= spell.own_end
        # inside its own period a part needs none of the first window's conditions: they would only take from it
        if first.ends <= spell.own_end or (within_own and not settled(_conditions(first))):
            first = None
    return spell._replace(first=first)


def _put_in_under(plan: Plan, judged: Sequence[WindowJudgement], repaired: date) -> WindowJudgement | None:
    if plan.replaced is None or not plan.replaced.keeps_remaining:
        return None
    open_then = [
        window
        for window in judged
        if window.applies and window.starts and window.ends and window.starts <= repaired <= window.ends
    ]
    return max(open_then, key=lambda window: window.ends or date.min, default=None)


def _conditions(first: WindowJudgement) -> list[Reason]:
    return [reason for reason in first.reasons if reason.rule in _GO_ALONG]


def _laid(claim: Claim, plan: Plan, spell: _Spell, event: JudgedDay) -> WindowJudgement:
    speaks = [passes("component", "replaced.from", component=spell.earlier.component, repaired=spell.earlier.repaired)]
    # what the plan never covers is not covered for having been replaced once
    speaks += applies.exclusions(claim, plan, despite=False)
    opens = [*spell.questions, *_opens(plan, spell, event)]
    return WindowJudgement(
        id=WINDOW_ID,
        name=NAME,
        cites=plan.replaced.cites if plan.replaced else "",
        applies=settled(speaks),
        inside=settled(opens),
        starts=spell.earlier.repaired,
        ends=spell.ends,
        hours_limit=_hours_limit(spell),
        rests_on=_rests_on(spell),
        reasons=tuple(reason._replace(window=WINDOW_ID) for reason in (*speaks, *opens)),
    )


def _rests_on(spell: _Spell) -> Lacking | None:
    if spell.at_most != spell.ends:
        return spell.in_repair.lacking
    return spell.first.rests_on if spell.first else None


def _hours_limit(spell: _Spell) -> Decimal | None:
    return spell.first.hours_limit if spell.first else None


def _opens(plan: Plan, spell: _Spell, event: JudgedDay) -> list[Reason]:
    said: list[Reason] = []
    own, repaired = plan.replaced.period if plan.replaced else None, spell.earlier.repaired
    if spell.was:
        said.append(passes("replaced", "replaced.own", length_period=own, ends=spell.was))
        said += [] if spell.first else spell.in_repair.told(repaired, spell.was, event.on)
    if spell.first:
        key = "replaced.remaining-at-least" if spell.first.rests_on else "replaced.remaining"
        said.append(passes("replaced", key, window=spell.first.title, ends=spell.first.ends))
        said += _conditions(spell.first)
    if spell.ends is None:
        return said if spell.questions else [*said, fails("replaced", "replaced.nothing", repaired=repaired)]
    if spell.at_most and spell.ends < event.earliest <= spell.at_most:
        return [*said, spell.in_repair.question()]
    # the edges of when it failed, and the repair where it lies between them: if these agree, every day between does
    days = {event.earliest, event.latest, max(event.earliest, repaired)}
    ages = [within(day, repaired, spell.ends) for day in sorted(days)]
    if len({age.outcome for age in ages}) > 1:
        return [*said, unknown("age", event.reason.asks, "span.unknown")]
    lacking = _rests_on(spell)
    if lacking and event.on and ages[0].outcome == "pass":
        facts = {"event": event.on, "starts": repaired, "ends": spell.ends}
        return [*said, passes("age", "age.inside-at-least", **facts, fact_word=lacking.fact, named=lacking.key)]
    return [*said, ages[0]]
