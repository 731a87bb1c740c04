from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from claimpack.core.values.periods import Period, counted, last_day, moved, next_working_day, period
from claimpack.errors import BadInput


@pytest.mark.parametrize("written", ["", "P", "P0D", "12M", "PT5H", "P1.5Y", "P1D2M", "p1y", "P-1Y", 12, None])
def test_what_is_no_period_is_refused(written):
    with pytest.raises(ValueError, match="period"):
        period(written)


@pytest.mark.parametrize("written", ["P2Y", "P18M", "P1Y6M", "P90D", "P1W", "P1Y2M3W4D"])
def test_a_period_prints_as_it_was_written(written):
    assert str(period(written)) == written


def test_a_period_is_said_in_words():
    assert period("P1Y6M").in_words() == "1 year and 6 months"


def test_periods_add_by_unit():
    assert period("P12M").plus(period("P1Y3D")) == Period(1, 12, 0, 3)


def test_a_month_without_the_day_gives_its_last():
    assert moved(date(2024, 1, 31), period("P1M")) == date(2024, 2, 29)


def test_a_date_beyond_the_calendar_is_refused():
    with pytest.raises(BadInput, match="9999"):
        moved(date(2024, 1, 1), Period(years=8000))


def test_the_anniversary_is_the_last_day():
    assert last_day(date(2024, 3, 15), period("P24M")) == date(2026, 3, 15)


def test_the_day_before_the_anniversary_where_the_plan_says_so():
    assert last_day(date(2024, 3, 15), period("P24M"), "day-before") == date(2026, 3, 14)


def test_a_clamped_month_end_is_not_moved_back_once_more():
    assert last_day(date(2024, 2, 29), period("P12M"), "day-before") == date(2025, 2, 28)


def test_a_start_on_a_month_end_may_end_on_one():
    assert last_day(date(2023, 2, 28), period("P12M"), month_end="last-day") == date(2024, 2, 29)


def test_a_start_on_a_month_end_ends_on_the_same_day_where_the_plan_says_nothing():
    assert last_day(date(2023, 2, 28), period("P12M")) == date(2024, 2, 28)


def test_a_start_the_day_before_a_month_end_does_not_end_on_one():
    assert last_day(date(2023, 2, 27), period("P12M"), month_end="last-day") == date(2024, 2, 27)


def test_days_do_not_stick_to_month_ends():
    assert last_day(date(2023, 2, 28), period("P1M3D"), month_end="last-day") == date(2023, 3, 31)


@pytest.mark.parametrize(
    ("length", "ends"), [("P90D", "2024-03-31"), ("P2W", "2024-01-15"), ("P1M3D", "2024-02-04"), ("P1M", "2024-01-31")]
)
def test_only_whole_months_and_years_lose_a_day_to_the_day_before(length, ends):
    assert last_day(date(2024, 1, 1), period(length), "day-before") == date.fromisoformat(ends)


def test_a_working_day_stays():
    assert next_working_day(date(2024, 1, 31), set()) == date(2024, 1, 31)


def test_a_saturday_goes_to_monday():
    assert next_working_day(date(2024, 3, 2), set()) == date(2024, 3, 4)


def test_a_holiday_after_a_weekend_is_passed_over():
    assert next_working_day(date(2024, 5, 25), {date(2024, 5, 27)}) == date(2024, 5, 28)


@pytest.mark.parametrize(
    ("written", "reads"), [("P100Y", True), ("P101Y", False), ("P36500D", True), ("P36501D", False)]
)
def test_no_warranty_lasts_longer_than_a_century(written, reads):
    def is_read():
        try:
            return bool(period(written))
        except ValueError:
            return False

    assert is_read() is reads


def test_days_are_counted_however_many():
    assert counted("P123456D") == Period(days=123_456)


PERIODS = st.builds(Period, st.integers(0, 5), st.integers(0, 30), st.integers(0, 9), st.integers(0, 99)).filter(any)
DAYS = st.dates(date(1999, 1, 1), date(2100, 12, 31))


@settings(max_examples=200, deadline=None)
@given(DAYS, PERIODS, st.sampled_from(["anniversary", "day-before"]), st.sampled_from(["clamp", "last-day"]))
def test_a_window_does_not_end_before_it_starts(start, length, counting, month_end):
    assert last_day(start, length, counting, month_end) >= start


@settings(max_examples=200, deadline=None)
@given(DAYS, PERIODS)
def test_the_day_before_is_never_later_than_the_anniversary(start, length):
    anniversary, day_before = last_day(start, length), last_day(start, length, "day-before")
    assert (anniversary - day_before).days in (0, 1)


@settings(max_examples=200, deadline=None)
@given(st.integers(1, 40), st.integers(0, 40))
def test_a_longer_period_never_ends_sooner(shorter, more):
    start = date(2024, 1, 31)
    assert last_day(start, Period(months=shorter)) <= last_day(start, Period(months=shorter + more))
