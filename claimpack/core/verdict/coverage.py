"""The verdict: every window of a plan judged, each with all its reasons."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import Literal, NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.window import Limit
from claimpack.core.facts.unit import HOURS
from claimpack.core.plans.component_words import is_known, words_it_may_be
from claimpack.core.plans.plan import Plan
from claimpack.core.plans.uses import uses_known
from claimpack.core.values.words import folded
from claimpack.core.verdict import replaced
from claimpack.core.verdict.window_judging import judge_window
from claimpack.core.windows.findings import by_findings
from claimpack.core.windows.judged import WindowJudgement
from claimpack.core.windows.judged_days import event_day
from claimpack.core.windows.limits.meters import LimitLeft, others_left
from claimpack.core.windows.reasons import Reason
from claimpack.core.windows.start_of_cover import start_of_cover

_MOST_WORDS = 8

Verdict = Literal["covered", "not covered", "undecided"]


class Judgement(NamedTuple):
    """The verdict on a claim under one plan; window, starts and ends are those of the window cited.

    `may_be` are the plan's words that the claim's word for what failed may stand for, where the plan does not know it;
    `whatever` is the fact, as a key of the claim, that is open and covered with every value it may have: the window
    cited is then the one that ends first of those each value has, its hours the fewest of theirs.
    """

    verdict: Verdict
    window: WindowJudgement | None = None
    starts: date | None = None
    event: date | None = None
    windows: tuple[WindowJudgement, ...] = ()
    reasons: tuple[Reason, ...] = ()
    may_be: tuple[str, ...] = ()
    whatever: str = ""

    @property
    def days_left(self) -> int | None:
        """Days from the day judged on to the last day of the window cited."""
        if self.window is None or self.window.ends is None or self.event is None:
            return None
        return (self.window.ends - self.event).days


def judge(claim: Claim, plan: Plan) -> Judgement:
    """The verdict on a claim: covered if any window holds, not covered if every window is closed, else undecided.

    The window cited is, of those that hold, the one that ends last; of several, one without an hour limit or with the
    highest. All windows are reported, in the plan's order. Where no use is given, and each has a window that holds, the
    claim is covered up to where the first of them ends.

    Source: common practice, no source; each rule names its own.
    """
    found = _as_it_stands(claim, plan)
    if found.verdict != "undecided" or claim.unit.use is not None:
        return found
    # before the use is asked for, each the plan knows is tried: where all are covered, the question is spared
    units = [claim.unit.model_copy(update={"use": use}) for use in uses_known([plan])]
    by_use = [_as_it_stands(claim.model_copy(update={"unit": unit}), plan) for unit in units]
    cited = _certain([each.window for each in by_use if each.window]) if all(each.window for each in by_use) else None
    if cited is None:
        return found
    return found._replace(verdict="covered", window=cited, starts=cited.starts, whatever="unit.use")


def _certain(windows: Sequence[WindowJudgement]) -> WindowJudgement | None:
    """What is certain of windows one of which is the right one: first end, fewest hours; None where an end is open."""
    # an end that is open cannot be compared, and "until at least" would be a guess
    if not all(window.ends or window.at_least for window in windows):
        return None
    first = min(windows, key=lambda window: window.ends or window.at_least or date.max)
    # A limit of a window that stays open until the last of its ends cuts nothing short of the day its period ends.
    cut_short = [window for window in windows if not window.at_least]
    hours = [window.hours_limit for window in cut_short if window.hours_limit is not None]
    fewest: dict[str, Limit] = {}
    for limit in sorted((limit for window in cut_short for limit in window.limits), key=lambda limit: limit.at):
        fewest.setdefault(folded(limit.meter), limit)
    ends, limits = first.ends or first.at_least, tuple(fewest.values())
    return first._replace(ends=ends, at_least=None, hours_limit=min(hours, default=None), limits=limits)


def _as_it_stands(claim: Claim, plan: Plan) -> Judgement:
    """The verdict that the facts given allow."""
    event = event_day(claim, plan)
    start = start_of_cover(claim, plan)
    judged = tuple(judge_window(claim, plan, window, event) for window in plan.window)
    # judged after the plan's own windows, since a part put in lives on what was left of one of them
    renewed = replaced.judge_replaced(claim, plan, judged, event)
    windows = judged if renewed.window is None else (*judged, renewed.window)
    # last, for a finding speaks of what failed, whichever window it is under
    windows = tuple(by_findings(claim, plan, window) for window in windows)
    verdict = _verdict(windows)
    cited = _cited(windows) if verdict == "covered" else None
    return Judgement(
        verdict=verdict,
        window=cited,
        starts=cited.starts if cited else start.on,
        event=event.on,
        windows=windows,
        reasons=(start.reason, event.reason, *renewed.reasons),
        may_be=_words_it_may_be(claim, plan, judged),
    )


def _words_it_may_be(claim: Claim, plan: Plan, judged: Sequence[WindowJudgement]) -> tuple[str, ...]:
    """The plan's words that the one for what failed may stand for, where the plan does not know it; else none.

    What only windows for other units speak of is left out: the answer would decide nothing.
    """
    word = claim.component()
    if not word or is_known(word, plan):
        return ()
    own = tuple(window for window, found in zip(plan.window, judged, strict=True) if found.applies is not False)
    known = plan.model_copy(update={"window": own}).component_words()
    # likely words first; if none is likely, the plan's first few, so that somebody can at least choose
    return words_it_may_be(word, plan, known) or tuple(dict.fromkeys(known))[:_MOST_WORDS]


def _verdict(windows: Sequence[WindowJudgement]) -> Verdict:
    if any(window.holds for window in windows):
        return "covered"
    # one window whose answer is open is enough for the whole to be open
    return "not covered" if all(window.holds is False for window in windows) else "undecided"


def _cited(windows: Sequence[WindowJudgement]) -> WindowJudgement:
    def reach(window: WindowJudgement) -> tuple[date, bool, Decimal]:
        limit = window.hours_limit
        # the owner is best served by the window that lasts longest; no limit of hours is better than any
        return (window.ends or window.at_least or date.min, limit is None, limit or Decimal(0))

    return max((window for window in windows if window.holds), key=reach)


def hours_left(claim: Claim, judgement: Judgement) -> Decimal | None:
    """Hours from the reading to the limit of the window cited; None without a limit, a meter or a reading."""
    window = judgement.window
    # hours that count from zero again after a new meter are added up, so that the limit is held against all of them
    read = claim.unit.hours_run
    if window is None or window.hours_limit is None or read is None or claim.unit.has_hour_meter is False:
        return None
    return window.hours_limit - read


def limits_left(claim: Claim, judgement: Judgement) -> tuple[LimitLeft, ...]:
    """What is left of every limit of the window cited whose meter is read, the hour meter's first."""
    hours, window = hours_left(claim, judgement), judgement.window
    of_hours = () if hours is None else (LimitLeft(HOURS, hours),)
    return (*of_hours, *others_left(claim, window.limits if window else ()))
