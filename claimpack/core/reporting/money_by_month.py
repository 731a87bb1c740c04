"""Claimed against paid, by the month of filing: every amount claimed is paid, owed, written off or short."""

from __future__ import annotations

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


class MoneyByMonth:
    """The claims filed within the days by currency, most claims first, and month; claims withdrawn are left out.

    A month without claims between two others is there, with nothing in it.

    Source: common practice, no source.
    """

    def __init__(self, days: Days) -> None:
        self._days = days
        self._found: dict[str, dict[date, MonthOfClaims]] = {}

    def add(self, claim: ReportedClaim) -> None:
        """Count one claim."""
        if not claim.filed or not self._days.hold(claim.filed) or claim.state == "withdrawn":
            return
        months, month = self._found.setdefault(claim.currency, {}), claim.filed.replace(day=1)
        sums = months.get(month) or _nothing(month, claim.currency)
        over, paid = claim.paid_over, claim.paid - claim.paid_over
        months[month] = MonthOfClaims(
            month=month,
            currency=claim.currency,
            claims=sums.claims + 1,
            claimed=sums.claimed + claim.claimed,
            accepted=sums.accepted + (claim.accepted or ZERO),
            paid=sums.paid + paid,
            outstanding=sums.outstanding + claim.outstanding,
            written_off=sums.written_off + claim.written_off,
            # what is left of the claimed, so that the four always add up to it
            short=sums.short + claim.claimed - paid - claim.outstanding - claim.written_off,
            over=sums.over + over,
        )

    def told(self) -> tuple[MonthOfClaims, ...]:
        """What was counted."""
        counts = {currency: sum(month.claims for month in months.values()) for currency, months in self._found.items()}
        return tuple(
            months.get(month) or _nothing(month, currency)
            for currency, months in sorted(self._found.items(), key=lambda pair: (-counts[pair[0]], pair[0]))
            for month in _every_month(min(months), max(months))
        )


def _nothing(month: date, currency: str) -> MonthOfClaims:
    return MonthOfClaims(month, currency, 0, *[ZERO] * 7)


def _every_month(first: date, last: date) -> Iterator[date]:
    month = first
    while month <= last:
        yield month
        # a month with nothing in it stands there, or the picture would close the gap
        month = month.replace(year=month.year + month.month // 12, month=month.month % 12 + 1)


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
