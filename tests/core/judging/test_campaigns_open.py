from datetime import date

import pytest
from builders import a_claim, a_plan

from claimpack.core.judging.campaigns_open import campaigns_open, has_come
from claimpack.core.plans.campaign import Campaign

CAMPAIGN = Campaign(
    id="C-1",
    name="Valve",
    plan="halden-2025",
    serials=["HC70-1 .. HC70-9"],
    operation={"code": "C-1", "hours": "0.4"},
    opens=date(2026, 2, 1),
    closes=date(2026, 2, 28),
)
PLAN = a_plan(campaign=[CAMPAIGN.model_dump()])
UNIT = a_claim(unit__serials=[{"role": "unit", "value": "HC70-4"}])


@pytest.mark.parametrize(
    ("day", "is_open"), [(date(2026, 1, 31), 0), (date(2026, 2, 1), 1), (date(2026, 2, 28), 1), (date(2026, 3, 1), 0)]
)
def test_a_campaign_is_open_from_its_first_to_its_last_day(day, is_open):
    assert len(campaigns_open(UNIT, [PLAN], day)) == is_open


@pytest.mark.parametrize(
    ("state", "verdict", "come"),
    [
        ("filed", "covered", True),
        ("draft", "undecided", False),
        ("draft", "covered", True),
        ("refused", "covered", False),
        ("withdrawn", "covered", False),
    ],
)
def test_a_unit_has_come_by_a_claim_that_stands_or_a_draft_that_is_covered(state, verdict, come):
    claim = a_claim(case="campaign", campaign="c-1")
    assert has_come(claim, state, verdict, CAMPAIGN) is come


def test_a_campaign_of_another_maker_reaches_no_unit():
    others = PLAN.model_copy(update={"maker": "ashby"})
    assert campaigns_open(UNIT, [others], date(2026, 2, 10)) == ()


def test_a_campaign_reaches_no_unit_by_another_serial_number():
    other = a_claim(unit__serials=[{"role": "unit", "value": "HC70-10"}])
    assert campaigns_open(other, [PLAN], date(2026, 2, 10)) == ()


@pytest.mark.parametrize(
    "claim", [{"case": "campaign", "campaign": "c-2"}, {"campaign": "c-1"}], ids=["other", "repair"]
)
def test_a_unit_has_not_come_by_a_claim_of_something_else(claim):
    assert not has_come(a_claim(**claim), "filed", "covered", CAMPAIGN)
