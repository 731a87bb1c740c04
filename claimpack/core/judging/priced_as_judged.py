"""The price of a claim as it is judged: what is not covered asks for nothing, but for a favour or a campaign."""

from __future__ import annotations

from collections.abc import Sequence

from claimpack.core.claims.claim import Claim
from claimpack.core.judging.goodwill import GoodwillAsked, asked_alone
from claimpack.core.plans.campaign import with_id
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.by_case import under_campaign, when_declined
from claimpack.core.pricing.pricing import Price, price, unclaimed
from claimpack.core.pricing.retail import Retail
from claimpack.core.pricing.window_pays import Cover
from claimpack.core.values.wording.sentence import say
from claimpack.core.verdict.failures import JudgedFailure, closed_of, cover_of, cover_years_from, head_of


def priced_as_judged(
    claim: Claim,
    plan: Plan,
    retail: Retail,
    failures: Sequence[JudgedFailure],
    goodwill: GoodwillAsked | None,
) -> Price:
    """The price; nothing is claimed of what is not covered, unless it is asked for as a favour."""
    judgement = head_of(failures).judgement
    campaign = with_id(plan.campaign, claim.campaign) if claim.case == "campaign" else None
    # a campaign pays its own operation and parts, whatever else was done
    if campaign:
        priced = price(*under_campaign(claim, plan, campaign), retail)
        return priced._replace(amounts=unclaimed(priced.amounts)) if judgement.verdict == "not covered" else priced
    if claim.case == "declined":
        claim, plan = when_declined(claim, plan)
    if goodwill:
        return price(asked_alone(claim), plan, retail, Cover(starts=cover_years_from(plan, failures)))
    priced = _with_failures_told(price(claim, plan, retail, cover_of(plan, failures)), failures)
    return priced._replace(amounts=unclaimed(priced.amounts)) if judgement.verdict == "not covered" else priced


def _with_failures_told(priced: Price, failures: Sequence[JudgedFailure]) -> Price:
    """The price with every line naming its failure, where there are several; those that do so already are kept."""
    closed = closed_of(failures)
    named = {one.number: say("price.of-failure", failure=one.number, component=one.component) for one in failures}
    lines = (
        line if line.failure in closed else line._replace(notes=(named[line.failure], *line.notes))
        for line in priced.lines
    )
    return priced._replace(lines=tuple(lines)) if len(failures) > 1 else priced
