"""Worked rows of ageing as of 2026-03-31: common practice, restated in public references; rows by arithmetic."""

from datetime import date

import pytest

from claimpack.core.values.ageing import age_bucket, due_bucket

AS_OF = date(2026, 3, 31)


@pytest.mark.source("public ageing references: current, 1-30, 31-60, 61-90, over 90; rows by arithmetic")
@pytest.mark.parametrize(
    ("due", "bucket"),
    [
        ("2026-04-01", "current"),
        ("2026-03-31", "current"),
        ("2026-03-30", "1-30"),
        ("2026-03-01", "1-30"),
        ("2026-02-28", "31-60"),
        ("2026-01-30", "31-60"),
        ("2026-01-29", "61-90"),
        ("2025-12-31", "61-90"),
        ("2025-12-30", "over 90"),
    ],
)
def test_days_past_due_fall_into_buckets(due, bucket):
    assert due_bucket((AS_OF - date.fromisoformat(due)).days) == bucket


@pytest.mark.practice
@pytest.mark.parametrize(
    ("days", "bucket"),
    [(0, "0-30"), (30, "0-30"), (31, "31-60"), (60, "31-60"), (61, "61-90"), (90, "61-90"), (91, "over 90")],
)
def test_days_since_filing_fall_into_buckets(days, bucket):
    assert age_bucket(days) == bucket
