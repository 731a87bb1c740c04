"""Booklets that join several terms, and claims at their edges, each worked out by hand."""

from __future__ import annotations

import pytest
from written_terms import assessed

RING = 'failure = {component = "ring"}\nparts = [ {name = "ring", unit_cost = "360.00"} ]\n'


def found(plan: str, claim: str) -> tuple[str, ...]:
    """The verdict, the last day of the window cited, and what maker, owner and shop pay."""
    assessment = assessed(plan, claim)
    window, amounts = assessment.window, assessment.amounts
    ends = str(window.ends) if window else ""
    return (assessment.verdict, ends, *(str(each) for each in (amounts.claimed, amounts.owner, amounts.shop)))


SHARED_STOCK_AND_SECOND_OWNERS = """
start_stock = ["invoiced"]
[[window]]
id = "unit"
covers = ["*"]
period = "P3Y"
shares = {full_until = "P12M", of = "P36M"}
owners = {transfer_within = "P30D", then = "P18M"}
[[window]]
id = "parts"
covers = ["parts sold"]
period = "P1Y"
shares = [ {until = "P6M", maker = "1"}, {until = "P1Y", maker = "0.5"} ]
rest = "shop"
[pays]
parts_handling = "0.10"
"""
SOLD_AGAIN = "resold = 2024-07-31, transferred = 2024-08-30"


@pytest.mark.parametrize(
    ("dates", "answer"),
    [
        # 360.00 and its handling of 36.00, then 23 and 12 months of 36
        ("presented = 2025-01-31", ("covered", "2027-01-31", "396.00", "0.00", "0.00")),
        ("presented = 2025-02-01", ("covered", "2027-01-31", "253.00", "143.00", "0.00")),
        (f"presented = 2026-01-31, {SOLD_AGAIN}", ("covered", "2026-01-31", "132.00", "264.00", "0.00")),
        (f"presented = 2026-02-01, {SOLD_AGAIN}", ("not covered", "", "0.00", "264.00", "0.00")),
    ],
)
def test_a_second_owner_s_period_ends_and_shares_go_by_the_age_of_the_unit(dates, answer):
    claim = f"dates = {{delivered = 2024-01-31, {dates}}}\n{'owner = {}' if 'resold' in dates else ''}\n{RING}"
    assert found(SHARED_STOCK_AND_SECOND_OWNERS, claim) == answer


def test_a_unit_in_stock_has_the_share_of_its_age_since_the_invoice():
    claim = f'case = "stock"\ndates = {{presented = 2025-02-01}}\nunit = {{invoiced = 2024-01-31}}\n{RING}'
    assert found(SHARED_STOCK_AND_SECOND_OWNERS, claim) == ("covered", "2027-01-31", "253.00", "143.00", "0.00")


@pytest.mark.parametrize(
    ("presented", "paid"), [("2025-07-31", ("396.00", "0.00", "0.00")), ("2025-08-01", ("198.00", "0.00", "198.00"))]
)
def test_a_part_sold_has_shares_from_its_own_receipt(presented, paid):
    sold = 'part_sold = {name = "ring", sold = 2025-01-31, never_fitted = true}'
    claim = f'case = "part"\ndates = {{presented = {presented}}}\n{sold}\n{RING}'
    assert found(SHARED_STOCK_AND_SECOND_OWNERS, claim)[2:] == paid


LAST_OF_TWO_METERS = """
words = {ring = []}
[[window]]
id = "unit"
covers = ["*"]
period = "P12M"
hours = 300
limits = [ {meter = "cycles", at = "5000"} ]
whichever = "last"
[[elsewhere]]
components = ["engine"]
maker = "ampelion"
because = "warranted by the engine's own maker"
[[kit]]
number = "K"
includes = ["G", "G"]
"""


@pytest.mark.parametrize(
    ("unit", "component", "verdict", "claimed"),
    [
        # a kit of 50.00 with two of three gaskets of 7.00 in it
        ('hours = "300", cycles = "5001"', "ring", "covered", "57.00"),
        ('hours = "300.1", cycles = "5000"', "ring", "covered", "57.00"),
        ('hours = "300.1", cycles = "5000.1"', "ring", "not covered", "0.00"),
        ('meter = false, cycles = "5000.1"', "ring", "not covered", "0.00"),
        ('meter = true, cycles = "5000.1"', "ring", "undecided", "57.00"),
        ('hours = "10", cycles = "10"', "engine", "not covered", "0.00"),
    ],
)
def test_the_last_of_two_meters_closes_a_window_that_leaves_the_engine_to_its_maker(unit, component, verdict, claimed):
    read, cycles = unit.split(", cycles = ")
    claim = f"""
dates = {{purchased = 2024-01-31, presented = 2026-06-01}}
unit = {{{read}, meters = [ {{kind = "cycles", value = {cycles}}} ]}}
failure = {{component = "{component}"}}
parts = [ {{number = "K", name = "kit", unit_cost = "50.00"}},
          {{number = "G", name = "gasket", unit_cost = "7.00", quantity = 3}} ]
"""
    assert found(LAST_OF_TWO_METERS, claim)[::2][:2] == (verdict, claimed)


CONTRACTORS = """
uses = ["contractor", "farm"]
[[window]]
id = "unit"
covers = ["*"]
period = "P3Y"
uses = ["contractor"]
[pays]
unit_cap = {amount = "500.00", per = "year"}
deductible = {amount = "50.00"}
claim_least = "20.00"
tax = "0.10"
"""


@pytest.mark.parametrize(
    ("repaired", "before", "cost", "paid"),
    [
        # 100.00 - 50.00, and a tenth: the first year ended with the earlier repair
        ("2025-03-16", ("2025-03-15", "450.00"), "100.00", ("55.00", "50.00", "0.00")),
        # of 200.00 the year has 100.00 left, then 70.00 and 69.00, of which 50.00 is the owner's
        ("2026-03-15", ("2025-03-16", "400.00"), "200.00", ("55.00", "50.00", "100.00")),
        ("2026-03-15", ("2025-03-16", "430.00"), "200.00", ("22.00", "50.00", "130.00")),
        ("2026-03-15", ("2025-03-16", "431.00"), "200.00", ("0.00", "50.00", "150.00")),
    ],
)
def test_a_cap_by_year_a_deductible_a_least_and_a_tax_follow_each_other(repaired, before, cost, paid):
    earlier, amount = before
    claim = f"""
dates = {{delivered = 2024-03-15, presented = {repaired}, repaired = {repaired}}}
unit = {{use = "contractor"}}
earlier = [ {{component = "x", repaired = {earlier}, paid = "{amount}"}} ]
failure = {{component = "ring"}}
parts = [ {{name = "ring", unit_cost = "{cost}"}} ]
"""
    assert found(CONTRACTORS, claim)[2:] == paid


REPAIR_TIME_AND_REPLACED_PARTS = """
repair_time_extends = "calendar"
[[window]]
id = "unit"
covers = ["*"]
period = "P1Y"
[replaced]
period = "P90D"
"""
ENGINE = '{component = "engine", presented = 2025-12-10, repaired = 2025-12-20, returned = 2025-12-24}'
STARTER = '{component = "starter", presented = 2026-03-18, repaired = 2026-03-19, returned = 2026-03-20}'


@pytest.mark.parametrize(
    ("presented", "earlier", "answer"),
    [
        # 90 days from 2025-12-20 end on 2026-03-20; five days in the shop since then, and three in March
        ("2026-03-25", ENGINE, ("covered", "2026-03-25")),
        ("2026-03-26", ENGINE, ("not covered", "")),
        ("2026-03-28", f"{ENGINE}, {STARTER}", ("covered", "2026-03-28")),
        ("2026-03-29", f"{ENGINE}, {STARTER}", ("not covered", "")),
    ],
)
def test_days_in_repair_lengthen_what_a_replaced_part_has(presented, earlier, answer):
    claim = f"dates = {{purchased = 2025-03-01, presented = {presented}}}\nearlier = [ {earlier} ]\n"
    claim += 'failure = {component = "engine"}\n'
    assert found(REPAIR_TIME_AND_REPLACED_PARTS, claim)[:2] == answer


EARLIEST_START_AND_REGISTRATION = """
start = {earliest = ["registered", {of = "purchased", plus = "P30D"}]}
[[window]]
id = "unit"
covers = ["*"]
period = "P1Y"
registered_within = "P30D"
registered_adds = "P6M"
shares = [ {until = "P12M", maker = "1"}, {until = "P18M", maker = "0.50"} ]
"""


@pytest.mark.parametrize(
    ("dates", "answer"),
    [
        ("presented = 2026-02-10, registered = 2025-02-10", ("covered", "2026-08-10", "360.00")),
        ("presented = 2026-02-11, registered = 2025-02-10", ("covered", "2026-08-10", "180.00")),
        ("presented = 2026-08-11, registered = 2025-02-10", ("not covered", "", "0.00")),
        # 30 days after 2025-01-31 is 2025-03-02, in time to register as well
        ("presented = 2026-09-02, registered = 2025-03-02", ("covered", "2026-09-02", "180.00")),
        ("presented = 2026-03-02, registered = 2025-03-03", ("covered", "2026-03-02", "360.00")),
        ("presented = 2026-03-03, never_registered = true", ("not covered", "", "0.00")),
    ],
)
def test_an_earliest_start_bounds_registration_and_shares_alike(dates, answer):
    assert found(EARLIEST_START_AND_REGISTRATION, f"dates = {{purchased = 2025-01-31, {dates}}}\n{RING}")[:3] == answer


A_REPAIR_ADDS = """
repair_time_extends = "calendar"
[[window]]
id = "unit"
covers = ["*"]
period = "P1Y"
repair_adds = "P6M"
"""


@pytest.mark.parametrize(
    ("presented", "days", "answer"),
    [
        # a year and six months end on 2026-07-31, and three days in the shop later
        ("2026-08-03", ("2025-05-01", "2025-05-02", "2025-05-03"), ("covered", "2026-08-03")),
        ("2026-08-04", ("2025-05-01", "2025-05-02", "2025-05-03"), ("not covered", "")),
        # repaired on the last day of the year, and a day too late
        ("2026-02-01", ("2026-01-31", "2026-01-31", "2026-01-31"), ("covered", "2026-08-01")),
        ("2026-02-10", ("2026-02-05", "2026-02-05", "2026-02-05"), ("not covered", "")),
    ],
)
def test_a_repair_within_the_window_adds_to_it_beside_the_days_it_took(presented, days, answer):
    brought, repaired, ready = days
    earlier = f'{{component = "x", presented = {brought}, repaired = {repaired}, returned = {ready}}}'
    claim = f"dates = {{purchased = 2025-01-31, presented = {presented}}}\nearlier = [ {earlier} ]\n{RING}"
    assert found(A_REPAIR_ADDS, claim)[:2] == answer
