from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from builders import a_plan

from claimpack.core.drafting.imagined import NOTHING_ASKED, TrialAsked, axes_of
from claimpack.core.drafting.imagined_claims import ANY_OTHER
from claimpack.core.values.periods import Period

SOLD = date(2025, 3, 14)
UNIT, ENGINE = (
    {"id": "unit", "covers": ["*"], "period": "P12M"},
    {"id": "engine", "covers": ["engine"], "period": "P24M"},
)


def axes(asked=NOTHING_ASKED, **window):
    return axes_of([a_plan(window=[UNIT, {**ENGINE, **window}])], SOLD, asked)


def days(found):
    return [(str(age.period or ""), age.days) for age in found.ages]


def test_ages_are_the_day_of_the_sale_and_three_days_around_the_end_of_each_period():
    ends = [("P12M", -1), ("P12M", 0), ("P12M", 1), ("P24M", -1), ("P24M", 0), ("P24M", 1)]
    assert days(axes()) == [("", 0), *ends]


@pytest.mark.parametrize(
    ("of_plan", "of_window", "last"),
    [
        ("anniversary", None, 14),
        ("day-before", None, 13),
        ("anniversary", "day-before", 13),
        ("day-before", "anniversary", 14),
    ],
)
def test_a_last_day_is_counted_as_the_window_says_else_as_the_plan_says(of_plan, of_window, last):
    own = {"last_day": of_window} if of_window else {}
    ages = axes_of([a_plan(window=[UNIT | own], last_day=of_plan)], SOLD).ages
    assert [age.day for age in ages if age.period and not age.days] == [date(2026, 3, last)]


def test_of_two_periods_that_end_on_two_days_in_a_row_each_last_day_counts_as_its_own():
    found = axes_of([a_plan(window=[{**UNIT, "period": "P30D"}, {**ENGINE, "period": "P31D"}])], SOLD)
    assert days(found) == [("", 0), ("P30D", -1), ("P30D", 0), ("P31D", 0), ("P31D", 1)]


def test_a_unit_registered_in_time_is_looked_at_where_it_ends_later():
    assert ("P36M", 0) in days(axes(registered_within="P30D", registered_adds="P12M"))


def test_ages_at_which_shares_fall_are_looked_at():
    assert ("P6M", 1) in days(axes(shares=[{"until": "P6M", "maker": "1"}, {"until": "P24M", "maker": "0.50"}]))


def test_ages_asked_for_are_looked_at_alone():
    assert days(axes(TrialAsked(ages=(Period(months=18),)))) == [("", 0), ("P18M", -1), ("P18M", 0), ("P18M", 1)]


def test_components_that_every_window_treats_alike_are_a_group():
    assert axes(covers=["engine", "short block"]).components == ((ANY_OTHER, "blade"), ("engine", "short block"))


def test_an_excluded_component_is_a_group_of_its_own():
    plan = a_plan(window=[UNIT], excluded={"components": ["air filter"]}, words={})
    assert axes_of([plan], SOLD).components == ((ANY_OTHER,), ("air filter",))


def test_a_meter_is_read_at_its_limit_and_just_beyond():
    found = [unit for unit in axes(hours=300).units if unit.says]
    assert [(unit.says, dict(unit.readings)["hours"]) for unit in found] == [
        ("300 hours", Decimal(300)),
        ("more than 300 hours", Decimal("300.1")),
    ]


def test_a_fact_that_no_window_goes_by_is_not_varied():
    assert [unit.says for unit in axes().units] == [""]


def test_units_that_windows_make_a_difference_by_are_tried():
    found = axes(registered_within="P30D", first_owner_only=True, sold_in=["US-CA"]).units
    assert [unit.says for unit in found] == [
        "",
        "not registered",
        "sold again at once, and the maker told",
        "sold in US-CA",
    ]


def test_a_unit_is_what_is_said_of_it():
    found = {unit.says: unit for unit in axes(registered_within="P30D", first_owner_only=True).units}
    assert {says: (unit.registered, unit.first_owner) for says, unit in found.items()} == {
        "": (True, True),
        "not registered": (False, True),
        "sold again at once, and the maker told": (True, False),
    }


def test_the_first_unit_is_of_the_first_model_year_and_one_of_each_other_is_tried():
    windows = [{**UNIT, "model_years": [2024, 2025]}, {**ENGINE, "model_years": [2026, 2026]}]
    found = axes_of([a_plan(window=windows)], SOLD).units
    assert [(unit.says, unit.model_year) for unit in found] == [("", 2024), ("model year 2026", 2026)]


@pytest.mark.parametrize(("limits", "tried"), [([], False), ([{"meter": "cycles", "at": "5000"}], True)])
def test_where_the_last_of_several_limits_counts_a_unit_beyond_all_of_them_is_tried(limits, tried):
    found = axes(hours=300, limits=limits, whichever="last").units
    assert any(unit.says.startswith("more than every limit") for unit in found) is tried


def test_what_two_plans_make_a_difference_by_is_tried_of_both():
    one, other = a_plan(window=[UNIT]), a_plan(window=[{**UNIT, "period": "P18M"}])
    assert {age.period for age in axes_of([one, other], SOLD).ages} == {None, Period(months=12), Period(months=18)}


def test_a_registration_that_adds_a_year_to_one_is_looked_at_as_two_years():
    assert ("P2Y", 0) in days(axes(period="P1Y", registered_within="P30D", registered_adds="P12M"))


def test_hours_asked_for_are_what_the_hour_meter_shows_and_no_other():
    limits = [{"meter": "cycles", "at": "5000"}]
    first = axes(TrialAsked(hours=(Decimal(120),)), hours=300, limits=limits).units[0]
    assert dict(first.readings) == {"cycles": Decimal(0), "hours": Decimal(120)}
