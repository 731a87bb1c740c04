"""Claim numbers a shop counts by: two digits of the year, a hyphen, four digits or more."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date

_COUNTED = re.compile(r"\d\d-(\d{4,9})", re.ASCII)


def year_prefix(day: date) -> str:
    """How the numbers of a day's year begin, as in `26-`."""
    return f"{day:%y}-"


def next_number(day: date, taken: Iterable[str]) -> str:
    """The number after the highest one counted in the day's year; numbers of other forms do not count.

    Source: common practice, no source.
    """
    of_the_year = (number for number in taken if number.startswith(year_prefix(day)))
    counted = (match for number in of_the_year if (match := _COUNTED.fullmatch(number)))
    highest = max((int(match[1]) for match in counted), default=0)
    return f"{year_prefix(day)}{highest + 1:04}"
