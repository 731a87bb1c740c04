from datetime import date

import pytest
from aged import ADDS, age, outcome
from builders import a_claim, a_plan, a_window

from claimpack.core.verdict.coverage import judge
from claimpack.core.windows.limits.age import within
from claimpack.core.windows.reasons import settled


def test_an_event_before_the_start_is_outside():
    assert within(date(2024, 12, 31), date(2025, 1, 1), date(2026, 1, 1)).outcome == "fail"


def test_both_limits_are_told_where_both_ran_out():
    reasons = outcome(a_claim(unit__hours="301"), hours=300, period="P6M")
    assert (reasons["age"], reasons["hours"]) == ("fail", "fail")


def test_reasons_settle_to_no_before_they_settle_to_unknown():
    judged = judge(a_claim(unit__hours=None), a_plan(window=[a_window(hours=1, period="P6M")])).windows[0]
    assert settled(judged.reasons) is False


BUILT = {"dates__purchased": None, "dates__delivered": None, "unit__built": "2025-03-14"}
LATE = {"dates__registered": "2026-01-01", "dates__repaired": None}


@pytest.mark.parametrize(
    ("claim", "plan", "window", "found"),
    [
        ({"dates__repaired": None}, {"judged_on": "repaired"}, {"period": "P6M"}, (False, [])),
        ({"dates__repaired": None}, {"judged_on": "repaired"}, {"period": "P12M"}, (None, ["dates.repaired"])),
        ({"dates__failed": None}, {"judged_on": "failed"}, {"period": "P6M"}, (None, ["dates.failed"])),
        ({"dates__failed": None}, {"judged_on": "failed"}, {"period": "P12M"}, (True, [])),
        (LATE, {"judged_on": "repaired"}, {"registered_within": "P30D"}, (False, ["dates.repaired"])),
        (LATE, {"judged_on": "repaired"}, ADDS, (False, [])),
        (BUILT, {}, {"period": "P11M"}, (True, [])),
        (BUILT, {}, {"period": "P10M"}, (None, ["dates.delivered"])),
        ({**BUILT, "unit__built": None}, {}, {"period": "P11M"}, (None, ["dates.delivered"])),
        (
            {**BUILT, "dates__repaired": None},
            {"judged_on": "repaired"},
            {"period": "P11M"},
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
        "built so late that any delivery is inside",
        "delivered",
        "delivered, built on a day not given",
        "two days",
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
