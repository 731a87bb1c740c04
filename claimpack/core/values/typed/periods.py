"""Periods, lists and percents as people write them, read only where they can be read one way."""

from __future__ import annotations

import re
from decimal import Decimal

from claimpack.core.values.money import exact, part_of_one
from claimpack.core.values.periods import Period, period

_UNITS = {"year": "Y", "yr": "Y", "month": "M", "mo": "M", "week": "W", "wk": "W", "day": "D"}
_COUNTS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_COUNTED = re.compile(rf"\b({'|'.join(_COUNTS)})\b")
_PIECE = re.compile(r"(\d{1,5})[ -]*([a-z]+)\.?", re.ASCII)
_BETWEEN = re.compile(r"\s*(?:,|\band\b|&|\s)\s*")


def period_written(written: str) -> Period:
    """A period as people write it: `24 months`, `2 years`, `1 year and 6 months`, `90 days`, or `P24M`.

    Raises:
        ValueError: it is none, or has no unit.

    Source: a rule of this tool's, no source.
    """
    text = _COUNTED.sub(lambda found: str(_COUNTS.index(found[1]) + 1), " ".join(written.casefold().split()))
    if re.match(r"p\d", text):
        return period(text.upper())
    if re.fullmatch(r"\d+", text):
        raise ValueError(f"{written!r}: of what? Write {text} days, {text} months or {text} years")
    found = _PIECE.findall(text)
    rest = _BETWEEN.sub("", _PIECE.sub("", text))
    units = [_UNITS.get(unit.removesuffix("s")) for _, unit in found]
    if not found or rest or None in units or len(set(units)) < len(units):
        raise ValueError(f"{written!r} is not a time such as 24 months, 2 years or 90 days")
    counts = {unit: count for (count, _), unit in zip(found, units, strict=True)}
    return period("P" + "".join(f"{counts[unit]}{unit}" for unit in "YMWD" if unit in counts))


def list_written(written: str) -> list[str]:
    """Words with commas, semicolons or `and` between them, each once, in their order."""
    words = (" ".join(word.split()) for word in re.split(r"[,;\n]|\band\b", written))
    return list(dict.fromkeys(word for word in words if word))


def percent_written(written: str) -> Decimal:
    """A part of the whole as people write it, as a fraction: `20 %`, `20` and `0.20` are 0.20.

    Raises:
        ValueError: it is none, is more than the whole, or may be a percent as well as a fraction.

    Source: a rule of this tool's, no source.
    """
    figures, sign, rest = written.partition("%")
    number = exact(figures.strip())
    if rest.strip() or number < 0:
        raise ValueError(f"{written!r} is not a percentage such as 20 %")
    if sign or number > 1:
        return part_of_one(number / 100)
    if number == 1:
        raise ValueError(f"{written!r}: write 1 % or 100 %")
    return number
