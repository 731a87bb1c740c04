"""The warranty of a part that was sold over the counter or fitted earlier: its own windows, from its own receipt."""

from __future__ import annotations

from datetime import date

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.window import Window
from claimpack.core.plans.plan import Plan
from claimpack.core.verdict.coverage import Judgement, Verdict
from claimpack.core.windows.applies import exclusions
from claimpack.core.windows.judged import WindowJudgement
from claimpack.core.windows.judged_days import JudgedDay, event_day, known_day
from claimpack.core.windows.limits import age
from claimpack.core.windows.reasons import Reason, fails, passes, settled, unknown


def judge_part_sold(claim: Claim, plan: Plan) -> Judgement:
    """The verdict on a claim about a part sold: the windows for parts alone speak about it.

    Source: common practice, no source; the periods are the plan's.
    """
    event = event_day(claim, plan)
    of_parts = tuple(_judged(claim, plan, window, event) for window in plan.window if window.of_parts)
    # a plan without windows for parts covers none: each of its windows says so
    windows = of_parts or tuple(map(_of_units, plan.window))
    holds = [window for window in windows if window.holds]
    verdict: Verdict = (
        "covered" if holds else "not covered" if all(one.holds is False for one in windows) else "undecided"
    )
    cited = max(holds, key=lambda window: window.ends or date.min, default=None)
    start = _start(claim, "sold")
    return Judgement(
        verdict, cited, cited.starts if cited else start.on, event.on, windows, (start.reason, event.reason)
    )


def _of_units(window: Window) -> WindowJudgement:
    reason = fails("component", "part.of-units")._replace(window=window.id)
    return WindowJudgement(window.id, False, None, None, None, window.name, window.cites, reasons=(reason,))


def _judged(claim: Claim, plan: Plan, window: Window, event: JudgedDay) -> WindowJudgement:
    by_fitting = window.of_parts == "fitted"
    start = _start(claim, "fitted" if by_fitting else "sold")
    never = by_fitting and claim.part_sold.never_fitted
    speaks = [_speaks(claim, by_fitting), *exclusions(claim, plan, despite=window.despite_exclusions)]
    # a part the shop never fitted has no day of fitting, and its window no days
    span = age.Span(None, None, ()) if never else age.by_age(claim, plan, window, start, event)
    own = (start.reason,) if by_fitting and not never else ()
    return WindowJudgement(
        id=window.id,
        name=window.name,
        cites=window.cites,
        applies=settled(speaks),
        inside=settled(span.reasons) if span.reasons else None,
        starts=span.starts,
        ends=span.ends,
        reasons=tuple(reason._replace(window=window.id) for reason in (*speaks, *own, *span.reasons)),
    )


def _speaks(claim: Claim, by_fitting: bool) -> Reason:
    # which component it was for does not matter: what was sold is what the receipt says
    if not by_fitting:
        return passes("component", "part.sold")
    if claim.part_sold.never_fitted:
        return fails("component", "part.never-fitted")
    if claim.part_sold.fitted is None:
        return unknown("component", "part_sold.fitted", "part.fitted-unknown")
    return passes("component", "part.fitted")


def _start(claim: Claim, role: str) -> JudgedDay:
    """The day on the part's receipt, or the day the shop fitted it."""
    key, on = f"part_sold.{role}", getattr(claim.part_sold, role)
    if on:
        return known_day(on, passes("start", "start.from", starts=on, role_word=key))
    # a part that failed had been sold, and fitted
    latest = claim.dates.failed or claim.dates.presented
    earliest = claim.part_sold.sold or date.min
    return JudgedDay(None, unknown("start", key, "start.unknown", roles_word=key), earliest, latest)
