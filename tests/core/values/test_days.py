from datetime import date, datetime, timedelta, timezone

import pytest

from claimpack.core.values.days import in_a_letter, of_our_time, only_a_date, to_the_minute, with_a_time


@pytest.mark.parametrize("written", ["2026-2-5", "05.02.2026", "2026-02-05T10:00", 20260205, 1.5, datetime(2026, 2, 5)])  # noqa: DTZ001
def test_a_day_has_no_time(written):
    with pytest.raises(ValueError, match="2026-02-05"):
        only_a_date(written)


@pytest.mark.parametrize("year", [1, 1899, 3000, 9999])
def test_a_year_nobody_repairs_in_is_a_slip_of_the_pen(year):
    with pytest.raises(ValueError, match="is outside the years"):
        of_our_time(date(year, 1, 1))


@pytest.mark.parametrize("year", [1900, 2026, 2999])
def test_years_of_our_time_stand(year):
    assert of_our_time(date(year, 1, 1)).year == year


@pytest.mark.parametrize("written", [5, 1.5, "1700000000", "2026-02-24", date(2026, 2, 24), "ten o'clock"])
def test_a_time_of_day_is_not_guessed(written):
    with pytest.raises(ValueError, match="not a time"):
        with_a_time(written)


@pytest.mark.parametrize("written", ["2026-02-24T09:10:00", "2026-02-24 09:10", "2026-02-24T09:10:00-05:00"])
def test_a_date_with_its_time_stands(written):
    assert with_a_time(written) == written


@pytest.mark.parametrize("month", range(1, 13))
def test_a_day_in_a_letter_names_its_month(month):
    assert in_a_letter(date(2026, month, 5)) == f"{date(2026, month, 5):%-d %B %Y}"


@pytest.mark.parametrize(
    ("offsets", "said"),
    [
        ((-5, -5), ["2026-03-14 09:05", "2026-03-14 10:20"]),
        ((-5, -4), ["2026-03-14 09:05-05:00", "2026-03-14 10:20-04:00"]),
        ((None, None), ["2026-03-14 09:05", "2026-03-14 10:20"]),
    ],
    ids=["one offset", "two", "none"],
)
def test_the_offsets_of_two_moments_are_told_only_where_they_differ(offsets, said):
    zones = [None if hours is None else timezone(timedelta(hours=hours)) for hours in offsets]
    moments = [datetime(2026, 3, 14, *at, 40, tzinfo=zone) for at, zone in zip(((9, 5), (10, 20)), zones, strict=True)]
    assert to_the_minute(*moments) == said
