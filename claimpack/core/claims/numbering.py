"""Claim numbers a shop counts by: its prefix if it has one, two digits of the year, a hyphen, four digits or more."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date

_COUNTED = re.compile(r"\d{4,9}", re.ASCII)


def year_prefix(day: date, shop: str = "") -> str:
    """How the numbers of a day's year begin, as in `26-`; `H26-` in a shop whose numbers begin with H."""
    return f"{shop}{day:%y}-"


def next_number(day: date, taken: Iterable[str], shop: str = "") -> str:
    """The number after the highest one counted in the day's year; numbers of other forms do not count.

    Args:
        day: the day it is.
        taken: the numbers in use, of any shop of the book: two that count alike share one count.
        shop: what the shop's numbers begin with; empty for nothing.

    Source: common practice, no source.
    """
    beginning = year_prefix(day, shop)
    after = (number.removeprefix(beginning) for number in taken if number.startswith(beginning))
    highest = max((int(count) for count in after if _COUNTED.fullmatch(count)), default=0)
    return f"{beginning}{highest + 1:04}"
