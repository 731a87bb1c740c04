"""The campaigns of a maker that a unit is in, and the units that have not come for one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from claimpack.core.claims.claim import Claim
from claimpack.core.plans.campaign import Campaign
from claimpack.core.plans.makers import is_maker_of
from claimpack.core.plans.plan import Plan


def campaigns_open(claim: Claim, plans: Sequence[Plan], day: date) -> tuple[Campaign, ...]:
    """The campaigns of its maker that reach a unit and are open on a day, the one that closes first before the others.

    Source: common practice, no source.
    """
    found = [
        campaign
        for plan in plans
        if is_maker_of(plan, claim.maker)
        for campaign in plan.campaign
        if campaign.opens <= day <= campaign.closes and campaign.serial_in(claim.unit)
    ]
    return tuple(sorted(found, key=lambda campaign: campaign.closes))


def is_of(claim: Claim, campaign: Campaign) -> bool:
    """Whether a claim is one of the campaign."""
    return claim.case == "campaign" and claim.campaign.casefold() == campaign.id.casefold()


def has_come(claim: Claim, state: str, verdict: str, campaign: Campaign) -> bool:
    """Whether a unit has come for the campaign with this claim: by one that stands, or a draft that is covered.

    Source: common practice, no source.
    """
    # a draft that is not covered, and a claim that was refused, left the unit as it was
    stands = verdict == "covered" if state == "draft" else state not in ("withdrawn", "refused")
    return is_of(claim, campaign) and stands


def every_campaign(plans: Iterable[Plan]) -> list[tuple[Campaign, Plan]]:
    """Every campaign with the plan it is paid by, the one that closes first before the others."""
    found = [(campaign, plan) for plan in plans for campaign in plan.campaign]
    return sorted(found, key=lambda pair: (pair[0].closes, pair[0].id))
