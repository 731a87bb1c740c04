"""The verdict: every window of a plan judged, each with all its reasons."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import Literal, NamedTuple

from claimpack.core import applies, limits, replaced
from claimpack.core.claim import Claim
from claimpack.core.plan import Plan, Window
from claimpack.core.reasons import Reason, settled
from claimpack.core.span import Day, event_day, start_of_cover
from claimpack.core.windows import WindowJudgement

Verdict = Literal["covered", "not covered", "undecided"]


class Judgement(NamedTuple):
    """The verdict on a claim under one plan; window, starts and ends are those of the window cited."""

    verdict: Verdict
    window: WindowJudgement | None = None
    starts: date | None = None
    event: date | None = None
    windows: tuple[WindowJudgement, ...] = ()
    reasons: tuple[Reason, ...] = ()

    @property
    def days_left(self) -> int | None:
        """Days from the day judged on to the last day of the window cited."""
        if self.window is None or self.window.ends is None or self.event is None:
            return None
        return (self.window.ends - self.event).days


def judge(claim: Claim, plan: Plan) -> Judgement:
    """The verdict on a claim: covered if any window holds, not covered if every window is closed, else undecided.

    The window cited is, of those that hold, the one that ends last; of several, one without an hour limit or with the
    highest. All windows are reported, in the plan's order.

    Source: common practice, no source; each rule names its own.
    """
    event = event_day(claim, plan)
    start = start_of_cover(claim, plan, plan.start)
    judged = tuple(_judged(claim, plan, window, event.on) for window in plan.window)
    renewed = replaced.judge_replaced(claim, plan, judged, event.on)
    windows = judged if renewed is None else (*judged, renewed)
    verdict = _verdict(windows)
    cited = _cited(windows) if verdict == "covered" else None
    return Judgement(
        verdict=verdict,
        window=cited,
        starts=cited.starts if cited else start.on,
        event=event.on,
        windows=windows,
        reasons=(start.reason, event.reason),
    )


def _judged(claim: Claim, plan: Plan, window: Window, event: date | None) -> WindowJudgement:
    start = start_of_cover(claim, plan, window.start or plan.start)
    span = limits.by_age(claim, plan, window, start.on, event)
    speaks = applies.speaks_about(claim, plan, window)
    other_limits = (limits.by_hours(claim.unit, window.hours), limits.by_schedule(claim, window))
    opens = [*_own_start(window, plan, start), *span.reasons, *(reason for reason in other_limits if reason)]
    return WindowJudgement(
        id=window.id,
        name=window.name,
        cites=window.cites,
        applies=settled(speaks),
        inside=settled(opens),
        starts=span.starts,
        ends=span.ends,
        hours_limit=window.hours,
        reasons=tuple(reason._replace(window=window.id) for reason in (*speaks, *opens)),
    )


def _own_start(window: Window, plan: Plan, start: Day) -> tuple[Reason, ...]:
    """The start's reason where the window has a start of its own; the plan's start is told once for all."""
    return (start.reason,) if window.start and window.start != plan.start else ()


def _verdict(windows: Sequence[WindowJudgement]) -> Verdict:
    if any(window.holds for window in windows):
        return "covered"
    return "not covered" if all(window.holds is False for window in windows) else "undecided"


def _cited(windows: Sequence[WindowJudgement]) -> WindowJudgement:
    def reach(window: WindowJudgement) -> tuple[date, bool, Decimal]:
        limit = window.hours_limit
        return (window.ends or date.min, limit is None, limit or Decimal(0))

    return max((window for window in windows if window.holds), key=reach)


def hours_left(claim: Claim, judgement: Judgement) -> Decimal | None:
    """Hours from the reading to the limit of the window cited; None without a limit, a meter or a reading."""
    window = judgement.window
    if window is None or window.hours_limit is None or claim.unit.hours is None or claim.unit.meter is False:
        return None
    return window.hours_limit - claim.unit.hours
