"""One window of a plan judged on one day: does it apply, is it open."""

from __future__ import annotations

from datetime import date

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.window import Window
from claimpack.core.plans.plan import Plan
from claimpack.core.windows import applies, unmended
from claimpack.core.windows.judged import WindowJudgement
from claimpack.core.windows.judged_days import JudgedDay
from claimpack.core.windows.limits import age, hours, meters
from claimpack.core.windows.presumed import presumed
from claimpack.core.windows.reasons import Reason, settled
from claimpack.core.windows.start_of_cover import start_of_cover


def judge_window(claim: Claim, plan: Plan, window: Window, event: JudgedDay) -> WindowJudgement:
    """A window with every reason for and against it.

    Source: common practice, no source; each rule names its own.
    """
    window = _unregistered(window) if claim.is_stock else window
    start = start_of_cover(claim, plan, window.start)
    span = age.by_age(claim, plan, window, start, event)
    speaks = applies.speaks_about(claim, plan, window)
    by_meter, renewal = _by_meters(claim, plan, window, span, event)
    # the event may come before a first day that is not known, and cover not have begun
    may_wait = event.free or (start.may_follow and start.latest > event.earliest)
    opens = meters.until_the_last(window, span.reasons, by_meter, may_wait=may_wait, may_be_over=span.may_be_over)
    opens += [*renewal, *presumed(plan, window, span.starts, event)]
    # a window that stays open until its meter is over too has no last day anybody could write down
    has_last_day = not meters.counts_a_meter(window, by_meter)
    # said already where the age could not be told without it, and one sentence twice reads like two facts
    own = [reason for reason in _own_start(window, plan, start) if reason.says not in [each.says for each in opens]]
    told = (*speaks, *own, *opens)
    judged = WindowJudgement(
        id=window.id,
        name=window.name,
        cites=window.cites,
        applies=settled(speaks),
        inside=settled(opens),
        starts=span.starts,
        ends=span.ends if has_last_day else None,
        hours_limit=hours.hours_limit(claim, plan, window),
        reasons=tuple(reason._replace(window=window.id) for reason in told),
        limits=meters.limits_that_count(claim, window),
        at_least=None if has_last_day else span.ends,
        in_repair=span.in_repair,
        rests_on=span.rests_on if has_last_day else None,
    )
    # a day to write down as the end would be a guess: it is over once what came back is mended
    return judged._replace(ends=None, at_least=None) if judged.is_past_its_last_day else judged


def _by_meters(
    claim: Claim, plan: Plan, window: Window, span: age.Span, event: JudgedDay
) -> tuple[list[Reason], list[Reason]]:
    """What is said of its limits by meter, and of the renewal of a part."""
    by_meter, renewal = meters.by_meters(claim, window), hours.by_schedule(claim, plan, window)
    kept = unmended.as_it_read(claim, span.in_repair.unmended, (span.starts or date.min, event.earliest))
    # a window that is over by its date is over
    if kept is None or settled(span.reasons) is False:
        return by_meter, [renewal] if renewal else []
    repair, then = kept
    each = zip(by_meter, meters.by_meters(then, window), strict=True)
    told = [reason for now, was in each for reason in unmended.past_a_limit(repair, now, was)]
    return told, unmended.past_a_limit(repair, renewal, hours.by_schedule(then, plan, window)) if renewal else []


def _unregistered(window: Window) -> Window:
    """The window for a unit in stock, which cannot be registered yet: it has nothing of it, and lacks nothing by it."""
    return window.model_copy(update={"registered_within": None, "registered_adds": None})


def _own_start(window: Window, plan: Plan, start: JudgedDay) -> tuple[Reason, ...]:
    """The start's reason where the window has a start of its own; the plan's start is told once for all.

    Whether a start that is not known matters is said with the window's age.
    """
    return (start.reason,) if window.start and window.start != plan.start else ()
