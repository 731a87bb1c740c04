"""The verdict by the kind of case: a unit under its windows, a part sold under its own, a campaign by its serials."""

from __future__ import annotations

from claimpack.core.claims.claim import Claim
from claimpack.core.plans.plan import Plan
from claimpack.core.verdict.campaigns import judge_campaign
from claimpack.core.verdict.coverage import Judgement, judge
from claimpack.core.verdict.parts_sold import judge_part_sold


def judge_case(claim: Claim, plan: Plan) -> Judgement:
    """The verdict on a claim; windows for parts sold say nothing about a unit.

    Source: common practice, no source.
    """
    if claim.case == "campaign":
        return judge_campaign(claim, plan)
    if claim.case == "part":
        return judge_part_sold(claim, plan)
    # a plan of nothing but windows for parts is kept whole: each of them then says why it does not speak about a unit
    of_units = tuple(window for window in plan.window if not window.of_parts)
    if len(of_units) in (0, len(plan.window)):
        return judge(claim, plan)
    return judge(claim, plan.model_copy(update={"window": of_units}))
