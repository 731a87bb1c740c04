"""An assessment as scripts read it, and as a packet carries it."""

from __future__ import annotations

from datetime import date
from typing import Any

from claimpack.core.judging.assessment import Assessment
from claimpack.core.judging.goodwill import GoodwillAsked
from claimpack.core.values.money import plain, plain_or_none
from claimpack.core.values.wording.sentence import Sentence
from claimpack.core.verdict.coverage import hours_left
from claimpack.core.verdict.failures import JudgedFailure
from claimpack.core.windows.judged import WindowJudgement
from claimpack.core.windows.reasons import Reason


def as_json(assessment: Assessment) -> dict[str, Any]:
    """The assessment as scripts read it; dates are ISO 8601, money and hours decimal strings."""
    window, amounts = assessment.window, assessment.amounts
    again = {"sent_again": assessment.sent_again.plainly()} if assessment.sent_again else {}
    return {
        "claim": assessment.claim.number,
        "plan": assessment.plan.id if assessment.plan else None,
        "verdict": assessment.verdict,
        "headline": assessment.headline.plainly(),
        **_share_json(assessment.share),
        "window": window.id if window else None,
        "starts": _iso(assessment.starts),
        "ends": _iso(window.ends) if window else None,
        **_rests_on_json(window),
        "judged_on": _iso(assessment.judged_on),
        "days_left": assessment.days_left,
        "hours_left": plain_or_none(assessment.hours_left),
        "limits_left": [{"meter": each.meter, "left": plain(each.left)} for each in assessment.limits_left],
        "windows": [_window_json(judged) for judged in assessment.windows],
        "reasons": [_reason_json(reason) for reason in assessment.reasons],
        "asks": list(assessment.asks),
        "late": {"file_by": _iso(assessment.late.file_by), "days": assessment.late.days} if assessment.late else None,
        "missing": [
            {"what": item.what.plainly(), "why": item.why.plainly(), "blocks_filing": item.blocks_filing}
            for item in assessment.missing
        ],
        "amounts": amounts.model_dump(mode="json") if amounts else None,
        "elsewhere": assessment.elsewhere.model_dump(include={"maker", "because"}) if assessment.elsewhere else None,
        "goodwill": _goodwill_json(assessment.goodwill),
        **again,
        **({"failures": [_failure_json(one) for one in assessment.failures]} if assessment.failures else {}),
        "deadlines": [
            {
                "what": item.what.plainly(),
                "on": _iso(item.on),
                "because": item.because.plainly(),
                "days_left": item.days_left,
            }
            for item in assessment.deadlines
        ],
        "complete": assessment.complete,
    }


def _failure_json(one: JudgedFailure) -> dict[str, Any]:
    judgement, window = one.judgement, one.judgement.window
    return {
        "failure": one.number,
        "component": one.component,
        "defect": one.claim.failure.defect,
        "verdict": one.verdict,
        "headline": one.headline.plainly(),
        **_share_json(one.share),
        "window": window.id if window else None,
        "starts": _iso(judgement.starts),
        "ends": _iso(window.ends) if window else None,
        **_rests_on_json(window),
        "days_left": judgement.days_left,
        "hours_left": plain_or_none(hours_left(one.claim, judgement)),
        "asks": list(one.asks),
        "elsewhere": one.elsewhere.model_dump(include={"maker", "because"}) if one.elsewhere else None,
        "windows": [_window_json(judged) for judged in judgement.windows],
    }


def _share_json(share: Sentence | None) -> dict[str, Any]:
    return {"share": share.plainly()} if share else {}


def _rests_on_json(window: WindowJudgement | None) -> dict[str, Any]:
    return {"rests_on": window.rests_on.key} if window and window.rests_on else {}


def _goodwill_json(asked: GoodwillAsked | None) -> dict[str, Any] | None:
    if asked is None:
        return None
    miss = asked.out_of_cover.plainly() if asked.out_of_cover else None
    return {"because": asked.because, "asks": asked.asks, "window": asked.window, "out_of_cover": miss}


def _window_json(window: WindowJudgement) -> dict[str, Any]:
    return {
        "id": window.id,
        "name": window.name,
        "cites": window.cites,
        "applies": window.applies,
        "inside": window.inside,
        "starts": _iso(window.starts),
        "ends": _iso(window.ends),
        **_rests_on_json(window),
        "hours_limit": plain_or_none(window.hours_limit),
        "reasons": [reason.says.plainly() for reason in window.reasons],
    }


def _reason_json(reason: Reason) -> dict[str, Any]:
    return {
        "rule": reason.rule,
        "outcome": reason.outcome,
        "because": reason.says.plainly(),
        "window": reason.window or None,
        "asks": reason.asks or None,
    }


def _iso(day: date | None) -> str | None:
    return day.isoformat() if day else None
