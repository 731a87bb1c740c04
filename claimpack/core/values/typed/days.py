"""Days as people of the shop's country write them, read only where they can be read one way."""

from __future__ import annotations

import datetime as dt
import re
from contextlib import suppress
from typing import Literal

from claimpack.core.values.days import MONTHS, of_our_time

DateOrder = Literal["", "month-first", "day-first"]
"""Which of 3/4 is the month; empty where the shop has not said."""

_NAMED = {"today": 0, "yesterday": -1}
_MONTH = r"(?P<month>[a-z]{3,9})\.?"
_DAY = r"(?P<day>\d{1,2})(?:st|nd|rd|th)?"
_YEAR = r"(?P<year>\d{4})"
_IN_WORDS = (rf"{_DAY} {_MONTH}(?:,? {_YEAR})?", rf"{_MONTH} {_DAY}(?:,? {_YEAR})?")
_IN_FIGURES = r"(\d{1,2})([/.-])(\d{1,2})(?:\2(\d{4}|\d\d))?\.?"


def day_written(written: str, today: dt.date, order: DateOrder = "", *, ahead: bool = False) -> dt.date | None:
    """The day that somebody wrote: 2025-11-20, 20 Nov, Nov 20 2025, 11/20/2025, yesterday; None where it is no day.

    Args:
        written: as it was written.
        today: a day without a year is the last one up to today.
        order: which comes first in figures.
        ahead: the day is one to come: without a year it is the next one from today.

    Raises:
        ValueError: it can be read two ways, or is no day of the calendar; the readings are named.

    Source: a rule of this tool's, no source.
    """
    text = " ".join(written.casefold().split())
    if re.fullmatch(r"\d{4}-\d\d-\d\d", text, re.ASCII):
        with suppress(ValueError):
            return dt.date.fromisoformat(text)
        return None
    if text in _NAMED or (ahead and text == "tomorrow"):
        return today + dt.timedelta(days=_NAMED.get(text, 1))
    for form in _IN_WORDS:
        found = re.fullmatch(form, text, re.ASCII)
        month = _month_called(found["month"]) if found else None
        if found and month:
            return _must_be(_on(found["year"], month, int(found["day"]), today, ahead=ahead), written)
    figures = re.fullmatch(_IN_FIGURES, text, re.ASCII)
    return _in_figures(figures, written, today, order, ahead=ahead) if figures else None


def _month_called(word: str) -> int | None:
    """A month by its name or the beginning of it."""
    return next((place for place, name in enumerate(MONTHS, 1) if name.casefold().startswith(word)), None)


def _in_figures(
    figures: re.Match[str], written: str, today: dt.date, order: DateOrder, *, ahead: bool
) -> dt.date | None:
    first, second = int(figures[1]), int(figures[3])
    month_first = _on(figures[4], first, second, today, ahead=ahead)
    day_first = _on(figures[4], second, first, today, ahead=ahead)
    if order:
        meant, other = (month_first, day_first) if order == "month-first" else (day_first, month_first)
        if meant is None and other is not None:
            raise ValueError(f'{written!r} would be {other} the other way round; shop.toml says dates = "{order}"')
        return _must_be(meant, written)
    if month_first and day_first and month_first != day_first:
        raise ValueError(
            f'{written!r} is {month_first} or {day_first}: write it so, or say in shop.toml dates = "month-first" or '
            '"day-first"'
        )
    return _must_be(month_first or day_first, written)


def _must_be(day: dt.date | None, written: str) -> dt.date:
    if day is None:
        raise ValueError(f"{written!r} is not a date of the calendar")
    return day


def _on(year: str | None, month: int, day: int, today: dt.date, *, ahead: bool) -> dt.date | None:
    """A day of a year, or of the nearest year before or after today; None where the calendar has none."""
    if year:
        return _day(int(year) + (2000 if len(year) == 2 else 0), month, day)
    # 29 February comes round again within eight years.
    years = range(today.year, today.year + 9) if ahead else range(today.year, today.year - 9, -1)
    days = (_day(each, month, day) for each in years)
    return next((found for found in days if found and (found >= today if ahead else found <= today)), None)


def _day(year: int, month: int, day: int) -> dt.date | None:
    with suppress(ValueError):
        return of_our_time(dt.date(year, month, day))
    return None
