from datetime import date

import pytest
from builders import a_claim, a_plan, a_window

from claimpack.core.verdict.coverage import hours_left, judge


@pytest.mark.parametrize(
    ("presented", "verdict"),
    [("2026-03-13", "covered"), ("2026-03-14", "covered"), ("2026-03-15", "not covered")],
    ids=["the day before the last", "the last day", "the day after"],
)
def test_the_event_on_the_last_day_is_inside(presented, verdict):
    claim = a_claim(dates__presented=presented, dates__repaired=None)
    assert judge(claim, a_plan()).verdict == verdict


def test_the_day_before_convention_ends_a_day_sooner():
    claim = a_claim(dates__presented="2026-03-14", dates__repaired=None)
    assert judge(claim, a_plan(last_day="day-before")).verdict == "not covered"


@pytest.mark.parametrize(
    ("role", "verdict"), [("presented", "covered"), ("failed", "covered"), ("repaired", "not covered")]
)
def test_the_plan_says_which_day_counts(role, verdict):
    claim = a_claim(dates__repaired="2026-04-01")
    assert judge(claim, a_plan(judged_on=role)).verdict == verdict


def test_a_window_may_start_on_a_date_of_its_own():
    claim = a_claim(dates__in_service="2025-06-01", dates__presented="2026-05-01", dates__repaired=None)
    plan = a_plan(window=[a_window(start=["in_service"])])
    assert judge(claim, plan).window.starts == date(2025, 6, 1)


def test_days_left_count_from_the_day_judged_on():
    assert judge(a_claim(), a_plan()).days_left == (date(2026, 3, 14) - date(2026, 2, 5)).days


def test_hours_left_count_to_the_limit_of_the_window_cited():
    claim = a_claim(unit__hours="112.4")
    assert str(hours_left(claim, judge(claim, a_plan(window=[a_window(hours=300)])))) == "187.6"


def test_hours_left_count_to_a_scheduled_renewal_where_it_comes_first():
    scheduled = [{"component": "short block", "hours": 150}, {"component": "engine", "hours": 10}]
    claim, plan = a_claim(unit__hours="112.4"), a_plan(window=[a_window(hours=300, scheduled=scheduled)])
    assert str(hours_left(claim, judge(claim, plan))) == "37.6"


def test_hours_left_do_not_apply_without_a_limit():
    assert hours_left(a_claim(), judge(a_claim(), a_plan())) is None


@pytest.mark.parametrize(
    ("registered", "verdict"),
    [("2025-03-14", "covered"), ("2025-03-15", "undecided")],
    ids=["no later than it can have failed", "perhaps after it failed"],
)
def test_a_meter_that_is_not_over_opens_nothing_while_it_may_have_failed_before_cover_began(registered, verdict):
    days = {"dates__registered": registered, "dates__failed": None, "dates__presented": "2026-05-05"}
    window = a_window(start=["registered"], hours=300, whichever="last")
    claim = a_claim(**days, dates__repaired=None)
    assert judge(claim, a_plan(judged_on="failed", window=[window])).verdict == verdict


def came_back(repaired, told, **changes):
    """The judgement on a unit over its hours today, which a repair did not mend while it was not."""
    days = {"presented": repaired, "repaired": repaired, "returned": repaired, "told": told}
    earlier = {"component": "short block", "hours": "100", "mended": False, **days}
    plan = a_plan(window=[a_window(hours=300)], repair_time_extends={"by": "calendar", "unmended_within": "P30D"})
    return judge(a_claim(unit__hours="301", earlier=[earlier], **changes), plan)


def test_a_limit_that_was_not_passed_at_a_repair_that_did_not_mend_it_is_open():
    assert came_back("2026-01-20", "2026-01-25").verdict == "undecided"


def test_a_repair_before_cover_began_keeps_no_limit_open():
    assert came_back("2025-03-01", "2025-03-02").verdict == "not covered"


def test_nothing_is_asked_of_a_limit_where_the_window_is_over_by_its_date():
    late = {"dates__presented": "2026-04-01", "dates__repaired": None, "dates__failed": None}
    (window,) = came_back("2026-03-20", "2026-03-25", **late).windows
    assert [reason.outcome for reason in window.reasons if reason.rule == "hours"] == ["fail"]


@pytest.mark.parametrize(
    ("start", "told"),
    [
        (None, []),
        (["delivered", "purchased"], []),
        (["in_service"], ["start.from"]),
        (["registered"], ["start.never-registered"]),
    ],
    ids=["none", "the plan's", "another", "one that never comes"],
)
def test_a_start_of_its_own_is_told_once_where_it_is_not_the_plans(start, told):
    claim = a_claim(dates__in_service="2025-06-01", dates__never_registered=True)
    (window,) = judge(claim, a_plan(window=[a_window(start=start)])).windows
    assert [reason.says.key for reason in window.reasons if reason.says.key.startswith("start.")] == told
