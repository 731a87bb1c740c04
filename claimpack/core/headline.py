"""The answer in one line."""

from __future__ import annotations

from datetime import date

from claimpack.core.claim import Claim
from claimpack.core.coverage import Judgement
from claimpack.core.money import plain
from claimpack.core.reasons import Reason
from claimpack.core.windows import WindowJudgement
from claimpack.core.wording import Sentence, say

_TELLING = ("defect", "exclusion", "hours", "schedule", "age")


def headline(claim: Claim, judgement: Judgement) -> Sentence:
    """The verdict in one sentence: until when, or why not, or which fact would decide it."""
    if judgement.verdict == "covered" and judgement.window:
        return _covered(judgement.window)
    if judgement.verdict == "undecided":
        return _undecided(judgement)
    return _not_covered(claim, judgement)


def _covered(window: WindowJudgement) -> Sentence:
    facts = {"ends": window.ends, "window": window.title}
    if window.hours_limit is not None:
        return say("answer.covered-hours", limit=plain(window.hours_limit), **facts)
    return say("answer.covered", **facts)


def _undecided(judgement: Judgement) -> Sentence:
    waiting = [window for window in judgement.windows if window.holds is None]
    reasons = [*judgement.reasons, *(reason for window in waiting for reason in window.reasons)]
    asked = dict.fromkeys(reason.asks for reason in reasons if reason.outcome == "unknown" and reason.asks)
    return say("answer.undecided", facts_word="|".join(asked))


def _not_covered(claim: Claim, judgement: Judgement) -> Sentence:
    """The nearest miss: of the windows about this component, the one that failed for the fewest reasons, latest end."""
    near = min(judgement.windows, key=_distance)
    failed = [reason for rule in _TELLING for reason in near.reasons if (reason.rule, reason.outcome) == (rule, "fail")]
    return _why(claim, near, failed[0]) if failed else say("answer.not-covered")


def _distance(window: WindowJudgement) -> tuple[bool, int, int]:
    failed = [reason for reason in window.reasons if reason.outcome == "fail"]
    latest = (window.ends or date.min).toordinal()
    return (not window.applies, len(failed), -latest)


def _why(claim: Claim, window: WindowJudgement, reason: Reason) -> Sentence:
    facts = reason.says.facts
    if reason.rule == "defect":
        return say("answer.not-covered-defect", defect_word=facts["defect_word"])
    if reason.rule == "exclusion":
        return say("answer.not-covered-excluded", component=claim.component())
    if reason.says.key == "hours.outside":
        return say("answer.not-covered-hours", over=facts["over"], limit=facts["limit"], window=window.title)
    if "late_period" in facts:
        return say("answer.not-covered-late", window=window.title, ends=facts["ends"], late_period=facts["late_period"])
    return say("answer.not-covered")
