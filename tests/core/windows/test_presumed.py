from datetime import date

import pytest
from builders import a_plan, a_window

from claimpack.core.windows.judged_days import JudgedDay, known_day
from claimpack.core.windows.presumed import presumed
from claimpack.core.windows.reasons import passes

PLAN = a_plan(window=[a_window(presumed_within="P1Y")])


@pytest.mark.parametrize(
    ("on", "is_presumed"), [("2025-03-13", False), ("2025-03-14", True), ("2026-03-14", True), ("2026-03-15", False)]
)
def test_a_fault_is_presumed_from_the_first_to_the_last_day_of_its_time(on, is_presumed):
    event = known_day(date.fromisoformat(on), passes("event", "event.on"))
    assert bool(presumed(PLAN, PLAN.window[0], date(2025, 3, 14), event)) is is_presumed


@pytest.mark.parametrize(
    ("window", "plan", "until"),
    [
        ({"last_day": "day-before"}, {}, "2026-03-13"),
        ({}, {"last_day": "day-before"}, "2026-03-13"),
        ({}, {}, "2026-03-14"),
    ],
    ids=["the window says so", "the plan says so", "nothing is said"],
)
def test_the_time_ends_by_the_last_day_of_the_window_or_its_plan(window, plan, until):
    event = known_day(date(2025, 4, 1), passes("event", "event.on"))
    terms = a_plan(window=[a_window(presumed_within="P1Y", **window)], **plan)
    (told,) = presumed(terms, terms.window[0], date(2025, 3, 14), event)
    assert told.says.facts["until"] == until


@pytest.mark.parametrize(
    ("window", "starts", "on"),
    [
        ({}, date(2025, 3, 14), date(2025, 4, 1)),
        ({"presumed_within": "P1Y"}, None, date(2025, 4, 1)),
        ({"presumed_within": "P1Y"}, date(2025, 3, 14), None),
    ],
    ids=["no such time", "no start", "no day judged on"],
)
def test_without_its_time_or_one_of_its_days_nothing_is_presumed(window, starts, on):
    event = JudgedDay(on, passes("event", "event.on"), date(2025, 4, 1), date(2025, 4, 1))
    plan = a_plan(window=[a_window(**window)])
    assert presumed(plan, plan.window[0], starts, event) == []
