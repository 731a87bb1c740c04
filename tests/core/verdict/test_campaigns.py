from datetime import date
from decimal import Decimal

import pytest
from builders import CAMPAIGN, TODAY, a_claim, a_plan
from pydantic import ValidationError

from claimpack.core.judging.assessment import assess
from claimpack.core.plans.campaign import Campaign
from claimpack.core.verdict.campaigns import judge_campaign

GUIDE = {**CAMPAIGN, "parts": ["70-2206-01"]}
PLAN = a_plan(campaign=[GUIDE], pays={"labour_rate": "100", "deductible": {"amount": "25", "payer": "owner"}})
LINES = {
    "labour": [{"operation": "C-1"}, {"operation": "polish", "hours": "1"}],
    "parts": [{"name": "Guide", "number": "70-2206-01", "unit_cost": "10"}, {"name": "Blade", "unit_cost": "5"}],
}


def judged(**changes):
    """A claim years out of every window, under the campaign."""
    claim = a_claim(**{"case": "campaign", "campaign": "c-1", "dates__purchased": "2015-01-01", **changes})
    return assess(claim, [PLAN], TODAY)


@pytest.mark.parametrize(
    ("presented", "verdict"),
    [
        ("2026-01-31", "not covered"),
        ("2026-02-01", "covered"),
        ("2026-02-28", "covered"),
        ("2026-03-01", "not covered"),
    ],
)
def test_a_campaign_reaches_units_brought_in_from_its_first_to_its_last_day(presented, verdict):
    day = {"dates__presented": presented, "dates__failed": None, "dates__repaired": None, "dates__delivered": None}
    assert judged(**day).verdict == verdict


@pytest.mark.parametrize(("serial", "verdict"), [("HC70-9", "covered"), ("HC70-10", "not covered")])
def test_a_campaign_reaches_the_serial_numbers_it_names(serial, verdict):
    assert judged(unit__serials=[{"role": "unit", "value": serial}]).verdict == verdict


def test_a_unit_without_a_serial_number_is_asked_for_it():
    found = judged(unit__serials=[])
    assert (found.verdict, found.asks) == ("undecided", ("unit.serials",))


@pytest.mark.parametrize(("named", "told"), [("", "campaign"), ("C-7", "C-7")])
def test_a_campaign_nobody_knows_leaves_it_undecided(named, told):
    found = judge_campaign(a_claim(case="campaign", campaign=named), PLAN)
    assert (found.verdict, found.windows[0].id) == ("undecided", told)
    assert judged(campaign=named).asks == ("campaign",)


def test_a_campaign_pays_its_own_operation_and_parts_and_nothing_else():
    amounts = judged(**LINES).amounts
    assert (amounts.claimed, amounts.shop, amounts.owner) == (Decimal("50.00"), Decimal("105.00"), Decimal("0.00"))


def test_a_campaign_asks_for_no_receipt_and_no_cause():
    missing = {item.what.key for item in judged(proof={}, failure__cause="", failure__defect=None).missing}
    assert not missing & {"missing.proof", "missing.cause", "missing.defect"}


def test_a_repair_is_not_touched_by_campaigns_and_carries_none():
    found = assess(a_claim(), [PLAN], TODAY)
    assert (found.plan.campaign, found.windows[0].id) == ((), "engine")


def test_a_campaign_closes_after_it_opens():
    with pytest.raises(ValidationError):
        Campaign.model_validate({**CAMPAIGN, "closes": "2026-01-31"})


def test_the_last_day_of_a_campaign_is_its_end_of_cover():
    assert judged().window.ends == date(2026, 2, 28)
