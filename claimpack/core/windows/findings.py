"""Whether what failed counts as failed: by a finding that the plan goes by, past its limit."""

from __future__ import annotations

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.measurements import measurement
from claimpack.core.clauses.requires import RequiredFinding
from claimpack.core.facts.failure import Finding
from claimpack.core.plans.component_words import names_one_of, slip_for, spoken_of
from claimpack.core.plans.plan import Plan
from claimpack.core.values.words import folded, is_said
from claimpack.core.windows.judged import WindowJudgement
from claimpack.core.windows.reasons import Reason, fails, passes, settled, unknown


def by_findings(claim: Claim, plan: Plan, window: WindowJudgement) -> WindowJudgement:
    """A window judged, and whether what failed counts as failed; it does where the plan goes by no finding.

    Source: common practice, no source; a battery that holds 71 % of its charge has not failed at 70 %.
    """
    said = [reason for asked in plan.requires.findings if asked.decides for reason in _told(claim, plan, asked)]
    # a window that is not for this failure has nothing to measure
    if window.applies is False:
        return window
    told = tuple(reason._replace(window=window.id) for reason in said)
    has_failed = settled(said)
    # a finding can close an open window; it opens none that its days or its meter have closed
    inside = False if False in (has_failed, window.inside) else window.inside and has_failed
    return window._replace(inside=inside, reasons=(*window.reasons, *told))


def decided_by(claim: Claim, plan: Plan, finding: Finding) -> RequiredFinding | None:
    """What a plan says of a finding by which something that failed counts as failed; None where it goes by no such.

    Source: common practice, no source.
    """
    return next(
        (
            asked
            for asked in plan.requires.findings
            if asked.decides and is_said(finding.what, [asked.what]) and _is_about(claim, plan, asked)
        ),
        None,
    )


def _is_about(claim: Claim, plan: Plan, asked: RequiredFinding) -> bool:
    return asked.components is None or any(names_one_of(word, asked.components, plan) for word in claim.components())


def counts_as_failed(finding: Finding, asked: RequiredFinding) -> bool | None:
    """Whether a finding is past the limit that a plan goes by; None where the two cannot be compared.

    Source: common practice, no source.
    """
    value = measurement(finding).value
    return None if value is None or _unit(finding.unit) != _unit(asked.unit) else asked.is_past(value)


def limit_said(asked: RequiredFinding) -> dict[str, str]:
    """The facts of the limit that a plan goes by, as sentences name them."""
    return {"limit": asked.limit, "bound_word": "bound.most" if asked.at_most is not None else "bound.least"}


def _told(claim: Claim, plan: Plan, asked: RequiredFinding) -> list[Reason]:
    word, components = claim.component(), asked.components
    if components is not None and not word:
        return [unknown("finding", "failure.component", "finding.component", components=", ".join(components))]
    if components is None or names_one_of(word, components, plan):
        return [_measured(claim, asked)]
    if near := slip_for(word, plan, components) or spoken_of(word, plan, components):
        return [unknown("finding", "failure.component", "finding.near", near=near, component=word)]
    return []


def _measured(claim: Claim, asked: RequiredFinding) -> Reason:
    facts = {"what": asked.what, **limit_said(asked)}
    found = [finding for finding in claim.findings if is_said(finding.what, [asked.what])]
    if not found:
        near = next((finding.what for finding in claim.findings if _is_near(finding, asked)), "")
        key = "finding.near-name" if near else "finding.absent"
        return unknown("finding", "findings", key, **facts, **({"near": near} if near else {}))
    # one that cannot be compared leaves all of them open: it may be the one that would tell
    for finding in found:
        if counts_as_failed(finding, asked) is None:
            return unknown("finding", "findings", "finding.other-unit", value=_said(finding), **facts)
    values = [measurement(finding).value for finding in found]
    past = {counts_as_failed(finding, asked) for finding in found}
    # which of two readings counts is not for the tool to say
    if len(past) > 1:
        return unknown("finding", "findings", "finding.disagree", **facts)
    facts |= {"value": _said(found[0])}
    if past == {True}:
        return passes("finding", "finding.at" if asked.bound in values else "finding.past", **facts)
    return fails("finding", "finding.short", **facts)


def _is_near(finding: Finding, asked: RequiredFinding) -> bool:
    """Whether a finding's name has every word of the one asked for, or the other way round."""
    said, wanted = set(folded(finding.what).split()), set(folded(asked.what).split())
    # one name with some words more or fewer, as "capacity" beside "remaining capacity"
    return said.issubset(wanted) or wanted.issubset(said)


def _unit(said: str) -> str:
    """A unit to compare: a percentage is one however it is written."""
    return "%" if folded(said).replace(" ", "") in ("percent", "pct") else folded(said)


def _said(finding: Finding) -> str:
    return f"{finding.value} {finding.unit}".strip()
