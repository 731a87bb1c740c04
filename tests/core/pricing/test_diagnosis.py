"""Finding the fault: what counts as it, and how many hours of it are paid."""

from __future__ import annotations

from decimal import Decimal

import pytest
from builders import a_claim, a_plan

from claimpack.core.pricing.labour import hours_paid, is_diagnosis, labour_times
from claimpack.core.pricing.pricing import price

SCHEDULE = [{"code": "d-1", "name": "Find the fault", "hours": "1.0"}, {"code": "d-2", "hours": "1.0"}]


def plan_for(operation="d-1", hours="0.5", rate="92.00"):
    diagnosis = {"operation": operation, **({"hours": hours} if hours else {})}
    return a_plan(operation=SCHEDULE, pays={"labour_rate": rate, "diagnosis": diagnosis})


@pytest.mark.parametrize(
    ("terms", "said", "found"),
    [
        ("d-1", "D-1", True),
        ("d-1", "find the fault", True),
        ("d-1", "d-2", False),
        ("d-2", "d-2", True),
        ("d-2", "Find the fault", False),
        ("look into it", "Look into it", True),
        ("look into it", "d-1", False),
    ],
    ids=["its code", "its name", "another", "one without a name", "another's name", "free text", "not the free text"],
)
def test_work_is_the_diagnosis_under_the_code_or_the_name_it_has_in_the_schedule(terms, said, found):
    assert is_diagnosis(said, plan_for(terms)) is found


def test_no_work_is_the_diagnosis_where_the_plan_has_no_terms_for_it():
    assert not is_diagnosis("d-1", a_plan(operation=SCHEDULE))


@pytest.mark.parametrize(
    ("labour", "limit", "paid"),
    [
        ([{}], "0.5", ["0.5"]),
        ([{}], None, ["1.0"]),
        ([{"payer": "owner"}], "0.5", ["1.0"]),
        ([{"operation": "d-2"}], "0.5", ["1.0"]),
        ([{"operation": "find the fault", "hours": "0.3"}] * 2, "0.5", ["0.3", "0.2"]),
        ([{"payer": "owner", "operation": "find the fault", "hours": "0.4"}, {}], "0.5", ["0.4", "0.5"]),
    ],
    ids=[
        "up to the limit",
        "no limit",
        "the owner's",
        "other work",
        "two entries together",
        "the owner's takes nothing of it",
    ],
)
def test_hours_of_diagnosis_are_paid_by_the_maker_up_to_its_limit(labour, limit, paid):
    plan = plan_for(hours=limit)
    claim = a_claim(labour=[{"operation": "d-1", **entry} for entry in labour])
    assert [f"{hours:.1f}" for hours in hours_paid(labour_times(claim, plan), plan)] == paid


def lines(*labour, **terms):
    return price(a_claim(labour=list(labour)), plan_for(**terms)).lines


def test_a_diagnosis_within_its_limit_is_one_line():
    assert [line.payer for line in lines({"operation": "d-1"}, hours="1.0")] == ["maker"]


def test_a_diagnosis_that_nobody_timed_stays_on_the_claim_at_nothing():
    (line,) = lines({"operation": "look"}, operation="look")
    assert (line.payer, line.quantity, line.amount) == ("maker", 0, 0)


def test_a_diagnosis_beyond_a_limit_that_is_used_up_is_wholly_the_shops():
    (line,) = lines({"operation": "d-1"}, hours="0")
    assert (line.payer, line.amount, line.is_rest) == ("shop", Decimal("92.00"), True)


def test_a_diagnosis_at_no_rate_stays_on_the_claim_though_no_hour_of_it_is_paid():
    (line,) = lines({"operation": "d-1"}, hours="0", rate="0")
    assert (line.quantity, line.amount) == (0, 0)
