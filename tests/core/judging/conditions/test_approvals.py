from datetime import timedelta

import pytest
from builders import TODAY, a_claim, a_plan
from lacked import lacking

from claimpack.core.judging.conditions.approvals import approval
from claimpack.core.judging.conditions.missing_items import ClaimFacts
from claimpack.core.pricing.pricing import price

FREIGHT = {"extras": [{"what": "freight", "amount": "400.00"}]}


@pytest.mark.parametrize(
    ("limit", "lacks"),
    [("400.01", {}), ("400.00", {}), ("399.99", {"approval": True})],
    ids=["below", "equal", "above"],
)
def test_a_claim_above_a_limit_needs_approval(limit, lacks):
    assert lacking(a_plan(requires={"approval_above": limit}), **FREIGHT) == lacks


@pytest.mark.parametrize(("component", "lacks"), [("short block", {"approval": True}), ("ignition coil", {})])
def test_some_components_need_approval(component, lacks):
    plan = a_plan(requires={"approval_components": ["Short Block", "engine"]})
    assert lacking(plan, failure__component=component) == lacks


BIG = a_plan(requires={"approval_above": "100"})


@pytest.mark.parametrize(
    ("approval", "lacks"),
    [
        ({"number": "A-1"}, {}),
        ({"by": "the maker's desk"}, {"approval": True}),
        ({"number": "A-1", "up_to": "400.01"}, {}),
        ({"number": "A-1", "up_to": "400.00"}, {}),
        ({"state": "asked"}, {"approval-answer": True}),
        ({"state": "asked", "number": "A-1"}, {}),
        ({"state": "refused", "number": "A-1"}, {"approval-refused": True}),
        ({"number": "A-1", "up_to": "399.99"}, {"approval-amount": True}),
        ({"number": "A-1", "on": "2026-02-23"}, {}),
        ({"number": "A-1", "on": "2026-02-24"}, {}),
        ({"number": "A-1", "on": "2026-02-25"}, {"approval-day": True}),
        ({"number": "A-1", "expires": "2026-02-24"}, {}),
        ({"number": "A-1", "expires": "2026-02-23"}, {"approval-day": True}),
    ],
)
def test_an_approval_reaches_the_amount_and_holds_on_the_day_of_the_repair(approval, lacks):
    assert lacking(BIG, approval=approval, **FREIGHT) == lacks


def test_the_day_of_an_approval_that_no_plan_asks_for_is_worth_a_look():
    assert lacking(a_plan(), approval={"number": "A-1", "on": "2026-02-25"}, **FREIGHT) == {"approval-date": False}


def test_an_approval_that_ran_out_before_the_repair_must_be_asked_for_again():
    waiting = {"approval": {"number": "A-1", "expires": TODAY.isoformat()}, "dates__repaired": None}
    assert "approval-again" not in lacking(BIG, **waiting, **FREIGHT)
    assert lacking(BIG, today=TODAY + timedelta(1), **waiting, **FREIGHT)["approval-again"]


@pytest.mark.parametrize(
    ("component", "asked"), [("short blocks", True), ("short block assembly", True), ("recoil starter", False)]
)
def test_approval_is_asked_for_a_component_by_another_word(component, asked):
    plan = a_plan(requires__approval_components=["short block"])
    assert ("approval" in lacking(plan, failure__component=component)) is asked


@pytest.mark.parametrize(
    ("said", "key"),
    [
        ({}, "why.approval-refused"),
        ({"on": "2026-02-20"}, "why.approval-refused-on"),
        ({"because": "Worn out."}, "why.approval-refused-for"),
        ({"on": "2026-02-20", "because": "Worn out."}, "why.approval-refused-because"),
    ],
    ids=["no more", "the day", "why", "the day and why"],
)
def test_a_refusal_is_told_with_its_day_and_why_where_they_are_given(said, key):
    claim, plan = a_claim(approval={"state": "refused", **said}), a_plan()
    (found,) = approval(ClaimFacts(claim, plan, price(claim, plan).amounts, TODAY, {}))
    assert found.why.key == key
