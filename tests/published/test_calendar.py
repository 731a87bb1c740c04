"""Calendar rows: Reg. (EEC, Euratom) 1182/71, UK SI 2018/1082, month-end functions of databases, FRCP 6."""

import sqlite3
from datetime import date, timedelta

import isodate
import numpy as np
import pytest
from dateutil.relativedelta import relativedelta

from claimpack.core.clauses.operations import Filing
from claimpack.core.judging.deadlines import file_by
from claimpack.core.values.periods import Period, last_day, moved, next_working_day, period

# start, months; last day: clamped, the day before, month end kept, overflowing into the next month
MONTHS = {
    "D1": ("2024-03-15", 24, "2026-03-15", "2026-03-14", "2026-03-15", "2026-03-15"),
    "D2": ("2024-02-29", 12, "2025-02-28", "2025-02-28", "2025-02-28", "2025-03-01"),
    "D3": ("2024-02-29", 24, "2026-02-28", "2026-02-28", "2026-02-28", "2026-03-01"),
    "D4": ("2024-02-29", 48, "2028-02-29", "2028-02-28", "2028-02-29", "2028-02-29"),
    "D5": ("2023-02-28", 12, "2024-02-28", "2024-02-27", "2024-02-29", "2024-02-28"),
    "D6": ("2023-08-31", 6, "2024-02-29", "2024-02-29", "2024-02-29", "2024-03-02"),
    "D7": ("2024-08-31", 6, "2025-02-28", "2025-02-28", "2025-02-28", "2025-03-03"),
    "D8": ("2023-10-31", 18, "2025-04-30", "2025-04-30", "2025-04-30", "2025-05-01"),
    "D9": ("2024-01-31", 1, "2024-02-29", "2024-02-29", "2024-02-29", "2024-03-02"),
    "D10": ("2024-01-01", 24, "2026-01-01", "2025-12-31", "2026-01-01", "2026-01-01"),
    "D11": ("2024-06-30", 1, "2024-07-30", "2024-07-29", "2024-07-31", "2024-07-30"),
    "D12": ("2000-02-29", 1200, "2100-02-28", "2100-02-28", "2100-02-28", "2100-03-01"),
}
CASES = pytest.mark.parametrize(
    ("start", "months", "clamped", "day_before", "sticky", "overflow"),
    [(date.fromisoformat(row[0]), row[1], *map(date.fromisoformat, row[2:])) for row in MONTHS.values()],
    ids=MONTHS,
)


@CASES
@pytest.mark.source("Reg. (EEC, Euratom) 1182/71 Art. 3(2)(c)")
def test_months_end_on_the_same_date_or_the_months_last(start, months, clamped, day_before, sticky, overflow):
    assert last_day(start, Period(months=months)) == clamped


@CASES
@pytest.mark.source("UK SI 2018/1082 r. 1.4(2)(a)(ii)(aa)")
def test_months_may_end_the_day_before(start, months, clamped, day_before, sticky, overflow):
    assert last_day(start, Period(months=months), "day-before") == day_before


@CASES
@pytest.mark.source("Oracle, Db2, Vertica ADD_MONTHS: a month's last day stays one")
def test_months_may_keep_to_the_months_last_day(start, months, clamped, day_before, sticky, overflow):
    assert last_day(start, Period(months=months), month_end="last-day") == sticky


@CASES
@pytest.mark.source("python-dateutil relativedelta and isodate: two readers of the same rule")
def test_other_libraries_clamp_alike(start, months, clamped, day_before, sticky, overflow):
    others = {start + relativedelta(months=months), start + isodate.parse_duration(f"P{months}M")}
    assert others == {clamped} == {moved(start, Period(months=months))}


@CASES
@pytest.mark.source("SQLite date(): overflows into the next month, which no counting of ours does")
def test_a_month_that_lacks_the_day_never_overflows(start, months, clamped, day_before, sticky, overflow):
    by_sqlite = sqlite3.connect(":memory:").execute("select date(?, ?)", (str(start), f"+{months} months")).fetchone()
    ours = {last_day(start, Period(months=months), way) for way in ("anniversary", "day-before")}
    assert date.fromisoformat(by_sqlite[0]) == overflow
    assert overflow == clamped or overflow not in ours


@pytest.mark.source("Java LocalDate.plusMonths, plusYears; Vertica ADD_MONTHS")
@pytest.mark.parametrize(
    ("start", "length", "ends"),
    [
        (date(2007, 3, 31), "P1M", date(2007, 4, 30)),
        (date(2016, 2, 29), "P1Y", date(2017, 2, 28)),
        (date(2016, 1, 31), "P1M", date(2016, 2, 29)),
        (date(2003, 1, 31), "P1M", date(2003, 2, 28)),
        (date(2003, 1, 31), "P2M", date(2003, 3, 31)),
    ],
    ids=["D20", "D21", "D22", "D23 one month", "D23 two months"],
)
def test_printed_examples_of_other_calendars(start, length, ends):
    assert last_day(start, period(length)) == ends


@pytest.mark.source("python-dateutil: D24, months are added once and never in a chain")
def test_months_are_added_at_once():
    start, one = date(2023, 1, 31), Period(months=1)
    assert (moved(moved(start, one), one), moved(start, Period(months=2))) == (date(2023, 3, 28), date(2023, 3, 31))


@pytest.mark.source("arithmetic: D25")
@pytest.mark.parametrize("start", [date(2024, 2, 29), date(2023, 3, 15), date(2023, 12, 31)])
def test_twelve_months_are_a_year(start):
    assert last_day(start, period("P12M")) == last_day(start, period("P1Y"))


@pytest.mark.source("arithmetic: D25")
@pytest.mark.parametrize(("start", "days"), [(date(2023, 3, 15), 731), (date(2024, 3, 15), 730)])
def test_two_years_are_no_fixed_number_of_days(start, days):
    assert (last_day(start, period("P2Y")) - start).days == days


@pytest.mark.source("ISO 8601 durations, read by isodate: D26")
@pytest.mark.parametrize(
    ("length", "ends"),
    [
        ("P2Y", date(2026, 2, 28)),
        ("P18M", date(2025, 8, 29)),
        ("P1Y6M", date(2025, 8, 29)),
        ("P90D", date(2024, 5, 29)),
        ("P1W", date(2024, 3, 7)),
    ],
)
def test_durations_of_iso_8601(length, ends):
    start = date(2024, 2, 29)
    assert last_day(start, period(length)) == start + isodate.parse_duration(length) == ends


@pytest.mark.source("RFC 5545 3.3.6: D27")
def test_weeks_are_read():
    assert period("P7W") == Period(weeks=7)


@pytest.mark.source("RFC 5545 3.3.6: D27, a duration with a time of day is no warranty period")
def test_a_duration_with_a_time_of_day_is_refused():
    with pytest.raises(ValueError, match="is not a period"):
        period("P15DT5H0M20S")


@pytest.mark.source("CJEU C-171/03 Toeters, headnote 1; Reg. 1182/71 Art. 3(2)(c): D28")
def test_weeks_end_on_the_weekday_they_began():
    event = date(1998, 3, 12)
    assert last_day(event, period("P3W")) == date(1998, 4, 2)


@pytest.mark.source("FRCP 6(a)(1): the day of the event is left out, the last day rolls over weekends and holidays")
@pytest.mark.parametrize(
    ("event", "days", "holiday", "on"),
    [
        (date(2024, 11, 14), 14, date(2024, 11, 28), date(2024, 11, 29)),
        (date(2024, 12, 2), 30, date(2025, 1, 1), date(2025, 1, 2)),
        (date(2024, 2, 1), 30, None, date(2024, 3, 4)),
        (date(2024, 4, 27), 30, date(2024, 5, 27), date(2024, 5, 28)),
        (date(2024, 1, 1), 30, None, date(2024, 1, 31)),
    ],
    ids=["D29", "D30", "D31", "D32", "D33"],
)
def test_a_day_to_act_by_rolls_to_the_next_working_day(event, days, holiday, on):
    holidays = [holiday] if holiday else []
    filing = Filing(within=f"P{days}D", roll="next-working-day", holidays=holidays)
    by_numpy = np.busday_offset(event + timedelta(days=days), 0, roll="forward", holidays=holidays).item()
    assert file_by(filing, event) == by_numpy == on


@pytest.mark.source("numpy busday functions: D36, D37")
@pytest.mark.parametrize(
    ("day", "holidays", "on"),
    [
        (date(2011, 3, 20), [], date(2011, 3, 21)),
        (date(2011, 7, 1), [date(2011, 7, 1), date(2011, 7, 4)], date(2011, 7, 5)),
        (date(2011, 7, 2), [], date(2011, 7, 4)),
        (date(2011, 7, 18), [date(2011, 7, 1), date(2011, 7, 4), date(2011, 7, 17)], date(2011, 7, 18)),
    ],
)
def test_working_days_as_numpy_counts_them(day, holidays, on):
    assert next_working_day(day, holidays) == np.busday_offset(day, 0, "forward", holidays=holidays).item() == on


@pytest.mark.source("Reg. 1182/71 Art. 3(4) speaks of acts; X4: coverage is no deadline to act")
@pytest.mark.parametrize("ends", [date(2026, 3, 14), date(2026, 3, 15)], ids=["a Saturday", "a Sunday"])
def test_cover_ends_on_a_weekend_all_the_same(ends):
    assert last_day(date(2025, 3, ends.day), period("P12M")) == ends
