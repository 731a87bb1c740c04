from __future__ import annotations

from datetime import date

import pytest
from builders import a_claim, a_plan

from claimpack.core.pricing.unit_cap import NOTHING_BEFORE, paid_before

EARLIER = {"component": "short block", "repaired": "2025-09-01", "paid": "40.00"}


def before(per="year", starts=date(2025, 3, 14), earlier=(EARLIER,)):
    """What the repairs before count for, under a cap of 100.00."""
    plan = a_plan(pays={"labour_rate": "92.00", "unit_cap": {"amount": "100.00", "per": per}})
    return paid_before(a_claim(earlier=list(earlier)), plan, starts)


def test_a_plan_without_a_cap_asks_nothing():
    assert paid_before(a_claim(earlier=[EARLIER]), a_plan(), None) == NOTHING_BEFORE == (0, (), False)


@pytest.mark.parametrize(
    ("how", "is_open"),
    [
        ({"starts": None}, True),
        ({"starts": None, "per": "life"}, False),
        ({"starts": None, "earlier": ()}, False),
        ({}, False),
    ],
    ids=["start not known", "a cap for life", "no repair before", "start known"],
)
def test_the_year_is_open_where_a_repair_may_fall_into_it(how, is_open):
    assert before(**how).year_open is is_open


@pytest.mark.parametrize(("paid", "count"), [("99.99", 1), ("100.00", 0), ("100.01", 0)])
def test_what_nobody_says_matters_until_the_cap_is_reached(paid, count):
    found = before("life", earlier=({**EARLIER, "paid": paid}, {**EARLIER, "paid": None}))
    assert len(found.not_said) == count


@pytest.mark.parametrize(("repaired", "paid"), [("2025-03-13", "0"), ("2025-03-14", "40.00"), ("2025-03-15", "40.00")])
def test_a_repair_counts_from_the_first_day_of_cover(repaired, paid):
    assert str(before(earlier=({**EARLIER, "repaired": repaired},)).paid) == paid


@pytest.mark.parametrize(("repaired", "paid"), [("2026-03-13", "0"), ("2026-03-14", "0"), ("2026-03-15", "40.00")])
def test_a_year_of_cover_ends_with_its_last_day(repaired, paid):
    plan = a_plan(pays={"labour_rate": "92.00", "unit_cap": {"amount": "100.00", "per": "year"}})
    claim = a_claim(
        earlier=[{**EARLIER, "repaired": repaired}], dates__presented="2026-03-16", dates__repaired="2026-03-20"
    )
    assert str(paid_before(claim, plan, date(2025, 3, 14)).paid) == paid


@pytest.mark.parametrize(
    ("dates", "paid"),
    [
        ({"dates__presented": "2026-03-10", "dates__repaired": "2026-03-20"}, "0"),
        ({"dates__presented": "2026-03-10", "dates__repaired": None}, "40.00"),
        ({"dates__presented": "2026-03-15", "dates__repaired": None}, "0"),
    ],
    ids=["repaired in the next year of cover", "not repaired yet", "brought in in the next year"],
)
def test_a_claim_counts_in_the_year_of_its_repair_else_of_the_day_it_was_brought_in(dates, paid):
    plan = a_plan(pays={"labour_rate": "92.00", "unit_cap": {"amount": "100.00", "per": "year"}})
    assert str(paid_before(a_claim(earlier=[EARLIER], **dates), plan, date(2025, 3, 14)).paid) == paid


def test_a_cap_for_life_counts_what_was_paid_before_cover_started():
    assert str(before("life", earlier=({**EARLIER, "repaired": "2020-01-02"},)).paid) == "40.00"


def test_what_was_paid_for_every_repair_that_counts_is_added_up():
    assert str(before(earlier=(EARLIER, {**EARLIER, "paid": None}, {**EARLIER, "paid": "5.00"})).paid) == "45.00"


def test_of_repairs_that_count_those_are_named_of_which_nobody_says_what_was_paid():
    found = before(earlier=(EARLIER, {**EARLIER, "component": "starter", "paid": None}))
    assert [repair.component for repair in found.not_said] == ["starter"]
