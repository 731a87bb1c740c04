import pytest
from builders import CAMPAIGN, a_claim
from pydantic import ValidationError

from claimpack.core.plans.campaign import Campaign, with_id


def a_campaign(**changes):
    return Campaign.model_validate({**CAMPAIGN, "id": "HC-3", **changes})


def test_a_campaign_may_be_open_for_one_day():
    assert a_campaign(opens="2026-02-28").opens == a_campaign().closes


def test_a_campaign_that_closes_before_it_opens_is_refused():
    with pytest.raises(ValidationError, match="is before opens"):
        a_campaign(opens="2026-03-01")


@pytest.mark.parametrize(
    ("serials", "reached"), [(["HC70-10", "HC70-9"], "HC70-9"), (["HC70-10"], ""), ([], "")], ids=["one", "none", "no"]
)
def test_a_campaign_reaches_a_unit_by_any_of_its_serial_numbers(serials, reached):
    roles = ["unit", "engine"]
    unit = a_claim(unit__serials=[{"role": role, "value": value} for role, value in zip(roles, serials, strict=False)])
    assert a_campaign().serial_in(unit.unit) == reached


@pytest.mark.parametrize(("wanted", "found"), [(" hc-3 ", "HC-3"), ("HC-4", "HC-4"), ("HC-5", None)])
def test_a_campaign_is_found_by_its_id_however_it_is_spelled(wanted, found):
    campaign = with_id([a_campaign(), a_campaign(id="HC-4")], wanted)
    assert (campaign.id if campaign else None) == found
