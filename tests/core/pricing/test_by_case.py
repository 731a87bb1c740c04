"""What a campaign pays, and what is asked of the maker for a repair that the owner declined."""

from __future__ import annotations

import pytest
from builders import CAMPAIGN, a_claim, a_plan

from claimpack.core.plans.campaign import Campaign
from claimpack.core.pricing.by_case import under_campaign, when_declined

GUIDE = {
    **CAMPAIGN,
    "operation": {"code": "guide", "name": "Replace the guide", "hours": "0.4", "class": "trim"},
    "parts": ["70-2206-01"],
}
SCHEDULE = [
    {"code": "find", "name": "Find the fault", "hours": "0.5"},
    {"code": "Guide", "name": "Guide", "hours": "0.9"},
    {"code": "grip", "name": "Replace grip", "hours": "0.3", "class": "trim"},
    {"code": "tank", "hours": "0.6"},
]
PLAN = a_plan(operation=SCHEDULE, pays__diagnosis={"operation": "find"})
FREIGHT = {"what": "freight", "amount": "30.00"}


def in_campaign(plan=PLAN, **claim):
    return under_campaign(a_claim(**claim), plan, Campaign.model_validate(GUIDE))


def payers(entries):
    return [entry.payer for entry in entries]


def test_a_campaign_pays_its_own_hours_instead_of_the_schedules_for_its_operation():
    operations = in_campaign()[1].operation
    assert [str(one.hours) for one in operations if one.code.casefold() == "guide"] == ["0.4"]


def test_other_work_beside_a_campaign_keeps_its_hours_in_the_schedule():
    assert [one.code for one in in_campaign()[1].operation] == ["find", "grip", "tank", "guide"]


def test_the_operation_of_a_campaign_has_the_class_the_maker_gave_it():
    assert in_campaign()[1].scheduled_operation("guide").class_ == "trim"


@pytest.mark.parametrize(("operation", "payer"), [("guide", "maker"), ("GUIDE", "maker"), ("grip", "shop")])
def test_of_the_work_a_campaign_pays_its_own_operation_alone(operation, payer):
    assert payers(in_campaign(labour=[{"operation": operation}])[0].labour) == [payer]


@pytest.mark.parametrize(
    ("number", "payer"), [("70-2206-01", "maker"), ("70 220601", "maker"), ("70-2206-02", "shop"), ("", "shop")]
)
def test_of_the_parts_a_campaign_pays_those_it_names_alone(number, payer):
    part = {"name": "guide", "number": number, "unit_cost": "10.00"}
    assert payers(in_campaign(parts=[part])[0].parts) == [payer]


def test_a_campaign_pays_no_extras():
    assert payers(in_campaign(extras=[FREIGHT])[0].extras) == ["shop"]


def test_a_campaign_leaves_to_the_owner_what_was_the_owners():
    owners = [{"operation": "grip", "payer": "owner"}]
    assert payers(in_campaign(labour=owners)[0].labour) == ["owner"]


def test_deductible_caps_and_least_of_the_plan_are_not_of_a_campaign():
    pays = {
        "deductible": {"amount": "25"},
        "claim_cap": "90",
        "claim_least": "10",
        "unit_cap": {"amount": "200", "per": "life"},
    }
    found = in_campaign(a_plan(pays=pays))[1].pays
    assert (found.deductible, found.claim_cap, found.claim_least, found.unit_cap) == (None, None, None, None)


def declined(plan=PLAN, **claim):
    return when_declined(a_claim(**claim), plan)[0]


def test_finding_the_fault_stays_the_makers_where_the_owner_declined_the_repair():
    found = declined(labour=[{"operation": "find"}]).labour[0]
    assert (found.operation, found.payer) == ("find", "maker")


def test_where_the_plan_pays_no_diagnosis_all_work_on_a_declined_repair_is_the_owners():
    assert payers(declined(a_plan(operation=SCHEDULE), labour=[{"operation": "find"}]).labour) == ["owner"]


def test_parts_and_extras_of_a_declined_repair_are_the_owners():
    found = declined(parts=[{"name": "ring", "unit_cost": "10.00"}], extras=[FREIGHT])
    assert payers([*found.parts, *found.extras]) == ["owner", "owner"]


@pytest.mark.parametrize("payer", ["owner", "shop"])
def test_what_another_was_to_pay_of_a_declined_repair_stays_with_them(payer):
    labour, parts = [{"operation": "grip", "payer": payer}], [{"name": "ring", "unit_cost": "1", "payer": payer}]
    found = declined(labour=labour, parts=parts)
    assert payers([*found.labour, *found.parts]) == [payer, payer]


@pytest.mark.parametrize(
    ("operation", "name", "class_"),
    [("grip", "Replace grip", "trim"), ("tank", "tank", ""), ("look about", "look about", "")],
    ids=["its name", "its code where it has no name", "the words that were written"],
)
def test_work_on_a_declined_repair_stands_under_its_name_in_words(operation, name, class_):
    found = declined(labour=[{"operation": operation}]).labour[0]
    assert (found.operation, found.class_) == (name, class_)


def test_the_schedule_of_a_declined_repair_is_that_of_the_diagnosis():
    assert [one.code for one in when_declined(a_claim(), PLAN)[1].operation] == ["find"]
