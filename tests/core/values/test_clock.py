from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from claimpack.core.values.clock import (
    fixed,
    from_to,
    moment_of,
    shop_time,
    span_in_words,
    stopped_at,
    time_between,
    time_in_words,
)
from claimpack.errors import BadInput, WrongState

ASHBY = ZoneInfo("America/New_York")
NOW = datetime(2026, 3, 2, 17, 0, tzinfo=ASHBY)
STARTED = fixed(datetime(2026, 3, 2, 9, 0, tzinfo=ASHBY))
LATE = fixed(datetime(2026, 3, 2, 23, 30, tzinfo=ASHBY))


def shown(wall):
    """What the clocks of the shop show."""
    return wall.replace(tzinfo=ASHBY).astimezone(UTC).astimezone(ASHBY)


def meant(written, now=NOW):
    return moment_of(written, "--at", now, shown).isoformat()


def stopped(written="", started=STARTED, now=NOW):
    return stopped_at(started, written, now, shown).isoformat()


def test_a_time_alone_is_of_today():
    assert meant("16:30") == "2026-03-02T16:30:00-05:00"


@pytest.mark.parametrize("written", ["2026-02-24T09:10", "2026-02-24 9:10", "2026-02-24T09:10:00"])
def test_a_whole_time_is_of_its_day(written):
    assert meant(written) == "2026-02-24T09:10:00-05:00"


def test_a_summer_day_has_the_offset_of_summer():
    assert meant("2026-07-01T09:10") == "2026-07-01T09:10:00-04:00"


@pytest.mark.parametrize(("offset", "kept"), [("-04:00", "-04:00"), ("Z", "+00:00")])
def test_an_offset_that_is_written_is_kept(offset, kept):
    assert meant(f"2026-11-01T01:30{offset}") == f"2026-11-01T01:30:00{kept}"


@pytest.mark.parametrize("written", ["half past four", "2026-02-24", "16.30", "1630", "2026-02-24T16"])
def test_what_is_no_time_is_refused(written):
    with pytest.raises(BadInput, match="not a time of day"):
        meant(written)


@pytest.mark.parametrize("written", ["25:00", "2026-02-30T10:00", "12:60", "16:30+25:00"])
def test_a_time_on_no_calendar_is_refused(written):
    with pytest.raises(BadInput, match="no calendar and no clock"):
        meant(written)


def test_a_time_that_clocks_skipped_is_refused():
    with pytest.raises(BadInput, match="no clock showed 02:30"):
        meant("2026-03-08T02:30")


def test_a_time_that_clocks_showed_twice_must_be_told_apart():
    with pytest.raises(BadInput) as refused:
        meant("2026-11-01T01:30")
    assert "2026-11-01T01:30-04:00 or 2026-11-01T01:30-05:00" in refused.value.do


def test_a_clock_stops_now():
    assert stopped() == "2026-03-02T17:00:00-05:00"


def test_a_forgotten_clock_does_not_stop_by_itself():
    with pytest.raises(WrongState, match="was forgotten"):
        stopped(now=NOW + timedelta(days=1))


@pytest.mark.parametrize(
    ("started", "says"),
    [
        (9, "It ran 20 h 00 min, more than 12 hours;"),
        (17, "It ran 12 h 00 min, more than 6 hours, and over midnight;"),
        (22, "It ran 7 h 00 min, more than 6 hours, and over midnight;"),
    ],
)
def test_the_reason_a_clock_counts_as_forgotten_is_told(started, says):
    began = STARTED + timedelta(hours=started - 9)
    with pytest.raises(WrongState) as refused:
        stopped(started=began, now=NOW + timedelta(hours=12))
    assert refused.value.why.startswith(says)


def test_forty_minutes_over_midnight_stop_by_themselves():
    assert stopped(started=LATE, now=datetime(2026, 3, 3, 0, 10, tzinfo=ASHBY)) == "2026-03-03T00:10:00-05:00"


def test_a_forgotten_clock_stops_at_the_end_that_is_told():
    assert stopped("2026-03-02T16:30", now=NOW + timedelta(days=1)) == "2026-03-02T16:30:00-05:00"


def test_a_night_shift_may_end_now():
    assert stopped("now", now=datetime(2026, 3, 3, 0, 30, tzinfo=ASHBY)) == "2026-03-03T00:30:00-05:00"


@pytest.mark.parametrize(
    ("at", "ended"),
    [
        ("0:10", "2026-03-03T00:10"),
        ("23:45", "2026-03-02T23:45"),
        ("05:10Z", "2026-03-03T05:10"),
        (f"{LATE:%H:%M}", f"{LATE:%Y-%m-%dT%H:%M}"),
        ("7:00", "2026-03-03T07:00"),
    ],
    ids=["after midnight", "before", "in another zone", "the start itself", "now"],
)
def test_a_time_alone_is_the_one_since_the_start_of_a_clock_over_midnight(at, ended):
    assert stopped(at, LATE, datetime(2026, 3, 3, 7, 0, tzinfo=ASHBY)).startswith(ended)


def test_a_time_alone_that_came_twice_since_the_start_needs_its_day():
    with pytest.raises(BadInput, match="does not say on which day") as refused:
        stopped("16:30", now=NOW + timedelta(days=1))
    assert refused.value.do == "Write it whole: 2026-03-02T16:30 or 2026-03-03T16:30."


@pytest.mark.parametrize("at", ["23:29", "0:11"])
def test_a_time_alone_that_came_not_once_since_the_start_is_refused(at):
    with pytest.raises(BadInput, match="no clock has shown"):
        stopped(at, LATE, datetime(2026, 3, 3, 0, 10, tzinfo=ASHBY))


def test_a_time_alone_in_the_hour_that_came_twice_is_told_apart():
    started = fixed(datetime(2026, 10, 31, 23, 30, tzinfo=ASHBY))
    with pytest.raises(BadInput) as refused:
        stopped("1:30", started, datetime(2026, 11, 1, 2, 0, tzinfo=ASHBY))
    assert refused.value.do == "Write it whole: 2026-11-01T01:30-04:00 or 2026-11-01T01:30-05:00."


def test_a_time_alone_in_the_hour_that_was_skipped_is_refused():
    started = fixed(datetime(2026, 3, 7, 23, 30, tzinfo=ASHBY))
    with pytest.raises(BadInput, match="no clock has shown 02:30"):
        stopped("2:30", started, datetime(2026, 3, 8, 4, 0, tzinfo=ASHBY))


@pytest.mark.parametrize(("at", "why"), [("08:59", "before the clock was started"), ("17:01", "has not come yet")])
def test_an_end_outside_the_work_is_refused(at, why):
    with pytest.raises(BadInput, match=why):
        stopped(at)


@pytest.mark.parametrize("at", ["09:00", "17:00"])
def test_an_end_on_the_edge_of_the_work_is_taken(at):
    assert stopped(at) == f"2026-03-02T{at}:00-05:00"


def test_a_kept_time_follows_no_rules_of_a_zone():
    kept = fixed(datetime(2026, 3, 8, 1, 30, 15, 999, tzinfo=ASHBY))
    assert (kept.isoformat(), kept.tzinfo == ASHBY) == ("2026-03-08T01:30:15-05:00", False)


@pytest.mark.parametrize(
    ("started", "ended"),
    [((2026, 3, 7, 23), (2026, 3, 8, 6)), ((2026, 10, 31, 23), (2026, 11, 1, 4))],
    ids=["on", "back"],
)
def test_between_two_times_of_one_zone_the_time_counts_that_passed_while_clocks_were_put(started, ended):
    assert time_between(datetime(*started, tzinfo=ASHBY), datetime(*ended, tzinfo=ASHBY)) == timedelta(hours=6)


def test_times_without_an_offset_are_compared_as_written():
    assert time_between(datetime(2026, 3, 2, 9), datetime(2026, 3, 2, 10)) == timedelta(hours=1)  # noqa: DTZ001


@pytest.mark.parametrize(
    ("passed", "words"),
    [
        (timedelta(seconds=59), "0 min"),
        (timedelta(minutes=59), "59 min"),
        (timedelta(hours=1), "1 h 00 min"),
        (timedelta(minutes=65), "1 h 05 min"),
    ],
)
def test_time_is_told_in_hours_and_minutes(passed, words):
    assert time_in_words(passed) == words


def test_a_time_is_told_as_the_shops_clocks_show_it():
    assert shop_time(fixed(datetime(2026, 3, 14, 9, 5, 40, tzinfo=ASHBY)), shown) == "2026-03-14 09:05"


def test_a_time_of_summer_needs_no_offset_in_winter():
    assert shop_time(fixed(datetime(2026, 7, 1, 9, 5, tzinfo=ASHBY)), shown) == "2026-07-01 09:05"


def test_a_time_that_clocks_showed_twice_is_told_with_its_offset():
    assert shop_time(fixed(datetime(2026, 11, 1, 1, 30, tzinfo=ASHBY)), shown) == "2026-11-01 01:30-04:00"


def test_a_time_of_another_place_is_told_with_its_offset():
    assert shop_time(datetime(2026, 3, 14, 9, 5, tzinfo=UTC), shown) == "2026-03-14 09:05+00:00"


def test_a_time_without_an_offset_is_told_without_one():
    assert shop_time(datetime(2026, 3, 14, 9, 5), shown) == "2026-03-14 09:05"  # noqa: DTZ001


@pytest.mark.parametrize(
    ("hours", "said"), [(2, "2026-03-02 09:00 to 11:00"), (15, "2026-03-02 09:00 to 2026-03-03 00:00")]
)
def test_the_day_of_an_end_is_told_where_it_is_another_one(hours, said):
    assert span_in_words(STARTED, STARTED + timedelta(hours=hours), shown) == said


def written(started, ended, now=NOW):
    return [at.isoformat() for at in from_to(started, ended, now, shown)]


def test_a_start_and_an_end_are_read_together():
    assert written("9:05", "10:20") == ["2026-03-02T09:05:00-05:00", "2026-03-02T10:20:00-05:00"]


def test_work_that_ended_as_it_began_took_no_time():
    assert written("9:05", "9:05") == ["2026-03-02T09:05:00-05:00"] * 2


def test_an_end_before_the_start_is_refused_in_the_shops_time():
    with pytest.raises(BadInput, match=r"--ended 2026-02-24 09:00 is before --started 2026-02-25 08:00"):
        written("2026-02-25T08:00", "2026-02-24T09:00")


@pytest.mark.parametrize(
    ("now", "said"),
    [
        ((2, 21, 59), "--started 2026-03-01T22:00 --ended 2026-03-02T01:10"),
        ((2, 22, 0), "--started 2026-03-02T22:00 --ended 2026-03-03T01:10"),
        ((2, 23, 30), "--started 2026-03-02T22:00 --ended 2026-03-03T01:10"),
        ((3, 9, 0), "--started 2026-03-02T22:00 --ended 2026-03-03T01:10"),
    ],
    ids=["not that late yet", "just as late", "the same night", "the morning after"],
)
def test_work_past_midnight_is_written_with_its_days(now, said):
    day, hour, minute = now
    with pytest.raises(BadInput) as refused:
        written("22:00", "01:10", datetime(2026, 3, day, hour, minute, tzinfo=ASHBY))
    assert said in refused.value.do


def test_an_end_before_the_start_by_the_time_that_passed_is_refused():
    with pytest.raises(BadInput, match=r"--ended 2026-11-01 01:40-04:00 is before --started 2026-11-01 01:30-05:00"):
        written("2026-11-01T01:30-05:00", "2026-11-01T01:40-04:00")
