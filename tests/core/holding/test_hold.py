from datetime import date

import pytest
from builders import a_plan

from claimpack.core.holding.hold import ClaimsHold, HoldRule, Starts, hold_in_force, hold_of

DAYS = Starts(filed=date(2026, 3, 31), paid=date(2026, 5, 1), repaired=date(2026, 2, 24))
HOLD = HoldRule(period="P90D", of="filed")
LONGER = a_plan(hold={"for": "P6M", "of": "paid"})


@pytest.mark.parametrize(
    ("of", "until"),
    [("filed", date(2026, 6, 29)), ("paid", date(2026, 7, 30)), ("repaired", date(2026, 5, 25))],
)
def test_a_part_is_held_from_the_day_the_plan_says(of, until):
    assert hold_of(a_plan(hold={"for": "P90D", "of": of})).until(DAYS) == until


def test_a_hold_without_its_first_day_has_no_last():
    assert ClaimsHold(HoldRule(period="P90D", of="paid"), Starts(filed=date(2026, 3, 31))).until is None


def test_a_hold_is_said_with_what_it_is_counted_from():
    assert (HOLD.terms, HOLD.in_short) == (
        "90 days from the day it is filed, or until the maker releases it",
        "90 days from filing",
    )


@pytest.mark.parametrize("plan", [None, a_plan()])
def test_without_a_rule_a_part_is_held_until_the_maker_lets_it_go(plan):
    rule = hold_of(plan)
    assert (rule.until(DAYS), rule.terms, rule.in_short) == (None, "until the maker releases it", "until released")


def test_a_claim_in_the_book_goes_by_its_plan_as_that_reads_today():
    assert hold_in_force("halden-test", HOLD, {"halden-test": LONGER}) == HoldRule(period="P6M", of="paid")


def test_a_plan_that_took_its_hold_out_holds_nothing():
    assert hold_in_force("halden-test", HOLD, {"halden-test": a_plan()}) == HoldRule()


def test_a_plan_that_is_gone_counts_as_it_read():
    assert hold_in_force("halden-test", HOLD, {"other": LONGER}) == HOLD
