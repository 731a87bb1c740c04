"""Periods of the calendar: ISO 8601 durations, the last day of a window, month ends, counted days."""

from __future__ import annotations

import calendar
import re
from collections.abc import Container
from datetime import date, timedelta
from functools import lru_cache
from typing import Annotated, Any, Literal, NamedTuple

from dateutil.relativedelta import relativedelta

from claimpack.core.values.marks import BeforeValidator, PlainSerializer
from claimpack.errors import BadInput

LastDay = Literal["anniversary", "day-before"]
MonthEnd = Literal["clamp", "last-day"]

_DURATION = re.compile(r"P(?=\d)(?:(\d{1,9})Y)?(?:(\d{1,9})M)?(?:(\d{1,9})W)?(?:(\d{1,9})D)?", re.ASCII)
_MOST = (100, 1200, 5200, 36_500)
_UNITS = ("year", "month", "week", "day")


class Period(NamedTuple):
    """Whole years, months, weeks and days, added to a date at once, never in a chain."""

    years: int = 0
    months: int = 0
    weeks: int = 0
    days: int = 0

    def plus(self, other: Period) -> Period:
        """Both periods as one."""
        return Period(*(mine + theirs for mine, theirs in zip(self, other, strict=True)))

    def is_whole_months(self) -> bool:
        """Whether the period counts months and years alone, so that month ends matter."""
        return not (self.weeks or self.days)

    def __str__(self) -> str:
        """The ISO 8601 form, as in P1Y6M."""
        return "P" + "".join(f"{count}{unit[0].upper()}" for count, unit in zip(self, _UNITS, strict=True) if count)

    def in_words(self) -> str:
        """The period as a person says it: `24 months`, `1 year and 6 months`."""
        parts = [f"{n} {unit}{'' if n == 1 else 's'}" for n, unit in zip(self, _UNITS, strict=True) if n]
        return " and ".join(parts)


def period(text: Any) -> Period:
    """Read an ISO 8601 duration of years, months, weeks and days.

    Raises:
        ValueError: it is no such duration, or it is empty.

    Source: ISO 8601-1 durations (P…Y…M…W…D), the subset without time.
    """
    if isinstance(text, Period):
        return text
    found = counted(text) if isinstance(text, str) else None
    if found is None:
        raise ValueError(f"{text!r} is not a period such as P12M, P2Y or P90D")
    if not any(found):
        raise ValueError(f"{text!r} is an empty period")
    # a slip of the keyboard, as P900Y, would carry dates off the calendar
    if any(count > most for count, most in zip(found, _MOST, strict=True)):
        raise ValueError(f"{text!r} is longer than any warranty period")
    return found


def counted(text: str) -> Period | None:
    """What an ISO 8601 duration counts, however long or empty it is; None where the text is none."""
    match = _DURATION.fullmatch(text)
    return Period(*(int(group or 0) for group in match.groups())) if match else None


Duration = Annotated[Period, BeforeValidator(period), PlainSerializer(str)]
"""A period written as an ISO 8601 duration."""


# a plan tried on many units asks for the same few days over and over
@lru_cache(maxsize=2000)
def moved(start: date, by: Period) -> date:
    """The date a period after `start`; a month without that day gives its last day.

    Raises:
        BadInput: the date would lie beyond the calendar.

    Source: Reg. (EEC, Euratom) 1182/71 Art. 3(2)(c), second sentence.
    """
    years, months, weeks, days = by
    try:
        return start + relativedelta(years=years, months=months, weeks=weeks, days=days)
    except (ValueError, OverflowError):
        raise BadInput(f"{start} plus {by} is beyond the year 9999", do="Shorten the period.") from None


def last_day(start: date, length: Period, counting: LastDay = "anniversary", month_end: MonthEnd = "clamp") -> date:
    """The last day on which a window is open.

    Args:
        start: first day of cover, inclusive.
        length: the period of the window.
        counting: "anniversary" counts the same date, "day-before" stops the day before it; both end days and weeks,
            alone or beside months, on the same day.
        month_end: "last-day" lets a start on a month's last day end on one, for whole months and years.

    Returns:
        A date not before `start`; a month that lacks the day gives its last day under either counting.

    Raises:
        BadInput: the date would lie beyond the calendar.

    Source: Reg. (EEC, Euratom) 1182/71 Art. 3(2)(c) (anniversary); UK SI 2018/1082 r. 1.4(2) (day-before).
    """
    end = moved(start, length)
    if not length.is_whole_months():
        return end
    # a year from 29 February ends on the 28th as it is: a day earlier would take two days off
    lacks_the_day = end.day < start.day
    # by this way a month from 28 February is 31 March, and not the 28th
    if month_end == "last-day" and _is_month_end(start):
        end = end.replace(day=calendar.monthrange(end.year, end.month)[1])
    if counting == "day-before" and not lacks_the_day:
        return end - timedelta(days=1)
    return end


def _is_month_end(day: date) -> bool:
    return day.day == calendar.monthrange(day.year, day.month)[1]


def next_working_day(day: date, holidays: Container[date]) -> date:
    """The day itself, or the next one that is no Saturday, Sunday or holiday.

    Source: Reg. (EEC, Euratom) 1182/71 Art. 3(4); FRCP 6(a)(1)(C). For deadlines to act, never for coverage.
    """
    while day.weekday() >= 5 or day in holidays:
        day += timedelta(days=1)
    return day
