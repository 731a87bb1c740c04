"""Ages of claims and the buckets they fall into."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

BY_AGE = ("0-30", "31-60", "61-90", "over 90")
"""Buckets by days since filing."""

BY_DUE = ("current", "1-30", "31-60", "61-90", "over 90")
"""Buckets by days past the due date."""


AGED: Mapping[str, str] = {
    "filed": "since the last filing",
    "first filed": "since the first filing",
    "due": "past the due date",
}
"""What the days of an age are counted from, by the shop's setting."""


def age_bucket(days: int) -> str:
    """The bucket of an age in days since filing.

    Source: common practice, no source.
    """
    return _bucket(days, BY_AGE)


def due_bucket(days_past_due: int) -> str:
    """The bucket of days past the due date; not yet due and due today are current.

    Source: published ageing references (current, 1-30, 31-60, 61-90, over 90).
    """
    return "current" if days_past_due <= 0 else _bucket(days_past_due, BY_DUE[1:])


def _bucket(days: int, names: tuple[str, ...]) -> str:
    return names[0] if days <= 30 else names[1] if days <= 60 else names[2] if days <= 90 else names[3]


def age(filed: date, today: date) -> int:
    """Days since filing, the day of filing left out."""
    return (today - filed).days
