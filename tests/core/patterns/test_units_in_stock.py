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


def test_a_meter_opens_no_window_of_a_unit_in_stock_that_nobody_said_the_start_of():
    plan = BOOKLET.replace('start_stock = ["invoiced", "built"]', "").partition('[[window]]\nid = "law"')[0]
    plan += '\nhours = 900\nwhichever = "last"\n'
    assert judged('invoiced = 2025-01-27, hours = "5"', "2025-02-01", plan=plan)[0] == "undecided"


def test_plans_by_day_of_sale_go_by_the_invoice():
    plan = "sold_from = 2025-01-27\n" + BOOKLET
    assert judged("invoiced = 2025-01-27", "2025-02-01", plan=plan)[0] == "covered"


BY_USE = """
start_stock = ["invoiced"]

[[window]]
id = "home"
covers = ["*"]
period = "P1Y"
uses = ["household", "professional"]

[[window]]
id = "rental"
covers = ["*"]
period = "P90D"
uses = ["rental"]

[[window]]
id = "law"
covers = ["*"]
period = "P2Y"
start = ["delivered"]
"""


@pytest.mark.parametrize(
    ("presented", "found"),
    [
        ("2025-03-01", ("covered", ())),
        ("2025-09-01", ("undecided", ("unit.use",))),
        ("2026-09-01", ("not covered", ())),
    ],
)
def test_the_use_a_unit_in_stock_is_meant_for_is_asked_for_only_where_uses_differ(presented, found):
    verdict, _, asks = judged("invoiced = 2025-01-27", presented, plan=BY_USE)
    assert (verdict, asks) == found


def test_nobody_is_said_to_use_a_unit_in_stock():
    claim = """
case = "stock"
owner = {}
unit = {invoiced = 2025-01-27}
dates = {presented = 2025-09-01}
failure = {component = "fuel tank"}
"""
    found = assessed(BY_USE, claim)
    told = [reason.says.key for window in found.windows for reason in window.reasons]
    assert (found.headline.facts["facts_word"], "use.unknown" in told) == ("stock.use", False)
    assert told.count("start.not-sold") == 1
