from datetime import date

import pytest

from claimpack.core.values.ageing import age, age_bucket, due_bucket


def test_the_day_of_filing_is_left_out():
    assert age(date(2026, 1, 1), date(2026, 1, 31)) == 30


@pytest.mark.parametrize(
    ("days", "bucket"),
    [(0, "0-30"), (30, "0-30"), (31, "31-60"), (60, "31-60"), (61, "61-90"), (90, "61-90"), (91, "over 90")],
)
def test_a_claim_is_as_old_as_the_days_since_its_filing(days, bucket):
    assert age_bucket(days) == bucket


@pytest.mark.parametrize(
    ("days", "bucket"),
    [(-1, "current"), (0, "current"), (1, "1-30"), (30, "1-30"), (31, "31-60"), (90, "61-90"), (91, "over 90")],
)
def test_money_that_is_due_today_is_current(days, bucket):
    assert due_bucket(days) == bucket
