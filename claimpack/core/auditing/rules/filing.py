"""Audit rules about filing: late, over a block, changed since, without evidence, repaired before it was approved."""

from __future__ import annotations

from collections.abc import Iterator

from claimpack.core.auditing.audited import AuditedClaim, Irregularity, Measures, Weight
from claimpack.core.auditing.rule import OURS, PRACTICE, OneClaimRule
from claimpack.core.judging.conditions import approvals, conditions, evidence_asked
from claimpack.core.judging.conditions.missing_items import ClaimFacts, MissingItem, not_kept
from claimpack.core.judging.deadlines import file_by
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.pricing import Amounts
from claimpack.core.values.money import ZERO
from claimpack.core.values.wording.sentence import say


def filed_late(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """A claim first filed after the last day the plan gives for it.

    Source: common practice, no source; the limit is the plan's.
    """
    filing = audited.plan.filing if audited.plan else None
    # sending it in again after a refusal is not filing late
    filed = audited.course.first_filed or audited.standing.filed
    # the plan names the day it counts from: the failure, the repair, the day it came in
    event = getattr(audited.claim.dates, filing.of) if filing else None
    if filing is None or event is None or filed is None or not audited.is_with_the_maker:
        return
    last = file_by(filing, event)
    if filed > last:
        said = say("filed-late", filed=filed, last=last, within=filing.within.in_words(), event=event)
        yield audited.irregular(said, {"filed": str(filed), "last day": str(last)}, "serious")


def filed_over_block(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """A claim filed although it was not covered, undecided, incomplete or late, with the reason given.

    A favour that was asked as one, and complete, went out as what it is.

    Source: a rule of this tool's, no source.
    """
    course = audited.course
    doubted = course.verdict in ("not covered", "undecided")
    if not audited.is_with_the_maker or not (doubted or course.against or course.anyway):
        return
    # asked as what it is, and nothing left out: there was no block to pass over
    if audited.claim.asks_goodwill and course.verdict == "not covered" and not (course.against or course.anyway):
        return
    kind = ".verdict" if doubted else ".against" if course.against else ""
    reason = (course.anyway or "none").rstrip(".")
    said = say(f"filed-over-block{kind}", filed=audited.standing.filed, verdict=course.verdict, reason=reason)
    evidence = {"filed": str(audited.standing.filed), "verdict": course.verdict, "against": course.against}
    # what was open may have turned out well; what was not covered was known
    weight: Weight = "serious" if course.verdict == "not covered" else "look"
    yield audited.irregular(said, evidence, weight)


def packet_changed(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """The packet that was kept at filing is no longer what was sent.

    Source: a rule of this tool's, no source.
    """
    if audited.packet_damage:
        said = say("packet-changed", filed=audited.standing.filed, damage=audited.packet_damage)
        yield audited.irregular(said, {"sha256": audited.standing.packet}, "serious")


def corrected_after_filing(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """A claim corrected after it was filed and not sent again: the maker holds another version.

    Source: a rule of this tool's, no source.
    """
    course = audited.course
    if course.corrected and audited.is_with_the_maker:
        filed = audited.standing.filed
        said = say("corrected-after-filing", corrected=course.corrected, filed=filed)
        evidence = {"filed": str(filed), "corrected": str(course.corrected), "why": course.why}
        yield audited.irregular(said, evidence, "look")


_FORM = "missing.serial-form"
_EVIDENCE = (
    evidence_asked.proof,
    evidence_asked.serials,
    evidence_asked.shots,
    evidence_asked.findings,
    approvals.approval,
)


def evidence_missing(audited: AuditedClaim, measures: Measures) -> Iterator[Irregularity]:
    """A filed claim without something the plan asks for, or any claim that names a file which is not kept.

    Source: common practice, no source.
    """
    if audited.is_withdrawn:
        return
    if audited.course.elsewhere and audited.is_with_the_maker:
        # saying that evidence is missing would be a guess: its papers may lie in another program
        yield audited.irregular(say("evidence-missing.elsewhere"), {}, "look")
    elif audited.plan and audited.is_with_the_maker:
        for lacking in _lacking(audited, audited.plan, measures):
            # a number that is there is not missing
            if lacking.what.key == _FORM:
                continue
            missing = lacking.what.plainly()
            said = say("evidence-missing.asked", missing=missing)
            yield audited.irregular(said, {"missing": missing}, "serious", lacking.why)
    kept = {file.path for file in audited.files}
    weight: Weight = "serious" if audited.is_with_the_maker else "look"
    for path in not_kept(audited.claim, kept):
        yield audited.irregular(say("evidence-missing.file", file=path), {"missing": path}, weight)


def serial_of_another_form(audited: AuditedClaim, measures: Measures) -> Iterator[Irregularity]:
    """A filed claim with a serial number that does not have the form the plan gives.

    Source: common practice, no source; the form is the plan's.
    """
    if audited.plan and audited.is_with_the_maker and not audited.course.elsewhere:
        for lacking in _lacking(audited, audited.plan, measures):
            if lacking.what.key == _FORM:
                said = say("serial-of-another-form", serial=lacking.why.facts["value"], what=lacking.why.facts["role"])
                yield audited.irregular(said, {"serial": lacking.why.facts["value"]}, "serious")


def _lacking(audited: AuditedClaim, plan: Plan, measures: Measures) -> list[MissingItem]:
    """What the plan asks for as evidence; amounts over the approval and late approvals have rules of their own."""
    # by what was claimed at filing, and not by what it would come to under today's plan
    # when pictures were taken is asked about by audit rules of its own, so no times are handed over
    facts = ClaimFacts(audited.claim, plan, _amounts(audited, plan), measures.today, {})
    rules = [rule for rule in _EVIDENCE if rule not in conditions.WAIVED_IN.get(audited.claim.case, ())]
    found = [lacking for rule in rules for lacking in rule(facts)]
    # each of these has an audit rule of its own
    told_elsewhere = (
        "missing.approval-amount",
        "missing.approval-date",
        "missing.approval-day",
        "missing.approval-again",
    )
    return [lacking for lacking in found if lacking.what.key not in told_elsewhere]


def _amounts(audited: AuditedClaim, plan: Plan) -> Amounts:
    return Amounts(
        currency=audited.standing.currency or plan.currency,
        parts=ZERO,
        handling=ZERO,
        labour=ZERO,
        extras=ZERO,
        claimed=audited.claimed,
        owner=ZERO,
        shop=ZERO,
    )


def repaired_before_approval(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """A unit repaired before the day of the maker's approval.

    Source: common practice, no source.
    """
    approval, repaired = audited.approval, audited.claim.dates.repaired
    if approval and approval.came_after(repaired) and not audited.is_withdrawn:
        said = say("repaired-before-approval", repaired=repaired, approved_on=approval.on)
        evidence = {"repaired": str(repaired), "approved": str(approval.on), "approval": approval.number}
        yield audited.irregular(said, evidence, "serious")


def approval_ran_out(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """A unit repaired after the maker's approval had expired.

    Source: common practice, no source.
    """
    approval, repaired = audited.approval, audited.claim.dates.repaired
    if approval and approval.had_run_out(repaired) and not audited.is_withdrawn:
        said = say("approval-ran-out", repaired=repaired, expired=approval.expires)
        evidence = {"repaired": str(repaired), "expired": str(approval.expires), "approval": approval.number}
        yield audited.irregular(said, evidence, "serious")


FILING_RULES = (
    OneClaimRule(
        "filed-over-block",
        "A claim was filed although it was not covered, or something else spoke against it.",
        OURS,
        filed_over_block,
    ),
    OneClaimRule("packet-changed", "The packet kept at filing was changed or is gone.", OURS, packet_changed),
    OneClaimRule(
        "corrected-after-filing",
        "A claim was corrected after filing and not resubmitted.",
        OURS,
        corrected_after_filing,
    ),
    OneClaimRule(
        "evidence-missing",
        "A filed claim lacks evidence the plan asks for, or a claim names a file that is not kept.",
        PRACTICE,
        evidence_missing,
    ),
    OneClaimRule(
        "serial-of-another-form",
        "A filed claim has a serial number that does not have the form the plan gives.",
        PRACTICE,
        serial_of_another_form,
    ),
    OneClaimRule("filed-late", "A claim was filed after the last day for it.", PRACTICE, filed_late),
    OneClaimRule(
        "repaired-before-approval",
        "A unit was repaired before the maker approved.",
        PRACTICE,
        repaired_before_approval,
    ),
    OneClaimRule(
        "approval-ran-out",
        "A unit was repaired after the maker's approval had expired.",
        PRACTICE,
        approval_ran_out,
    ),
)
"""The rules about filing."""
