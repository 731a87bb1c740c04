from datetime import date

import pytest
from builders import a_claim, a_plan, a_window

from claimpack.core.verdict.coverage import judge
from claimpack.core.windows.limits.age import within
from claimpack.core.windows.reasons import settled


def outcome(claim, **window):
    """The one window's reasons by rule."""
    judged = judge(claim, a_plan(window=[a_window(**window)])).windows[0]
    return {reason.rule: reason.outcome for reason in judged.reasons}


@pytest.mark.parametrize(
    ("hours", "expected"), [("299.9", "pass"), ("300", "pass"), ("300.1", "fail")], ids=["below", "equal", "above"]
)
def test_a_reading_equal_to_the_limit_is_inside(hours, expected):
    assert outcome(a_claim(unit__hours=hours), hours=300)["hours"] == expected


def test_a_unit_without_a_meter_is_judged_by_age_alone():
    assert outcome(a_claim(unit__meter=False, unit__hours=None), hours=300)["hours"] == "pass"


@pytest.mark.parametrize("meter", [True, None])
def test_a_blank_reading_is_asked_for(meter):
    assert outcome(a_claim(unit__meter=meter, unit__hours=None), hours=300)["hours"] == "unknown"


def test_a_reading_does_not_matter_where_no_hour_limit_applies():
    assert "hours" not in outcome(a_claim(unit__hours=None))


RENEWAL = [{"component": "short block", "hours": 100}]


@pytest.mark.parametrize(("hours", "expected"), [("99.9", "pass"), ("100", "pass"), ("100.1", "fail")])
def test_a_part_is_covered_up_to_its_first_scheduled_renewal(hours, expected):
    assert outcome(a_claim(unit__hours=hours), scheduled=RENEWAL)["schedule"] == expected


def test_another_parts_renewal_does_not_matter():
    assert "schedule" not in outcome(a_claim(), scheduled=[{"component": "spark plug", "hours": 1}])


def test_a_renewal_without_a_reading_is_asked_for():
    assert outcome(a_claim(unit__hours=None), scheduled=RENEWAL)["schedule"] == "unknown"


ADDS = {"period": "P6M", "registered_within": "P30D", "registered_adds": "P12M"}


@pytest.mark.parametrize(
    ("registered", "ends"),
    [("2025-04-12", "2026-09-14"), ("2025-04-13", "2026-09-14"), ("2025-04-14", "2025-09-14")],
    ids=["the day before the last", "the last day", "the day after"],
)
def test_registration_on_the_last_day_counts(registered, ends):
    claim = a_claim(dates__registered=registered)
    assert judge(claim, a_plan(window=[a_window(**ADDS)])).windows[0].ends == date.fromisoformat(ends)


def test_an_unknown_registration_is_asked_for_only_where_it_would_decide():
    assert outcome(a_claim(), **ADDS)["registration"] == "unknown"


def test_an_open_registration_is_asked_about_with_its_last_day():
    told = judge(a_claim(), a_plan(window=[a_window(**ADDS)])).windows[0].reasons
    assert [reason.says.key for reason in told if reason.rule == "registration"] == ["registered.would-decide"]


def test_an_unknown_registration_does_not_matter_inside_the_shorter_period():
    assert "registration" not in outcome(a_claim(), **{**ADDS, "period": "P12M"})


def test_an_unknown_registration_does_not_matter_beyond_the_longer_period():
    assert outcome(a_claim(), **{**ADDS, "registered_adds": "P1M"}) == {"component": "pass", "age": "fail"}


def test_a_unit_never_registered_has_the_shorter_period():
    reasons = outcome(a_claim(dates__never_registered=True), **ADDS)
    assert (reasons["registration"], reasons["age"]) == ("fail", "fail")


@pytest.mark.parametrize(("registered", "expected"), [("2025-04-13", "pass"), ("2025-04-14", "fail")])
def test_registration_may_be_a_condition(registered, expected):
    assert outcome(a_claim(dates__registered=registered), registered_within="P30D")["registration"] == expected


def test_a_condition_not_known_to_be_met_is_asked_for():
    assert outcome(a_claim(), registered_within="P30D")["registration"] == "unknown"


def test_an_event_before_the_start_is_outside():
    assert within(date(2024, 12, 31), date(2025, 1, 1), date(2026, 1, 1)).outcome == "fail"


def test_both_limits_are_told_where_both_ran_out():
    reasons = outcome(a_claim(unit__hours="301"), hours=300, period="P6M")
    assert (reasons["age"], reasons["hours"]) == ("fail", "fail")


def test_reasons_settle_to_no_before_they_settle_to_unknown():
    judged = judge(a_claim(unit__hours=None), a_plan(window=[a_window(hours=1, period="P6M")])).windows[0]
    assert settled(judged.reasons) is False


def age(claim, plan=None, **window):
    """The one window: whether it holds, and the facts it asks for."""
    plan = plan or a_plan(window=[a_window(**window)])
    found = judge(claim, plan).windows[0]
    return found.holds, [reason.asks for reason in found.reasons if reason.outcome == "unknown"]


EARLY = {"dates__registered": "2025-03-13"}


@pytest.mark.parametrize("window", [ADDS, {"registered_within": "P30D"}], ids=["adds", "a condition"])
def test_a_registration_before_the_sale_is_asked_about_where_it_decides(window):
    assert age(a_claim(**EARLY), **window) == (None, ["dates.registered"])


def test_a_registration_before_the_sale_does_not_matter_where_it_does_not_decide():
    assert age(a_claim(**EARLY), **{**ADDS, "period": "P12M"}) == (True, [])


def test_a_registration_on_the_day_of_sale_adds_cover():
    assert age(a_claim(dates__registered="2025-03-14"), **ADDS) == (True, [])


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


def test_registration_runs_from_the_sale_where_cover_starts_with_it():
    claim = a_claim(dates__registered="2025-04-14")
    window = {"start": ["registered"], "registered_within": "P30D"}
    assert age(claim, **window) == (False, [])


def test_cover_that_starts_with_a_registration_never_made_does_not_start():
    assert age(a_claim(dates__never_registered=True), start=["registered"]) == (False, [])
