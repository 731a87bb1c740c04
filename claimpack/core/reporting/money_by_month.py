"""Claimed against paid, by the month of filing: every amount claimed is paid, owed, written off or short."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.reporting.reported import Days, ReportedClaim
from claimpack.core.values.money import ZERO


class MonthOfClaims(NamedTuple):
    """The claims filed in one month, in one currency; month is its first day.

    Claimed is the sum of paid, outstanding, written off and short, of each claim and so of all of them; none is below
    zero. Short is what the maker does not pay of what was claimed. Paid leaves out what came in beyond what was
    claimed, which is over. Accepted and over are part of no sum.
    """

    month: date
    currency: str
    claims: int
    claimed: Decimal
    accepted: Decimal
    paid: Decimal
    outstanding: Decimal
    written_off: Decimal
    short: Decimal
    over: Decimal


def money_by_month(claims: Iterable[ReportedClaim], days: Days) -> tuple[MonthOfClaims, ...]:
    """The claims filed within the days by currency, most claims first, and month; claims withdrawn are left out.

    A month without claims between two others is there, with nothing in it.

    Source: common practice, no source.
    """
    found: dict[str, dict[date, list[ReportedClaim]]] = {}
    counts = Counter[str]()
    for claim in claims:
        if claim.filed and days.hold(claim.filed) and claim.state != "withdrawn":
            found.setdefault(claim.currency, {}).setdefault(claim.filed.replace(day=1), []).append(claim)
            counts[claim.currency] += 1
    return tuple(
        _month(month, currency, months.get(month, []))
        for currency, months in sorted(found.items(), key=lambda pair: (-counts[pair[0]], pair[0]))
        for month in _every_month(min(months), max(months))
    )


def _every_month(first: date, last: date) -> Iterator[date]:
    month = first
    while month <= last:
        yield month
        # a month with nothing in it stands there, or the picture would close the gap
        month = month.replace(year=month.year + month.month // 12, month=month.month % 12 + 1)


def _month(month: date, currency: str, claims: Sequence[ReportedClaim]) -> MonthOfClaims:
    claimed, outstanding, written_off, paid_in_all, over = (
        sum((getattr(claim, name) for claim in claims), ZERO)
        for name in ("claimed", "outstanding", "written_off", "paid", "paid_over")
    )
    paid = paid_in_all - over
    return MonthOfClaims(
        month=month,
        currency=currency,
        claims=len(claims),
        claimed=claimed,
        accepted=sum((claim.accepted or ZERO for claim in claims), ZERO),
        paid=paid,
        outstanding=outstanding,
        written_off=written_off,
        # what is left of the claimed, so that the four always add up to it
        short=claimed - paid - outstanding - written_off,
        over=over,
    )


def whole_of(months: Sequence[MonthOfClaims]) -> MonthOfClaims:
    """The months of one currency added up; the month is the first of them."""

    def added_up(name: str) -> Decimal:
        return sum((getattr(month, name) for month in months), ZERO)

    claims = sum(month.claims for month in months)
    return MonthOfClaims(months[0].month, months[0].currency, claims, *map(added_up, MonthOfClaims._fields[3:]))


def by_currency(months: Iterable[MonthOfClaims]) -> dict[str, list[MonthOfClaims]]:
    """The months of each currency, in their order."""
    found: dict[str, list[MonthOfClaims]] = {}
    for month in months:
        found.setdefault(month.currency, []).append(month)
    return found
