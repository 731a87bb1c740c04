from datetime import date

import pytest
from aged import ADDS, age, outcome
from builders import a_claim, a_plan, a_window

from claimpack.core.values.periods import Period
from claimpack.core.verdict.coverage import judge
from claimpack.core.windows.limits.age import within
from claimpack.core.windows.reasons import settled


@pytest.mark.parametrize(
    ("event", "key"),
    [
        ("2024-12-31", "event.before-start"),
        ("2025-01-01", "inside"),
        ("2025-12-31", "inside"),
        ("2026-01-01", "last-day"),
        ("2026-01-02", "outside"),
    ],
)
@pytest.mark.parametrize(("length", "form"), [(None, "span"), (Period(years=1), "age")])
def test_an_event_lies_in_a_span_from_its_first_day_to_its_last(event, key, length, form):
    reason = within(date.fromisoformat(event), date(2025, 1, 1), date(2026, 1, 1), length)
    assert reason.says.key == (key if "." in key else f"{form}.{key}")


def test_the_length_of_a_span_is_told_where_it_is_one():
    assert within(date(2025, 1, 1), date(2025, 1, 1), date(2026, 1, 1), Period(years=1)).says.facts["length_period"]


def test_both_limits_are_told_where_both_ran_out():
    reasons = outcome(a_claim(unit__hours="301"), hours=300, period="P6M")
    assert (reasons["age"], reasons["hours"]) == ("fail", "fail")


def test_reasons_settle_to_no_before_they_settle_to_unknown():
    judged = judge(a_claim(unit__hours=None), a_plan(window=[a_window(hours=1, period="P6M")])).windows[0]
    assert settled(judged.reasons) is False


BUILT = {"dates__purchased": None, "dates__delivered": None, "unit__built": "2025-03-14"}
LATE = {"dates__registered": "2026-01-01", "dates__repaired": None}
EARLIER_BUILT = {**BUILT, "unit__built": "2025-03-01", "dates__registered": "2025-04-13"}
NO_PROOF, AFTER_BUILT = {**BUILT, "proof": {"kind": "none"}}, {"start_without_proof": {"from": "built", "after": "P6M"}}


@pytest.mark.parametrize(
    ("claim", "plan", "window", "found"),
    [
        ({"dates__repaired": None}, {"judged_on": "repaired"}, {"period": "P6M"}, (False, [])),
        ({"dates__repaired": None}, {"judged_on": "repaired"}, {"period": "P12M"}, (None, ["dates.repaired"])),
        ({"dates__failed": None}, {"judged_on": "failed"}, {"period": "P6M"}, (None, ["dates.failed"])),
        ({"dates__failed": None}, {"judged_on": "failed"}, {"period": "P12M"}, (True, [])),
        (LATE, {"judged_on": "repaired"}, {"registered_within": "P30D"}, (False, ["dates.repaired"])),
        (LATE, {"judged_on": "repaired"}, ADDS, (False, [])),
        (LATE, {"judged_on": "repaired"}, {**ADDS, "period": "P12M"}, (None, ["dates.repaired"])),
        (EARLIER_BUILT, {}, ADDS, (None, ["dates.delivered"])),
        (EARLIER_BUILT, {}, {"registered_within": "P30D"}, (None, ["dates.delivered"])),
        ({**BUILT, "dates__failed": None}, {"judged_on": "failed"}, {}, (True, [])),
        ({**NO_PROOF, "dates__failed": None}, {"judged_on": "failed", **AFTER_BUILT}, {}, (True, [])),
        (BUILT, {"start": ["invoiced"]}, {}, (None, ["unit.invoiced"])),
        (BUILT, {}, {"period": "P11M"}, (True, [])),
        (BUILT, {}, {"period": "P10M"}, (None, ["dates.delivered"])),
        ({**BUILT, "unit__built": None}, {}, {"period": "P11M"}, (None, ["dates.delivered"])),
        (
            {**BUILT, "dates__repaired": None},
            {"judged_on": "repaired"},
            {"period": "P11M"},
            (None, ["dates.delivered", "dates.repaired"]),
        ),
        (
            {**BUILT, "dates__repaired": None, "dates__never_registered": True},
            {"judged_on": "repaired"},
            {**ADDS, "period": "P11M"},
            (None, ["dates.delivered", "dates.repaired"]),
        ),
        (
            {**BUILT, "dates__repaired": None, "dates__registered": "2025-03-20"},
            {"judged_on": "repaired"},
            {**ADDS, "period": "P1D", "registered_adds": "P11M"},
            (None, ["dates.delivered", "dates.repaired"]),
        ),
    ],
    ids=[
        "repaired after every window",
        "repaired",
        "failed",
        "failed inside anyway",
        "registered too late, as a condition",
        "registered too late to add",
        "registered too late to add, and repaired",
        "whether it was registered in time to add goes by the day it was delivered",
        "the same as a condition",
        "failed after it was delivered, whichever days these are",
        "failed after its start without proof, whichever day that is",
        "invoiced to the dealer, perhaps after it failed",
        "built so late that any delivery is inside",
        "delivered",
        "delivered, built on a day not given",
        "two days",
        "two days, never registered",
        "two days, registered in time",
    ],
)
def test_a_missing_day_is_asked_for_only_where_it_could_change_the_outcome(claim, plan, window, found):
    assert age(a_claim(**claim), a_plan(**plan, window=[a_window(**window)])) == found


@pytest.mark.parametrize(("day", "told"), [("2025-09-13", 0), ("2025-09-14", 0), ("2025-09-15", 1)])
def test_a_late_registration_is_told_only_of_days_that_it_would_have_added(day, told):
    claim = a_claim(dates__registered="2025-06-01", dates__failed=None, dates__presented=day, dates__repaired=None)
    found = judge(claim, a_plan(window=[a_window(**ADDS)])).windows[0]
    assert sum(reason.rule == "registration" for reason in found.reasons) == told


def test_a_registration_in_time_is_never_called_late():
    claim = a_claim(
        dates__registered="2025-03-20", dates__failed=None, dates__presented="2026-09-15", dates__repaired=None
    )
    found = judge(claim, a_plan(window=[a_window(**ADDS)])).windows[0]
    assert [reason.rule for reason in found.reasons if reason.outcome == "fail"] == ["age"]


@pytest.mark.parametrize(("judged_on", "adds", "told"), [("repaired", "P2M", "P8M"), ("failed", "P12M", "P18M")])
def test_whichever_day_it_was_the_cover_told_has_what_a_repair_adds(judged_on, adds, told):
    claim = a_claim(**{f"dates__{judged_on}": None}, earlier=[{"component": "starter", "repaired": "2025-06-01"}])
    (window,) = judge(claim, a_plan(judged_on=judged_on, window=[a_window(period="P6M", repair_adds=adds)])).windows
    (length,) = [reason.says.facts["length_period"] for reason in window.reasons if reason.rule == "age"]
    assert length == told


@pytest.mark.parametrize(
    ("presented", "told"), [("2025-09-14", False), ("2025-09-15", True), ("2025-11-14", True), ("2025-11-15", False)]
)
def test_a_no_that_a_repair_would_turn_says_so(presented, told):
    claim = a_claim(dates__presented=presented, dates__failed=None, dates__repaired=None)
    window = a_window(period="P6M", repair_adds="P2M")
    reasons = judge(claim, a_plan(window=[window])).windows[0].reasons
    assert ("repair.none" in [reason.says.key for reason in reasons]) is told


@pytest.mark.parametrize(
    ("presented", "asks"), [("2026-03-14", {"unit.invoiced"}), ("2026-03-15", {"unit.invoiced", "unit.hours"})]
)
def test_a_reading_that_waits_for_the_last_end_is_asked_for_where_the_period_may_be_over(presented, asks):
    dates = {"dates__presented": presented, "dates__failed": None, "dates__repaired": None}
    claim = a_claim(**BUILT, **dates, unit__hours=None)
    found = judge(claim, a_plan(window=[a_window(start=["invoiced"], hours=900, whichever="last")])).windows[0]
    assert {reason.asks for reason in found.reasons if reason.asks and reason.rule != "start"} == asks


def test_where_registration_came_too_late_a_meter_that_is_not_read_is_told_whether_or_not_the_period_may_be_over():
    claim = a_claim(dates__registered="2025-04-14", dates__failed=None, unit__hours=None)
    window = a_window(start=["registered"], registered_within="P30D", hours=900, whichever="last")
    found = judge(claim, a_plan(judged_on="failed", window=[window])).windows[0]
    outcomes = {reason.rule: reason.outcome for reason in found.reasons}
    assert [outcomes.get(rule) for rule in ("registration", "age", "hours")] == ["fail", "unknown", "unknown"]
