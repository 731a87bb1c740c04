"""What a plan pays beside repairs of units that were sold: parts sold over the counter, campaigns; each tried."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from typing import Any, NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.serial_ranges import ends_of
from claimpack.core.drafting.imagined import Axes, ages_at
from claimpack.core.drafting.imagined_claims import ANY_OTHER, ImaginedUnit, imagined_claim, knowing
from claimpack.core.drafting.trial import TrialBlock, TrialCells, paid, rows_of
from claimpack.core.facts.keys import record_from
from claimpack.core.plans.campaign import Campaign
from claimpack.core.plans.plan import Plan
from claimpack.core.verdict.by_case import judge_case
from claimpack.core.verdict.coverage import Verdict
from claimpack.core.verdict.parts_sold import judge_part_sold

OVER_THE_COUNTER, FITTED = "a part sold over the counter", "a part the shop fitted"


class PartsTried(NamedTuple):
    """What is paid of parts sold, at each age of the part; its axes are its own."""

    axes: Axes
    block: TrialBlock


class CampaignTried(NamedTuple):
    """A campaign, and whether a unit is in it that is brought in at the edges of its days, the earliest first."""

    campaign: Campaign
    days: tuple[tuple[date, Verdict], ...]


def try_parts(plan: Plan, sold: date) -> PartsTried | None:
    """What a plan pays of a part that was sold, and perhaps fitted, on a day; None where it has no window for parts."""
    of_parts = [window for window in plan.window if window.of_parts]
    if not of_parts:
        return None
    ages = tuple(ages_at(sold, ((plan, window, [window.period]) for window in of_parts)))
    axes = Axes(sold, ages, ("",), ((OVER_THE_COUNTER,), (FITTED,)), (ImaginedUnit(),))
    cells: TrialCells = {}
    for told, days in ((OVER_THE_COUNTER, {"never_fitted": True}), (FITTED, {"fitted": sold})):
        claim = _imagined(plan, sold, {"case": "part", "part_sold": {"name": ANY_OTHER, "sold": sold, **days}})
        tried = (_brought_in(claim, age.day) for age in ages)
        cells[told, ""] = tuple(paid(plan, each, judge_part_sold(each, knowing(plan))) for each in tried)
    return PartsTried(axes, TrialBlock(ImaginedUnit(), rows_of(cells, axes)))


def try_campaigns(plan: Plan) -> Iterator[CampaignTried]:
    """Every campaign of a plan, with a unit of the first serial number that it is for."""
    for campaign in plan.campaign:
        one_day = timedelta(days=1)
        days = (campaign.opens - one_day, campaign.opens, campaign.closes, campaign.closes + one_day)
        serials = [{"role": "unit", "value": ends_of(campaign.serials[0])[0]}]
        claim = _imagined(plan, days[0], {"case": "campaign", "campaign": campaign.id}, serials=serials)
        verdicts = (judge_case(_brought_in(claim, day), plan).verdict for day in days)
        yield CampaignTried(campaign, tuple(zip(days, verdicts, strict=True)))


def _imagined(plan: Plan, sold: date, keys: dict[str, Any], serials: Iterable[dict[str, str]] = ()) -> Claim:
    told = imagined_claim(plan, sold, ImaginedUnit()).model_dump(mode="json")
    unit = {**told["unit"], **({"serials": list(serials)} if serials else {})}
    return record_from(Claim, {**told, **keys, "unit": unit}, "the part or campaign tried")


def _brought_in(claim: Claim, day: date) -> Claim:
    on = {"failed": day, "presented": day, "repaired": day}
    return claim.model_copy(update={"dates": claim.dates.model_copy(update=on)})
