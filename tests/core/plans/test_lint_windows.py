import re

import pytest
from builders import a_plan, a_window

from claimpack.core.plans.lint import lint
from claimpack.core.plans.lint_windows import (
    repair_time_twice,
    second_owners_better_off,
    shares_of_two_kinds,
    shares_that_end_early,
    shorter_inside_longer,
    starts_in_vain,
    windows_for_nobody,
)

ONE_YEAR_IN_FULL = [{"until": "P12M", "maker": "1"}]


def test_shares_that_end_before_the_window_are_told():
    shares = [{"until": "P6M", "maker": "1"}]
    assert "window engine: its shares end after 6 months" in " ".join(lint(a_plan(window=[a_window(shares=shares)])))


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ({}, False),
        ({"registered_within": "P30D", "registered_adds": "P1Y"}, True),
        ({"repair_adds": "P12M"}, True),
    ],
    ids=["as long as the window", "longer for a registered unit", "longer for a repaired unit"],
)
def test_shares_that_end_before_what_makes_cover_longer_are_told(more, told):
    found = list(shares_that_end_early(a_plan(window=[a_window(shares=ONE_YEAR_IN_FULL, **more)])))
    assert [doubt.startswith("window engine: its shares end after 12 months") for doubt in found] == [True] * told


@pytest.mark.parametrize(
    ("share", "told"),
    [
        ({"of": "P12M"}, []),
        ({"of": "P12M", "full_until": "P6M"}, []),
        ({"until": "P12M", "maker": "0"}, []),
        ({"of": "P12M", "maker": "0"}, ["maker"]),
        ({"of": "P12M", "until": "P6M"}, ["until"]),
    ],
    ids=["months left", "in full at first", "a step", "with a maker's share", "with a last day"],
)
def test_shares_by_the_months_left_beside_a_step_are_told(share, told):
    found = shares_of_two_kinds(a_plan(window=[a_window(shares=[share])]))
    assert [re.search(r"of beside (\w+)", doubt)[1] for doubt in found] == told


@pytest.mark.parametrize(("more", "told"), [({"repair_adds": "P12M"}, True), ({"period": "P2Y"}, False)])
def test_what_makes_a_window_longer_than_its_shares_is_told_beside_its_period(more, told):
    (doubt,) = shares_that_end_early(a_plan(window=[a_window(shares=ONE_YEAR_IN_FULL, **more)]))
    assert ("though it may last" in doubt) is told


@pytest.mark.parametrize(
    ("start", "told"),
    [
        (["purchased"], 0),
        (["purchased", "delivered"], 0),
        (["purchased", {"of": "purchased", "plus": "P1Y"}], 1),
        ({"latest": ["registered"]}, 1),
        ({"latest": ["registered", "purchased"]}, 0),
        ({"latest": ["registered", {"of": "registered", "plus": "P1Y"}]}, 1),
    ],
    ids=["one", "the first of two", "a day twice", "the latest of one", "the latest of two", "the latest of one twice"],
)
@pytest.mark.parametrize("where", ["plan", "window"])
def test_a_start_of_one_day_twice_or_of_one_picked_out_of_one_is_told(where, start, told):
    plan = a_plan(start=start) if where == "plan" else a_plan(window=[a_window(start=start)])
    assert len(list(starts_in_vain(plan))) == told


@pytest.mark.parametrize(
    ("role", "told"),
    [("purchased", 1), ("delivered", 1), ("registered", 1), ("invoiced", 0), ("built", 0), ("in_service", 0)],
)
def test_a_unit_in_stock_has_come_to_no_day_of_a_sale(role, told):
    assert len(list(starts_in_vain(a_plan(start_stock=[role])))) == told


@pytest.mark.parametrize(
    ("owners", "told"),
    [
        ({"then": "P364D"}, 0),
        ({"then": "P1Y"}, 1),
        ({"then": "P13M"}, 1),
        ({"transfer_within": "P30D"}, 0),
        (None, 0),
    ],
)
def test_a_second_owners_period_that_cuts_nothing_short_is_told(owners, told):
    assert len(list(second_owners_better_off(a_plan(window=[a_window(owners=owners)])))) == told


@pytest.mark.parametrize(
    ("of_plan", "of_window", "told"),
    [
        ("calendar", "calendar", 1),
        ("calendar", None, 0),
        (None, "calendar", 0),
        ({"by": "calendar", "sold_in": ["US-CA"]}, "calendar", 0),
    ],
    ids=["of the plan and a window", "of the plan", "of a window", "of the plan for one place"],
)
def test_time_in_repair_that_the_plan_and_a_window_both_count_is_told(of_plan, of_window, told):
    plan = a_plan(repair_time_extends=of_plan, window=[a_window(repair_time_extends=of_window)])
    assert len(list(repair_time_twice(plan))) == told


@pytest.mark.parametrize(
    ("second", "told"),
    [({"covers": ["Short-Block", "engine"]}, 1), ({"covers": ["engine"]}, 0), ({"period": "P13M"}, 0)],
    ids=["in another order", "of fewer components", "for longer"],
)
def test_a_window_that_says_what_one_before_it_says_is_told(second, told):
    assert len(list(windows_for_nobody(a_plan(window=[a_window(), a_window(id="again", **second)])))) == told


LONGER = {"id": "longer", "period": "P2Y"}


@pytest.mark.parametrize(
    ("inner", "outer"),
    [
        ({}, LONGER),
        ({}, {**LONGER, "covers": ["*"]}),
        ({}, {**LONGER, "covers": ["Short Block", "engine", "gear case"]}),
        ({"uses": ["rental"]}, LONGER),
        ({"uses": ["rental"]}, {**LONGER, "uses": ["household", "rental"]}),
        ({"sold_in": ["US-CA"]}, LONGER),
        ({"hours": 100}, {"id": "longer", "hours": 300}),
        ({"hours": 100}, {"id": "longer"}),
        ({"hours": 100}, {**LONGER, "hours": 100}),
        ({"hours": 100, "whichever": "last"}, {**LONGER, "hours": 100, "whichever": "last"}),
        ({"first_owner_only": True}, LONGER),
        ({"first_owner_only": True}, {**LONGER, "first_owner_only": True}),
        ({"despite_exclusions": True}, {**LONGER, "despite_exclusions": True}),
        ({}, {**LONGER, "despite_exclusions": True}),
        ({"cites": "p. 4", "name": "short"}, LONGER),
        ({"period": "P365D"}, {"id": "longer", "period": "P12M"}),
        ({"period": "P3Y"}, {"id": "longer", "period": "P1096D"}),
    ],
)
def test_a_shorter_window_for_no_more_than_a_longer_one_never_decides(inner, outer):
    plan = a_plan(window=[a_window(**inner), a_window(**outer)])
    assert [doubt.split(":")[0] for doubt in shorter_inside_longer(plan)] == ["window engine"]


@pytest.mark.parametrize(
    ("inner", "outer"),
    [
        ({}, {"id": "as-long", "covers": ["*"]}),
        ({}, {**LONGER, "covers": ["engine"]}),
        ({}, {**LONGER, "uses": ["rental"]}),
        ({"uses": ["household"]}, {**LONGER, "uses": ["rental"]}),
        ({"uses": ["household", "rental"]}, {**LONGER, "uses": ["rental"]}),
        ({}, {**LONGER, "sold_in": ["US-CA"]}),
        ({}, {**LONGER, "hours": 300}),
        ({"hours": 300}, {**LONGER, "hours": 100}),
        ({"hours": 100, "whichever": "last"}, {**LONGER, "hours": 300, "whichever": "last"}),
        ({}, {**LONGER, "first_owner_only": True}),
        ({"despite_exclusions": True}, LONGER),
        ({}, {**LONGER, "pays": ["parts"]}),
        ({"hours": 100}, {"id": "sooner", "period": "P6M"}),
        ({"period": "P1M"}, {"id": "days", "period": "P30D"}),
    ],
)
def test_a_window_that_some_longer_one_does_not_hold_for_may_decide(inner, outer):
    assert list(shorter_inside_longer(a_plan(window=[a_window(**inner), a_window(**outer)]))) == []


def test_windows_are_compared_by_the_last_day_as_each_counts_it():
    day_more = [a_window(last_day="day-before"), a_window(id="day-more", last_day="anniversary")]
    assert [doubt.split(":")[0] for doubt in shorter_inside_longer(a_plan(window=day_more))] == ["window engine"]
