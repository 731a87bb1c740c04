import pytest
from assessed_claims import assessed
from builders import CAMPAIGN, a_plan, a_window

BLADE = {"failure__component": "blade", "parts": [{"name": "Blade", "unit_cost": "14.20"}]}


def test_nothing_is_claimed_of_what_is_not_covered():
    amounts = assessed(**BLADE).amounts
    assert (str(amounts.claimed), str(amounts.parts), str(amounts.would_be)) == ("0.00", "0.00", "14.20")


@pytest.mark.parametrize("component", ["short block", None], ids=["covered", "undecided"])
def test_what_is_not_refused_is_claimed(component):
    amounts = assessed(**BLADE | {"failure__component": component}).amounts
    assert (str(amounts.claimed), amounts.would_be) == ("14.20", None)


@pytest.mark.parametrize(("hours", "claimed", "complete"), [(None, "0.00", False), ("1", "92.00", True)])
def test_a_plan_that_pays_the_clock_pays_nothing_without_one_and_waits_for_it(hours, claimed, complete):
    plan = a_plan(operation=[{"code": "sb", "hours": "1.6"}], pays__claim_time="actual")
    found = assessed(plan, labour=[{"operation": "sb", "hours": hours}])
    assert (str(found.amounts.claimed), found.complete) == (claimed, complete)


@pytest.mark.parametrize(
    ("case", "claimed"),
    [
        ({"case": "campaign", "campaign": "C-1"}, "36.80"),
        ({"case": "campaign", "campaign": "C-1", "unit__serials": [{"role": "unit", "value": "HC70-10"}]}, "0.00"),
        ({"campaign": "C-1"}, "92.00"),
    ],
    ids=["a campaign", "another serial number", "a repair"],
)
def test_a_campaign_is_paid_by_its_own_schedule_where_it_reaches_the_unit(case, claimed):
    # 0.4 h x 92.00 by the campaign; 1 h x 92.00 by the clock
    found = assessed(a_plan(campaign=[CAMPAIGN]), labour=[{"operation": "C-1", "hours": "1"}], **case)
    assert str(found.amounts.claimed) == claimed


@pytest.mark.parametrize(("case", "claimed"), [("declined", "0.00"), ("repair", "14.20")])
def test_nothing_is_claimed_of_a_repair_that_was_declined(case, claimed):
    found = assessed(case=case, parts=[{"name": "Block", "unit_cost": "14.20"}])
    assert str(found.amounts.claimed) == claimed


@pytest.mark.parametrize(
    ("words", "keys"),
    [
        (["short block"], []),
        (["short block", "engine"], ["price.of-failure"]),
        (["blade", "short block"], ["price.failure-closed"]),
    ],
    ids=["one failure", "several", "one that is not covered"],
)
def test_a_line_names_its_failure_once_where_there_are_several(words, keys):
    failures = [{"component": word} for word in words]
    found = assessed(failure=failures, parts=[{"name": "Block", "unit_cost": "14.20"}])
    assert [note.key for note in found.price.lines[0].notes] == keys


def test_a_favour_is_paid_whole_whatever_share_the_window_would_pay():
    plan = a_plan(window=[a_window(period="P6M", pays=["labour"])])
    found = assessed(plan, case="goodwill", parts=[{"name": "Block", "unit_cost": "14.20"}])
    assert str(found.amounts.claimed) == "14.20"
