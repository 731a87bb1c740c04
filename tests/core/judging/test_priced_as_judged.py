import pytest
from assessed_claims import assessed
from builders import a_plan

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
