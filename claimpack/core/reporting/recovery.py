"""What the work brings: recovery by maker and operation, labour rates against retail, income by technician."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from claimpack.core.reporting.reported import Days, ReportedClaim
from claimpack.core.reporting.work import Work
from claimpack.core.values.money import ZERO, rounded
from claimpack.core.values.words import folded

NO_OPERATION = "no labour"
NOBODY = "nobody named"


class Recovered(NamedTuple):
    """What a maker pays for claims of one operation: claimed, paid, still owed, and not recovered, in one currency.

    What came in beyond a claim is left out of what was paid: it makes up for no other.
    """

    maker: str
    operation: str
    currency: str
    claims: int
    claimed: Decimal
    paid: Decimal
    outstanding: Decimal

    @property
    def lost(self) -> Decimal:
        """What was claimed, is not paid and is not waited for."""
        return self.claimed - self.paid - self.outstanding

    @property
    def share(self) -> Decimal | None:
        """How much of what is not waited for any more was paid; None where all of it is."""
        settled = self.claimed - self.outstanding
        return self.paid / settled if settled > 0 else None


class Recovery:
    """What makers pay of the claims filed within the days, by operation; the least recovered money on top.

    A claim counts under the operation with most hours claimed, so that the rows add up.

    Source: common practice, no source.
    """

    def __init__(self, days: Days) -> None:
        self._days = days
        self._found: dict[tuple[str, str, str], Recovered] = {}

    def add(self, claim: ReportedClaim) -> None:
        """Count one claim."""
        if not _counts(claim, self._days):
            return
        operation = _main(claim)
        key = (folded(claim.maker), folded(operation), claim.currency)
        sums = self._found.get(key) or Recovered(claim.maker, operation, claim.currency, 0, ZERO, ZERO, ZERO)
        self._found[key] = sums._replace(
            claims=sums.claims + 1,
            claimed=sums.claimed + claim.claimed,
            paid=sums.paid + claim.paid - claim.paid_over,
            outstanding=sums.outstanding + claim.outstanding,
        )

    def told(self) -> tuple[Recovered, ...]:
        """What was counted."""
        rows = self._found.values()
        return tuple(sorted(rows, key=lambda row: (row.currency, -row.lost, folded(row.maker), folded(row.operation))))


def _counts(claim: ReportedClaim, days: Days) -> bool:
    return days.hold(claim.filed) and claim.state != "withdrawn"


def _main(claim: ReportedClaim) -> str:
    most = max(claim.work, key=lambda work: work.claimed, default=None)
    return most.operation if most else NO_OPERATION


class RateGap(NamedTuple):
    """What a maker's hours are worth at its rate and at what the shop charges owners, in one currency."""

    maker: str
    currency: str
    hours: Decimal
    worth: Decimal
    retail: Decimal

    @property
    def gap(self) -> Decimal:
        """How much less the maker's rate brings; below zero where it brings more."""
        return self.retail - self.worth


class RateGaps:
    """The labour of the claims filed within the days at both rates, by maker, the widest gap first.

    Work of days on which the shop's rate for owners is not known is left out.

    Source: common practice, no source.
    """

    def __init__(self, days: Days) -> None:
        self._days = days
        self._found: dict[tuple[str, str], RateGap] = {}

    def add(self, claim: ReportedClaim) -> None:
        """Count one claim."""
        for work in claim.work if _counts(claim, self._days) else ():
            if work.retail is None:
                continue
            key = (folded(claim.maker), claim.currency)
            sums = self._found.get(key, RateGap(claim.maker, claim.currency, ZERO, ZERO, ZERO))
            self._found[key] = sums._replace(
                hours=sums.hours + work.claimed, worth=sums.worth + work.worth, retail=sums.retail + work.retail
            )

    def told(self) -> tuple[RateGap, ...]:
        """What was counted."""
        return tuple(sorted(self._found.values(), key=lambda gap: (gap.currency, -gap.gap, gap.maker)))


class TechnicianTime(NamedTuple):
    """A technician's warranty work in one currency: hours written down, hours claimed, their worth, and what came in.

    What came in is the worth in the share of each claim that was paid.
    """

    technician: str
    currency: str
    claims: int
    worked: Decimal
    claimed: Decimal
    worth: Decimal
    income: Decimal


class Technicians:
    """The time and the income of every technician on the claims filed within the days, most hours first.

    Source: common practice, no source.
    """

    def __init__(self, days: Days) -> None:
        self._days = days
        self._found: dict[tuple[str, str], TechnicianTime] = {}

    def add(self, claim: ReportedClaim) -> None:
        """Count one claim."""
        met: set[tuple[str, str]] = set()
        for work in claim.work if _counts(claim, self._days) else ():
            key = (folded(work.technician), claim.currency)
            sums = self._found.get(key)
            sums = sums or TechnicianTime(work.technician or NOBODY, claim.currency, 0, ZERO, ZERO, ZERO, ZERO)
            self._found[key] = sums._replace(
                claims=sums.claims + (key not in met),
                worked=sums.worked + (work.worked or ZERO),
                claimed=sums.claimed + work.claimed,
                worth=sums.worth + work.worth,
                income=sums.income + _income(claim, work),
            )
            met.add(key)

    def told(self) -> tuple[TechnicianTime, ...]:
        """What was counted."""
        return tuple(sorted(self._found.values(), key=lambda row: (row.currency, -row.worked, row.technician)))


def _income(claim: ReportedClaim, work: Work) -> Decimal:
    if claim.claimed <= 0:
        return ZERO
    return rounded(work.worth * min(max(claim.paid, ZERO) / claim.claimed, Decimal(1)), claim.currency)
