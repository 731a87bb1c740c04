"""Answers about what a booklet covers that say several things at once: limits, shares, serial numbers, model years.

Each is read only where it can be read one way, and raises a ValueError with an example where it cannot.
"""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any, NamedTuple

from claimpack.core.drafting.booklet.pieces import Amount, matched, pieces
from claimpack.core.facts.unit import HOURS
from claimpack.core.values.money import percent, plain
from claimpack.core.values.typed.periods import percent_written, period_written
from claimpack.core.values.words import folded


class Limits(NamedTuple):
    """Readings up to which something is covered; whether it ends with the first or the last of them and its time."""

    readings: tuple[tuple[str, Decimal], ...] = ()
    whichever: str = "first"


LIMITS = "300 hours; or: 300 hours, 5000 cycles, whichever is last"
_HOUR_WORDS = ("", "h", "hr", "hrs", "hour", "hours")


def limits_read(typed: str, amount: Amount) -> Limits:
    """Readings of one or more meters, as in `300 hours, 5000 cycles, whichever is last`."""
    found: list[tuple[str, Decimal]] = []
    whichever = "first"
    for piece in pieces(typed):
        which = re.fullmatch(r"whichever (?:is|comes) (first|earlier|last|later)", piece, re.IGNORECASE)
        if which:
            whichever = "last" if which[1].casefold() in ("last", "later") else "first"
            continue
        read = matched(r"([\d.,]+)\s*([a-z][a-z /-]*)?", piece, LIMITS)
        meter = (read[2] or "").strip()
        found.append((HOURS if folded(meter) in _HOUR_WORDS else meter, amount(read[1])))
    return Limits(tuple(found), whichever if found else "first")


def limits_said(limits: Limits) -> str:
    """Limits as they are written."""
    told = [f"{plain(at)} {meter}" for meter, at in limits.readings]
    return ", ".join([*told, *(["whichever is last"] if limits.whichever == "last" else [])])


SHARES = "100 % until 12 months, 50 % until 24 months; or: by month, full until 12 months, of 36 months"
_WHOLE_SHARES = {"all": Decimal(1), "full": Decimal(1), "in full": Decimal(1), "half": Decimal("0.5")}


def shares_read(typed: str, _amount: Amount) -> Any:
    """What is paid of a line up to which age, or by the whole months left."""
    by_month = re.fullmatch(
        r"by (?:the )?months?(?:,? (?:in )?full(?: until| for| up to) (?P<full>.+?))?,? (?:out )?of (?P<of>.+)",
        " ".join(typed.split()),
        re.IGNORECASE,
    )
    if by_month:
        full = {"full_until": period_written(by_month["full"])} if by_month["full"] else {}
        return {**full, "of": period_written(by_month["of"])}
    steps = []
    for piece in pieces(typed):
        step = matched(r"(all|full|in full|half|[\d.,]+\s*%?)\s*(?:until|up to|to|for)\s+(.+)", piece, SHARES)
        share = _WHOLE_SHARES.get(step[1].casefold()) or percent_written(step[1])
        steps.append({"until": period_written(step[2]), "maker": share})
    return steps


def shares_said(shares: Any) -> str:
    """Shares as a person says them."""
    if isinstance(shares, dict):
        full = f"full until {shares['full_until'].in_words()}, then " if "full_until" in shares else ""
        return f"{full}by the whole months left of {shares['of'].in_words()}"
    return ", ".join(f"{percent(step['maker'])} % until {step['until'].in_words()}" for step in shares)


RANGES = "HC70-118-20000 to HC70-118-29999"


def serials_read(typed: str, _amount: Amount) -> list[str]:
    """Ranges of serial numbers, both ends in."""
    found = (matched(r"(\S+)\s*(?:to|\.\.|\N{EN DASH})\s*(\S+)", piece, RANGES) for piece in pieces(typed))
    return [f"{read[1]} .. {read[2]}" for read in found]


def serials_said(ranges: list[str]) -> str:
    """Ranges as they stand in the plan."""
    return ", ".join(ranges)


def years_read(typed: str, _amount: Amount) -> list[int]:
    """The first and the last model year."""
    read = matched(r"(\d{4})(?:\s*(?:to|-|\N{EN DASH})\s*(\d{4}))?", typed.strip(), "2024 to 2026")
    return [int(read[1]), int(read[2] or read[1])]


def years_said(years: list[int]) -> str:
    """One model year, or the first and the last."""
    return " to ".join(map(str, dict.fromkeys(years)))
