from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from claimpack.core.values.clock import fixed, is_forgotten

ASHBY, SANTIAGO = ZoneInfo("America/New_York"), ZoneInfo("America/Santiago")


def shown(wall):
    """What the clocks of the shop show."""
    return wall.replace(tzinfo=ASHBY).astimezone(UTC).astimezone(ASHBY)


def as_read(wall):
    """What clocks show where it is always UTC."""
    return wall.replace(tzinfo=UTC)


@pytest.mark.parametrize(
    ("ran", "forgotten"),
    [(timedelta(hours=12, seconds=-1), False), (timedelta(hours=12), False), (timedelta(hours=12, seconds=1), True)],
    ids=["just under twelve hours", "twelve hours", "just over"],
)
def test_a_clock_is_forgotten_after_twelve_hours(ran, forgotten):
    started = datetime(2026, 3, 2, 6, 0, tzinfo=UTC)
    assert is_forgotten(started, started + ran, as_read) is forgotten


@pytest.mark.parametrize(
    ("ran", "forgotten"),
    [
        (timedelta(minutes=40), False),
        (timedelta(hours=6), False),
        (timedelta(hours=6, seconds=1), True),
    ],
    ids=["forty minutes", "six hours", "just over"],
)
def test_a_clock_over_midnight_is_forgotten_after_six_hours(ran, forgotten):
    started = datetime(2026, 3, 2, 23, 30, tzinfo=UTC)
    assert is_forgotten(started, started + ran, as_read) is forgotten


@pytest.mark.parametrize(("until", "forgotten"), [((2, 23, 59, 59), False), ((3, 0, 0, 0), True)])
def test_midnight_begins_the_next_day(until, forgotten):
    day, *time = until
    started = datetime(2026, 3, 2, 16, 0, tzinfo=UTC)
    assert is_forgotten(started, datetime(2026, 3, day, *time, tzinfo=UTC), as_read) is forgotten


@pytest.mark.parametrize(
    ("started", "now", "forgotten"),
    [
        ((2026, 3, 7, 23, 0), (2026, 3, 8, 6, 0), False),
        ((2026, 3, 7, 23, 0), (2026, 3, 8, 6, 1), True),
        ((2026, 10, 31, 23, 0), (2026, 11, 1, 4, 0), False),
        ((2026, 10, 31, 23, 0), (2026, 11, 1, 4, 1), True),
    ],
    ids=["six hours put on", "more put on", "six hours put back", "more put back"],
)
def test_hours_of_a_night_in_which_clocks_change_are_those_that_passed(started, now, forgotten):
    began = fixed(datetime(*started, tzinfo=ASHBY))
    assert is_forgotten(began, datetime(*now, tzinfo=ASHBY), shown) is forgotten


@pytest.mark.parametrize(("hour", "forgotten"), [(23, False), (0, True)])
def test_midnight_is_the_shops_also_for_a_clock_started_elsewhere(hour, forgotten):
    # Four hours before midnight by its own clocks, nine by those of Ashby.
    started = datetime(2026, 3, 2, 20, 30, tzinfo=UTC)
    now = datetime(2026, 3, 2 if hour else 3, hour, 30, tzinfo=ASHBY)
    assert is_forgotten(started, now, shown) is forgotten


def test_a_clock_started_elsewhere_after_midnight_may_still_have_run_over_that_of_the_shop():
    started = datetime(2026, 3, 3, 2, 0, tzinfo=UTC)
    assert is_forgotten(started, datetime(2026, 3, 3, 4, 0, tzinfo=ASHBY), shown)


def test_a_clock_started_in_an_hour_before_midnight_that_came_twice_ran_over_midnight():
    # The clocks of Chile went from 24:00 back to 23:00 on 4 April 2026; an offset alone knows no rules of a zone.
    started = datetime(2026, 4, 4, 23, 30, fold=1, tzinfo=SANTIAGO)
    now = datetime(2026, 4, 5, 6, 0, tzinfo=SANTIAGO)
    assert is_forgotten(fixed(started), now, lambda wall: fixed(wall.replace(tzinfo=SANTIAGO)))
