"""Whether a maker's campaign reaches a claim: by serial number and by its days, whatever the windows of a plan say."""

from __future__ import annotations

from claimpack.core.claims.claim import Claim
from claimpack.core.plans.campaign import Campaign, with_id
from claimpack.core.plans.plan import Plan
from claimpack.core.verdict.coverage import Judgement, Verdict
from claimpack.core.windows.judged import WindowJudgement
from claimpack.core.windows.reasons import Reason, fails, passes, settled, unknown


def judge_campaign(claim: Claim, plan: Plan) -> Judgement:
    """The verdict on a claim under the campaign it names: in it, or not; undecided while it names none that is known.

    Source: common practice, no source; serials and days are the maker's.
    """
    # the day the unit came in counts, not the one it failed: most units of a campaign have not failed
    campaign, day = with_id(plan.campaign, claim.campaign), claim.dates.presented
    event = passes("event", "event.on", event=day, role_word="presented")
    if campaign is None:
        open_question = unknown("campaign", "campaign", *_unnamed(claim))
        window = WindowJudgement(claim.campaign or "campaign", None, None, None, None, reasons=(open_question,))
        return Judgement("undecided", None, None, day, (window,), (event,))
    speaks, opens = _reach(claim, campaign), _days(claim, campaign)
    window = WindowJudgement(
        id=campaign.id,
        name=campaign.name,
        cites=campaign.cites,
        applies=settled([speaks]),
        inside=settled([opens]),
        starts=campaign.opens,
        ends=campaign.closes,
        reasons=tuple(reason._replace(window=campaign.id) for reason in (speaks, opens)),
    )
    # no look at the plan's windows: a campaign pays out of warranty as well
    verdict: Verdict = "covered" if window.holds else "not covered" if window.holds is False else "undecided"
    return Judgement(verdict, window if window.holds else None, campaign.opens, day, (window,), (event,))


def _unnamed(claim: Claim) -> tuple[str]:
    return ("campaign.not-there",) if claim.campaign else ("campaign.unnamed",)


def _reach(claim: Claim, campaign: Campaign) -> Reason:
    ranges = ", ".join(campaign.serials)
    serial = campaign.serial_in(claim.unit)
    if serial:
        return passes("campaign", "serial.inside", serial=serial, ranges=ranges)
    # no serial number at all is a question; one that is outside the ranges is an answer
    if not claim.unit.serials:
        return unknown("campaign", "unit.serials", "serial.unknown", ranges=ranges)
    return fails("campaign", "campaign.other-serial", serial=claim.unit.own_serial, campaign=campaign.id, ranges=ranges)


def _days(claim: Claim, campaign: Campaign) -> Reason:
    day = claim.dates.presented
    facts = {"event": day, "opens": campaign.opens, "closes": campaign.closes, "campaign": campaign.id}
    if day < campaign.opens:
        return fails("campaign", "campaign.early", **facts)
    if day > campaign.closes:
        return fails("campaign", "campaign.late", **facts)
    return passes("campaign", "campaign.open", **facts)
