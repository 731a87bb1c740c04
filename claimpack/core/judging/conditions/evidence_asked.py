"""The evidence a plan asks for: proof of purchase, serial numbers, shots, measurements, papers."""

from __future__ import annotations

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.requires import RequiredFinding
from claimpack.core.judging.conditions.missing_items import ClaimFacts, MissingItem, files_lacking
from claimpack.core.judging.conditions.serial_forms import of_another_form
from claimpack.core.plans.campaign import with_id
from claimpack.core.plans.component_words import component_meant
from claimpack.core.plans.plan import Plan
from claimpack.core.values.wording.sentence import Sentence, say
from claimpack.core.values.words import folded, is_said

_ASKED = say("why.plan-requires")


def proof(facts: ClaimFacts) -> list[MissingItem]:
    """Proof of purchase where the plan asks for it, and its file; none where the plan says how to judge without.

    Source: common practice, no source; a registration card may be one proof among others (16 CFR 700.7(b)-(c)).
    """
    claim = facts.claim
    said_to_have_none = claim.proof.kind == "none" and facts.plan.start_without_proof is not None
    if not facts.plan.requires.proof or said_to_have_none:
        return []
    if claim.proof.kind in (None, "none"):
        return [MissingItem(what=say("missing.proof"), why=_ASKED)]
    return [] if claim.proof.file else [MissingItem(what=say("missing.proof-file"), why=_ASKED)]


def files(facts: ClaimFacts) -> list[MissingItem]:
    """Every photo and paper that a claim of the book names.

    Source: a rule of this tool's, no source.
    """
    return files_lacking(facts.claim, facts.not_kept)


def serials(facts: ClaimFacts) -> list[MissingItem]:
    """Every serial number the plan asks for, in the form it gives.

    Source: common practice, no source.
    """
    unit, requires = facts.claim.unit, facts.plan.requires
    absent = [role for role in requires.serial_roles if not unit.serial(role)]
    lacking = [MissingItem(what=say("missing.serial", role=role), why=_ASKED) for role in absent]
    for odd in of_another_form(unit, facts.plan):
        why = say("why.serial-form", value=odd.value, role=odd.role)
        lacking.append(MissingItem(what=say("missing.serial-form", role=odd.role), why=why))
    return lacking


def shots(facts: ClaimFacts) -> list[MissingItem]:
    """Every shot the plan asks for.

    Source: common practice, no source.
    """
    return [
        MissingItem(what=say("missing.shot", shot=shot), why=_ASKED) for shot in missing_shots(facts.claim, facts.plan)
    ]


def missing_shots(claim: Claim, plan: Plan) -> list[str]:
    """The shots that a plan asks for and a claim has not, in the plan's order."""
    taken = [photo.shot for photo in claim.photos]
    return [shot for shot in shots_asked(claim, plan) if not is_said(shot, taken)]


def shots_asked(claim: Claim, plan: Plan) -> tuple[str, ...]:
    """The shots that a plan asks for of a claim, as what failed wants them, in the plan's order."""
    campaign = with_id(plan.campaign, claim.campaign) if claim.case == "campaign" else None
    of_plan = [shot for shot in plan.requires.shots if _is_asked(shot.components, claim, plan)]
    wanted = campaign.shots if campaign else tuple(shot.shot for shot in of_plan)
    if claim.case == "part":
        # the machine a part was sold for need not be there
        wanted = tuple(shot for shot in wanted if "part" in folded(shot).split())
    return wanted


def findings(facts: ClaimFacts) -> list[MissingItem]:
    """Every measurement the plan asks for.

    Source: common practice, no source.
    """
    claim, plan = facts.claim, facts.plan
    measured = [finding.what for finding in claim.findings]
    asked = [finding for finding in plan.requires.findings if _is_asked(finding.components, claim, plan)]
    wanted = [finding for finding in asked if not is_said(finding.what, measured)]
    return [MissingItem(what=_finding(each), why=_ASKED) for each in wanted]


def _finding(asked: RequiredFinding) -> Sentence:
    if asked.unit:
        return say("missing.finding-in", what=asked.what, unit=asked.unit)
    return say("missing.finding", what=asked.what)


def _is_asked(components: tuple[str, ...] | None, claim: Claim, plan: Plan) -> bool:
    """Whether something is asked of what failed; of every component where none is named."""
    return components is None or bool(_failed_among(components, claim, plan))


def _failed_among(components: tuple[str, ...], claim: Claim, plan: Plan) -> str:
    """What failed of some components; empty where none of them did."""
    return next((word for word in claim.components() if component_meant(word, plan, components)), "")


def papers(facts: ClaimFacts) -> list[MissingItem]:
    """Every paper the plan asks for, as proof of maintenance of some components.

    Source: common practice, no source.
    """
    claim, found = facts.claim, []
    carried = [*(paper.kind for paper in claim.papers), *([claim.proof.kind] if claim.proof.kind else [])]
    for asked in facts.plan.requires.papers:
        if _is_asked(asked.components, facts.claim, facts.plan) and not is_said(asked.kind, carried):
            component = _failed_among(asked.components, facts.claim, facts.plan) if asked.components else ""
            why = say("why.paper-component", component=component) if component else _ASKED
            found.append(MissingItem(say("missing.paper", kind=asked.kind), why))
    return found
