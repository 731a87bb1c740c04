"""Finding the fault is paid half an hour at most, and only where what failed is covered; else the owner pays it."""

from __future__ import annotations

from decimal import Decimal

import pytest
from booklets import notes, told, totals, under

BOOKLET = """
operation = [ {code = "find-fault", name = "Find the fault", hours = "1.0"}, {code = "grip", hours = "0.4"} ]
[pays]
labour_rate = "92.00"
diagnosis = {operation = "find-fault", hours = "0.5", only_if = "covered", else = "owner"}
"""
TOO_LATE = "dates = {presented = 2026-03-15, repaired = 2026-03-15}\n"
WORK = 'labour = [ {operation = "find-fault"}, {operation = "grip"} ]'


def test_what_is_beyond_the_limit_is_the_shop_s():
    # 0.5 h x 92.00 = 46.00 of 1.0 h, 92.00; 0.4 h x 92.00 = 36.80
    assert told(under(BOOKLET, WORK)) == [
        ("Find the fault", "46.00", "0.00", "maker"),
        ("Find the fault", "46.00", "0.00", "shop"),
        ("grip", "36.80", "0.00", "maker"),
    ]


def test_the_line_shows_the_hours_that_are_claimed():
    assert under(BOOKLET, WORK).price.lines[0].quantity == Decimal("0.5")


@pytest.mark.parametrize(("hours", "shop"), [("0.4", "0.00"), ("0.5", "0.00"), ("0.6", "9.20")])
def test_the_limit_is_for_all_entries_together(hours, shop):
    # free text, claimed as stated: 0.6 h is 0.1 h x 92.00 beyond
    plan = '[pays]\nlabour_rate = "92.00"\ndiagnosis = {operation = "look into it", hours = "0.5"}'
    entry = '{operation = "look into it", hours = "%s"}'
    first, second = "0.3", {"0.4": "0.1", "0.5": "0.2", "0.6": "0.3"}[hours]
    assert totals(under(plan, f"labour = [ {entry % first}, {entry % second} ]"), "shop") == (shop,)


@pytest.mark.parametrize(("payer", "owner", "shop"), [("owner", "92.00", "0.00"), ("shop", "0.00", "92.00")])
def test_it_is_somebody_else_s_where_nothing_is_covered(payer, owner, shop):
    plan = BOOKLET.replace('else = "owner"', f'else = "{payer}"')
    found = under(plan, TOO_LATE + WORK)
    assert totals(found, "claimed", "would_be", "owner", "shop") == ("0.00", "36.80", owner, shop)


def test_the_line_says_why():
    assert notes(under(BOOKLET, TOO_LATE + WORK))[-1] == (
        "The plan pays for diagnosis only where what failed is covered."
    )


@pytest.mark.parametrize(("dates", "hours"), [("", ["0.5", "0.4"]), (TOO_LATE, ["0", "0"])])
def test_the_hours_of_an_entry_are_those_that_are_claimed(dates, hours):
    price = under(BOOKLET, dates + WORK).price
    assert [f"{time.claimed.normalize():f}" for time in price.labour] == hours


def test_the_line_is_of_the_failure_that_was_sought():
    one = '{{component = "{}", cause = "It broke.", correction = "Renewed.", defect = "{}"}}'
    failed = f"failure = [ {one.format('grip', 'material')}, {one.format('short block', 'wear')} ]\n"
    plan = BOOKLET + '[excluded]\ndefects = ["wear"]\n'
    price = under(plan, failed + 'labour = [ {operation = "find-fault", failure = 2} ]').price
    (line,) = price.lines
    assert (line.failure, line.payer, "price.failure-closed" in [n.key for n in line.notes]) == (2, "owner", True)
