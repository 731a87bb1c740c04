"""Ranges of serial numbers, as in `HC70-118-20000 .. HC70-118-29999`: both ends in."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Annotated, NamedTuple

from claimpack.core.values.marks import AfterValidator
from claimpack.core.values.words import Named, run_on


class _Range(NamedTuple):
    """What stands before and behind the last run of digits, and the first and the last number, both in."""

    before: str
    behind: str
    first: int
    last: int


def _checked(text: str) -> str:
    _read(text)
    return text


SerialRange = Annotated[Named, AfterValidator(_checked)]
"""Two serial numbers with ` .. ` between them that differ in their last run of digits alone."""


def ends_of(range_: str) -> tuple[str, str]:
    """The first and the last serial number of a range, as they are written.

    Raises:
        ValueError: it is not two serial numbers with two dots between them.
    """
    first, dots, last = (part.strip() for part in range_.partition(".."))
    if not (first and dots and last):
        raise ValueError(f"{range_!r} is no range of serial numbers: write the first, two dots, the last")
    return first, last


def is_in_range(serial: str, ranges: Iterable[str]) -> bool:
    """Whether a serial number lies in one of the ranges; its case, blanks and hyphens do not matter.

    Source: common practice, no source.
    """
    return any(_holds(_read(range_), run_on(serial)) for range_ in ranges)


def numbers_between(one: str, other: str) -> int | None:
    """How many numbers lie between two ranges, the lower first; below 0 where they share some; None for other forms."""
    low, high = sorted((_read(one), _read(other)), key=lambda range_: range_.first)
    # numbers of two series cannot be counted between
    if (low.before, low.behind) != (high.before, high.behind):
        return None
    return high.first - low.last - 1


def _holds(one: _Range, serial: str) -> bool:
    if not (serial.startswith(one.before) and serial.endswith(one.behind)):
        return False
    digits = serial[len(one.before) : len(serial) - len(one.behind)]
    # digits of other scripts are decimal too, and in no serial number
    return digits.isascii() and digits.isdecimal() and one.first <= int(digits) <= one.last


@lru_cache(maxsize=256)
def _read(range_: str) -> _Range:
    first, last = (_in_parts(end) for end in ends_of(range_))
    if (first[0], first[2]) != (last[0], last[2]):
        raise ValueError(f"{range_!r}: the two differ in more than their last run of digits")
    if int(last[1]) < int(first[1]):
        raise ValueError(f"{range_!r}: the last is before the first")
    return _Range(first[0], first[2], int(first[1]), int(last[1]))


def _in_parts(serial: str) -> Sequence[str]:
    # the last run of digits counts up; what stands before it names the model or the plant
    parts = re.fullmatch(r"(.*?)([0-9]{1,30})([^0-9]*)", serial, re.DOTALL)
    if parts is None:
        raise ValueError(f"{serial!r} has no digits to count by")
    return (run_on(parts[1]), parts[2], run_on(parts[3]))
