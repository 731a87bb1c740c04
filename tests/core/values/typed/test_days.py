import datetime as dt

import pytest

from claimpack.core.values.typed.days import day_written

TODAY = dt.date(2026, 3, 1)


@pytest.mark.parametrize(
    ("written", "day"),
    [
        ("2025-11-20", "2025-11-20"),
        ("20 Nov", "2025-11-20"),
        ("Nov. 20, 2025", "2025-11-20"),
        ("1st march", "2026-03-01"),
        ("29 Feb", "2024-02-29"),
        ("yesterday", "2026-02-28"),
        ("11/20/2025", "2025-11-20"),
        ("20.11.25", "2025-11-20"),
        ("5/5", "2025-05-05"),
    ],
)
def test_a_day_is_read_as_people_write_it(written, day):
    assert str(day_written(written, TODAY)) == day


def test_figures_that_read_two_ways_are_refused_with_both_readings():
    with pytest.raises(ValueError, match="is 2025-03-04 or 2025-04-03"):
        day_written("3/4/2025", TODAY)


@pytest.mark.parametrize(("order", "day"), [("month-first", "2025-03-04"), ("day-first", "2025-04-03")])
def test_the_shop_says_which_figure_is_the_month(order, day):
    assert str(day_written("3/4/2025", TODAY, order)) == day


def test_figures_that_only_fit_the_other_way_round_are_not_turned():
    with pytest.raises(ValueError, match="would be 2025-11-20"):
        day_written("20/11/2025", TODAY, "month-first")


@pytest.mark.parametrize(
    ("written", "day"),
    [("mar 5", "2026-03-05"), ("1 mar", "2026-03-01"), ("28 feb", "2027-02-28"), ("29 feb", "2028-02-29")],
)
def test_a_day_to_come_is_the_next_one_from_today(written, day):
    assert str(day_written(written, TODAY, ahead=True)) == day


def test_of_days_to_come_the_next_one_has_a_name():
    assert str(day_written("Tomorrow", TODAY, ahead=True)) == "2026-03-02"


@pytest.mark.parametrize("written", ["2026-02-30", "never", "20", "20 parts", "tomorrow", ""])
def test_what_is_no_day_is_left_to_others(written):
    assert day_written(written, TODAY) is None


def test_a_day_the_calendar_has_not_is_refused():
    with pytest.raises(ValueError, match="not a date of the calendar"):
        day_written("31 April", TODAY)
