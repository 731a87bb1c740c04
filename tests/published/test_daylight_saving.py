"""Labour by the clock on days when clocks are put on or back: worked cases of the time zone database."""

from __future__ import annotations

from datetime import datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

import pytest
from running import claimpack
from shop_builders import a_shop, kept_claim

from claimpack.core.pricing.labour import clocked
from claimpack.core.values.clock import fixed, time_between

ASHBY, BERLIN = ZoneInfo("America/New_York"), ZoneInfo("Europe/Berlin")


def wall(zone, written, fold=0):
    """A time as the clocks of a place showed it; fold 1 for the second of two."""
    return datetime.fromisoformat(written).replace(tzinfo=zone, fold=fold)


# place; start and end on the wall, each with its fold; hours that passed, counted by hand in UTC.
DAYS = {
    # 06:30Z to 07:30Z: from 02:00 clocks in New York are put on to 03:00.
    "spring forward, New York": (ASHBY, ("2026-03-08T01:30", 0), ("2026-03-08T03:30", 0), "1"),
    # 05:30Z to 07:30Z.
    "a morning after it": (ASHBY, ("2026-03-08T00:30", 0), ("2026-03-08T03:30", 0), "2"),
    # 05:30Z to 06:30Z: 01:30 comes twice.
    "fall back, from the first to the second": (ASHBY, ("2026-11-01T01:30", 0), ("2026-11-01T01:30", 1), "1"),
    # 05:45Z to 06:15Z: on the wall it ends before it starts.
    "fall back, the wall runs back": (ASHBY, ("2026-11-01T01:45", 0), ("2026-11-01T01:15", 1), "0.5"),
    # 04:30Z to 08:00Z.
    "fall back, through it": (ASHBY, ("2026-11-01T00:30", 0), ("2026-11-01T03:00", 0), "3.5"),
    # 00:30Z to 01:30Z: from 02:00 clocks in Berlin are put on to 03:00.
    "spring forward, Berlin": (BERLIN, ("2026-03-29T01:30", 0), ("2026-03-29T03:30", 0), "1"),
    # 00:30Z to 01:30Z: 02:30 comes twice.
    "fall back, Berlin": (BERLIN, ("2026-10-25T02:30", 0), ("2026-10-25T02:30", 1), "1"),
    # 14:00Z to 15:00Z, a day without a change.
    "an ordinary day": (ASHBY, ("2026-03-02T09:00", 0), ("2026-03-02T10:00", 0), "1"),
}
CASES = pytest.mark.parametrize(("zone", "start", "end", "hours"), DAYS.values(), ids=DAYS)


@CASES
@pytest.mark.source("IANA time zone database through Python's zoneinfo; PEP 495 for the fold")
def test_the_time_that_passed_is_what_utc_says(zone, start, end, hours):
    passed = time_between(wall(zone, *start), wall(zone, *end))
    assert Decimal(int(passed.total_seconds())) / 3600 == Decimal(hours)


@CASES
@pytest.mark.source("IANA time zone database through Python's zoneinfo; PEP 495 for the fold")
def test_a_clock_started_and_stopped_counts_the_time_that_passed(tmp_path, zone, start, end, hours):
    shop = a_shop(tmp_path)
    claimpack("labour", "start", "26-0001", "clean", folder=shop, now=wall(zone, *start))
    claimpack("labour", "stop", folder=shop, now=wall(zone, *end))
    assert clocked(kept_claim(shop).labour[0]) == Decimal(hours)


@pytest.mark.source("IANA time zone database through Python's zoneinfo: EST is -05:00, EDT -04:00 from 2026-03-08")
def test_times_are_kept_with_the_offset_they_had(tmp_path):
    shop = a_shop(tmp_path)
    claimpack("labour", "start", "26-0001", "clean", folder=shop, now=wall(ASHBY, "2026-03-08T01:30"))
    claimpack("labour", "stop", folder=shop, now=wall(ASHBY, "2026-03-08T03:30"))
    entry = kept_claim(shop).labour[0]
    assert [entry.started.isoformat(), entry.ended.isoformat()] == [
        "2026-03-08T01:30:00-05:00",
        "2026-03-08T03:30:00-04:00",
    ]


@pytest.mark.source("IANA time zone database through Python's zoneinfo")
@pytest.mark.parametrize(
    ("zone", "written", "utc"),
    [
        (ASHBY, "2026-03-08T01:59", "2026-03-08T06:59"),
        (ASHBY, "2026-03-08T03:00", "2026-03-08T07:00"),
        (ASHBY, "2026-11-01T00:59", "2026-11-01T04:59"),
        (ASHBY, "2026-11-01T02:00", "2026-11-01T07:00"),
        (BERLIN, "2026-03-29T03:00", "2026-03-29T01:00"),
    ],
)
def test_a_written_time_is_the_moment_clocks_showed_it(tmp_path, zone, written, utc):
    shop, day = a_shop(tmp_path), written[:10]
    now = wall(zone, f"{day}T12:00")
    ran = claimpack(
        *("labour", "add", "26-0001", "clean", "--started", written, "--ended", f"{day}T11:00"), folder=shop, now=now
    )
    assert (ran.code, kept_claim(shop).labour[0].started) == (0, datetime.fromisoformat(f"{utc}+00:00"))


@pytest.mark.source("IANA time zone database through Python's zoneinfo: no such time, and two of them")
@pytest.mark.parametrize(
    ("zone", "written", "why"),
    [
        (ASHBY, "2026-03-08T02:00", "no clock showed"),
        (ASHBY, "2026-03-08T02:59", "no clock showed"),
        (BERLIN, "2026-03-29T02:30", "no clock showed"),
        (ASHBY, "2026-11-01T01:00", "twice"),
        (ASHBY, "2026-11-01T01:59", "twice"),
        (BERLIN, "2026-10-25T02:00", "twice"),
    ],
)
def test_a_time_that_names_no_one_moment_is_not_guessed(tmp_path, zone, written, why):
    shop, day = a_shop(tmp_path), written[:10]
    asked = ("labour", "add", "26-0001", "clean", "--started", written, "--ended", f"{day}T11:00")
    ran = claimpack(*asked, folder=shop, now=wall(zone, f"{day}T12:00"))
    assert (ran.code, why in ran.err, kept_claim(shop).labour) == (2, True, ())


@pytest.mark.source("IANA time zone database through Python's zoneinfo: 22:30 to 00:45, an ordinary night")
def test_work_over_midnight_counts_the_time_that_passed(tmp_path):
    shop = a_shop(tmp_path)
    claimpack("labour", "start", "26-0001", "clean", folder=shop, now=wall(ASHBY, "2026-03-01T22:30"))
    claimpack("labour", "stop", "--at", "now", folder=shop, now=wall(ASHBY, "2026-03-02T00:45"))
    assert clocked(kept_claim(shop).labour[0]) == Decimal("2.25")


@pytest.mark.source("Python's zoneinfo: subtracting two times of one zone compares the walls, not the moments")
def test_a_kept_time_compares_by_the_moment():
    start, end = (wall(ASHBY, f"2026-03-08T{time}") for time in ("01:30", "03:30"))
    assert (str(end - start), str(fixed(end) - fixed(start))) == ("2:00:00", "1:00:00")
