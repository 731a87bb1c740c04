"""A unit in stock is covered for a year from the dealer's invoice, else from the day it was built."""

from __future__ import annotations

import pytest
from written_terms import assessed

BOOKLET = """
start = ["delivered", "purchased"]
start_stock = ["invoiced", "built"]

[[window]]
id = "unit"
covers = ["*"]
period = "P1Y"
first_owner_only = true
registered_within = "P30D"
registered_adds = "P1Y"

[[window]]
id = "law"
covers = ["fuel tank"]
period = "P2Y"
start = ["delivered"]
"""


def judged(unit: str, presented: str, more: str = "", plan: str = BOOKLET) -> tuple[str, str, tuple[str, ...]]:
    """The verdict, the day cover starts, and what is asked for."""
    claim = f"""
case = "stock"
owner = {{}}
unit = {{{unit}}}
dates = {{presented = {presented}{more}}}
failure = {{component = "fuel tank"}}
"""
    found = assessed(plan, claim)
    return found.verdict, str(found.starts), found.asks


@pytest.mark.parametrize(
    ("presented", "verdict"), [("2026-01-26", "covered"), ("2026-01-27", "covered"), ("2026-01-28", "not covered")]
)
def test_it_is_covered_for_a_year_from_the_invoice(presented, verdict):
    assert judged("built = 2025-01-10, invoiced = 2025-01-27", presented) == (verdict, "2025-01-27", ())


def test_without_an_invoice_it_is_covered_from_the_day_it_was_built():
    assert judged("built = 2025-01-10", "2026-01-10") == ("covered", "2025-01-10", ())


def test_without_both_days_the_first_is_asked_for():
    assert judged("", "2026-01-10")[2] == ("unit.invoiced",)


def test_a_unit_is_built_before_it_is_invoiced():
    plan = BOOKLET.replace('["invoiced", "built"]', '{latest = ["built", "invoiced"]}')
    assert judged("invoiced = 2025-01-27", "2025-02-01", plan=plan)[:2] == ("covered", "2025-01-27")


def test_a_later_sale_changes_nothing():
    assert judged("invoiced = 2025-01-27", "2026-01-27", ", purchased = 2026-02-01")[:2] == ("covered", "2025-01-27")


def test_a_window_that_starts_with_the_delivery_has_not_started():
    claim = 'case = "stock"\nunit = {invoiced = 2025-01-27}\ndates = {presented = 2025-02-01}'
    law = assessed(BOOKLET, claim).windows[1]
    assert {reason.says.key for reason in law.reasons if reason.outcome == "fail"} == {"start.not-sold"}


def test_a_plan_that_says_nothing_of_stock_leaves_it_open():
    plan = BOOKLET.replace('start_stock = ["invoiced", "built"]', "")
    assert judged("invoiced = 2025-01-27", "2025-02-01", plan=plan)[::2] == ("undecided", ("start_stock",))


def test_plans_by_day_of_sale_go_by_the_invoice():
    plan = "sold_from = 2025-01-27\n" + BOOKLET
    assert judged("invoiced = 2025-01-27", "2025-02-01", plan=plan)[0] == "covered"
