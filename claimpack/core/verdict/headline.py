"""The answer in one line."""

from __future__ import annotations

from datetime import date

from claimpack.core.claims.claim import Claim
from claimpack.core.values.money import plain
from claimpack.core.values.wording.sentence import SAYS, Sentence, placeholders, say
from claimpack.core.verdict.coverage import Judgement
from claimpack.core.windows.judged import WindowJudgement, facts_that_decide
from claimpack.core.windows.reasons import Reason

_TELLING = {
    "defect": "answer.not-covered-defect",
    "finding": "answer.not-covered-finding",
    "exclusion": "answer.not-covered-excluded",
    "campaign": "answer.not-covered-campaign-late",
    "elsewhere": "answer.not-covered-elsewhere",
    "component": "answer.not-covered-component",
    "sold in": "answer.not-covered-place",
    "model year": "answer.not-covered-year",
    "serial": "answer.not-covered-serial",
    "use": "answer.not-covered-use",
    "owner": "answer.not-covered-owner",
    "transfer": "answer.not-covered-transfer",
    "hours": "answer.not-covered-hours",
    "meter": "answer.not-covered-meter",
    "schedule": "answer.not-covered-renewal",
    "age": "answer.not-covered-late",
    "registration": "answer.not-covered-registration",
}
"""What is told of a window that failed for several reasons: the gravest rule first."""


_OF_OTHERS = ("defect", "exclusion", "elsewhere", "component", "sold in", "model year", "serial", "use")
"""The rules by which a window is for other failures or other units."""


_OF_CASES = {
    "part.of-units": "answer.not-covered-parts",
    "part.never-fitted": "answer.not-covered-never-fitted",
    "campaign.other-serial": "answer.not-covered-campaign-serial",
    "campaign.late": "answer.not-covered-campaign-late",
    "campaign.early": "answer.not-covered-campaign-early",
}
"""What is told of a window of parts or of a campaign, by the sentence that speaks against it."""


_OF_EVERY_CLAIM = ("left-out.all", "excluded.all", "excluded.rest", "start.not-sold", "start.never-registered")
"""What speaks against a window whatever failed, so that it says nothing of the component."""


def headline(claim: Claim, judgement: Judgement) -> Sentence:
    """The verdict in one sentence: until when, or why not, or which fact would decide it."""
    if judgement.window:
        return _covered(judgement.window, judgement.whatever)
    if judgement.verdict == "undecided":
        return _undecided(claim, judgement)
    return _not_covered(claim, judgement)


def _covered(window: WindowJudgement, whatever: str) -> Sentence:
    if window.is_past_its_last_day:
        return _told("answer.covered-unmended", {"window": window.title})
    hours = "" if window.hours_limit is None else plain(window.hours_limit)
    others = [f"{plain(limit.at)} {limit.meter}" for limit in window.limits]
    ends = str(window.at_least or window.ends)
    limits = "|".join([ends, *([f"{hours} h"] if hours else []), *others])
    facts = {"ends": ends, "window": window.title, "limit": hours, "limits_word": limits, "fact_word": whatever}
    if window.at_least:
        return _told("answer.covered-last", facts)
    if window.rests_on and not whatever:
        lacking = {"fact_word": window.rests_on.fact, "named": window.rests_on.key}
        only = {**facts, **lacking, "limits_word": "|".join(limits.split("|")[1:])}
        return _told("answer.covered-at-least-limits" if only["limits_word"] else "answer.covered-at-least", only)
    if others:
        return _told("answer.covered-whatever-limits" if whatever else "answer.covered-limits", facts)
    if hours:
        return _told("answer.covered-whatever-hours" if whatever else "answer.covered-hours", facts)
    return _told("answer.covered-whatever" if whatever else "answer.covered", facts)


def _undecided(claim: Claim, judgement: Judgement) -> Sentence:
    asked = facts_that_decide(judgement.windows, judgement.reasons)
    if claim.is_stock:
        asked = tuple("stock.use" if fact == "unit.use" else fact for fact in asked)
    if "failure.component" not in asked or not judgement.may_be:
        open_finding = _open_finding(judgement)
        return (
            _undecided_finding(open_finding, asked)
            if open_finding
            else say("answer.undecided", facts_word="|".join(asked))
        )
    facts = {"component": claim.component(), "near_word": "|".join(judgement.may_be)}
    others = "&".join(fact for fact in asked if fact != "failure.component")
    return (
        say("answer.undecided-word-facts", facts_word=others, **facts)
        if others
        else say("answer.undecided-word", **facts)
    )


_OF_FINDINGS = {
    "finding.other-unit": "answer.undecided-finding-unit",
    "finding.disagree": "answer.undecided-finding-both",
}
"""What is told of a finding that is there and does not decide, by the sentence that says so; the others are absent."""


def _open_finding(judgement: Judgement) -> Reason | None:
    reasons = (reason for window in judgement.windows if window.holds is None for reason in window.reasons)
    return next((reason for reason in reasons if reason.asks == "findings"), None)


def _undecided_finding(reason: Reason, asked: tuple[str, ...]) -> Sentence:
    others = "|".join(fact for fact in asked if fact != "findings")
    key = "answer.undecided-finding-facts" if others else _OF_FINDINGS.get(reason.says.key, "answer.undecided-finding")
    return _told(key, {**reason.says.facts, "facts_word": others})


def _not_covered(claim: Claim, judgement: Judgement) -> Sentence:
    near, reason = nearest_miss(judgement)
    return _why(claim, near, reason) if reason else say("answer.not-covered")


def nearest_miss(judgement: Judgement) -> tuple[WindowJudgement, Reason | None]:
    """The window that came nearest to covering the claim, and the gravest reason why it does not.

    Windows for other components and other units come last: a writer would not name them. Of the others, those for
    another owner among them, the one with the fewest conditions against it, then the latest end.
    """
    near = min(judgement.windows, key=_distance)
    failed = [reason for rule in _TELLING for reason in near.reasons if (reason.rule, reason.outcome) == (rule, "fail")]
    return near, failed[0] if failed else None


def _distance(window: WindowJudgement) -> tuple[bool, bool, bool, int, int]:
    failed = [reason for reason in window.reasons if reason.outcome == "fail"]
    elsewhere = any(reason.rule == "component" for reason in failed)
    latest = (window.ends or date.min).toordinal()
    # one for another owner is for this unit all the same
    for_others = any(reason.rule in _OF_OTHERS for reason in failed)
    return (elsewhere, for_others, window.ends is None, len(failed), -latest)


def _why(claim: Claim, window: WindowJudgement, reason: Reason) -> Sentence:
    facts = {**reason.says.facts, "window": window.title, "component": claim.component()}
    if reason.says.key in _OF_CASES:
        return _told(_OF_CASES[reason.says.key], facts)
    if reason.says.key == "event.before-start":
        return _told("answer.not-covered-before", facts)
    if reason.says.key == "age.outside-anyway":
        return _told("answer.not-covered-late-anyway", facts)
    if reason.says.key in _OF_EVERY_CLAIM:
        return say("answer.not-covered")
    if reason.says.key == "scheduled.all":
        return _told("answer.not-covered-renewals", facts)
    return _told(_TELLING[reason.rule], facts)


def _told(key: str, facts: dict[str, str]) -> Sentence:
    """The sentence with the facts it has a place for, and no others."""
    return say(key, **{name: facts[name] for name in sorted(placeholders(SAYS[key]))})
