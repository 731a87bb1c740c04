"""Days and times as people write them: a day is a date alone, a moment carries its time of day."""

from __future__ import annotations

import datetime as dt
import re
from decimal import Decimal
from typing import Annotated, Any

from claimpack.core.values.marks import AfterValidator, BeforeValidator

FIRST_YEAR, LAST_YEAR = 1900, 2999


def only_a_date(value: Any) -> Any:
    """A date without a time of day.

    Raises:
        ValueError: the value carries a time, or is a number.
    """
    # a datetime is a date to Python, and a number would be read as seconds since 1970
    if isinstance(value, (dt.datetime, int, float, Decimal)):
        raise ValueError("must be a date such as 2026-02-05, without a time")
    if isinstance(value, str) and not re.fullmatch(r"\d{4}-\d\d-\d\d", value, re.ASCII):
        raise ValueError(f"{value!r} is not a date such as 2026-02-05")
    return value


def of_our_time(day: dt.date) -> dt.date:
    """A date that a repair can have, so that every period added to it stays on the calendar.

    Raises:
        ValueError: the year is a slip of the pen.
    """
    if not FIRST_YEAR <= day.year <= LAST_YEAR:
        raise ValueError(f"{day.isoformat()[:10]} is outside the years {FIRST_YEAR} to {LAST_YEAR}")
    return day


def with_a_time(value: Any) -> Any:
    """A date with its time of day.

    Raises:
        ValueError: the value is a date alone, or a number.
    """
    if isinstance(value, dt.datetime):
        return value
    if not isinstance(value, str) or not re.match(r"\d{4}-\d\d-\d\d[T ]\d\d:\d\d", value, re.ASCII):
        raise ValueError(f"{value!s} is not a time such as 2026-02-24T09:10:00")
    return value


def to_the_minute(*moments: dt.datetime) -> list[str]:
    """Moments as people say them, `2026-03-14 09:05`; their UTC offset is told only where they differ in it."""
    differ = len({moment.utcoffset() for moment in moments}) > 1
    said = (moment if differ else moment.replace(tzinfo=None) for moment in moments)
    return [moment.isoformat(sep=" ", timespec="minutes") for moment in said]


MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
"""The months, from the first."""


def in_a_letter(day: dt.date) -> str:
    """A day as letters write it, which nobody reads two ways: 5 March 2026."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def days_in_a_letter(said: str) -> str:
    """A sentence of the program with its days as letters write them."""
    return re.sub(r"\b\d{4}-\d\d-\d\d\b", lambda found: in_a_letter(dt.date.fromisoformat(found[0])), said)


Day = Annotated[dt.date, BeforeValidator(only_a_date), AfterValidator(of_our_time)]
"""A date of the calendar, written year, month, day."""

Moment = Annotated[dt.datetime, BeforeValidator(with_a_time), AfterValidator(of_our_time)]
"""A date and a time of day, with or without a time zone."""
