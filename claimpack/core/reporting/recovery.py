"""What the work brings: recovery by maker and operation, labour rates against retail, income by technician."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
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


def recovery(claims: Iterable[ReportedClaim], days: Days) -> tuple[Recovered, ...]:
    """What makers pay of the claims filed within the days, by operation; the least recovered money on top.

    A claim counts under the operation with most hours claimed, so that the rows add up.

    Source: common practice, no source.
    """
    found: dict[tuple[str, str, str], list[ReportedClaim]] = {}
    for claim in claims:
        if days.hold(claim.filed) and claim.state != "withdrawn":
            key = (folded(claim.maker), folded(_main(claim)), claim.currency)
            found.setdefault(key, []).append(claim)
    rows = (_recovered(some) for some in found.values())
    return tuple(sorted(rows, key=lambda row: (row.currency, -row.lost, folded(row.maker), folded(row.operation))))


def _main(claim: ReportedClaim) -> str:
    most = max(claim.work, key=lambda work: work.claimed, default=None)
    return most.operation if most else NO_OPERATION


def _recovered(some: Sequence[ReportedClaim]) -> Recovered:
    first = some[0]
    claimed, paid, over, outstanding = (
        sum((getattr(claim, name) for claim in some), ZERO) for name in ("claimed", "paid", "paid_over", "outstanding")
    )
    return Recovered(first.maker, _main(first), first.currency, len(some), claimed, paid - over, outstanding)


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


def rate_gaps(claims: Iterable[ReportedClaim], days: Days) -> tuple[RateGap, ...]:
    """The labour of the claims filed within the days at both rates, by maker, the widest gap first.

    Work of days on which the shop's rate for owners is not known is left out.

    Source: common practice, no source.
    """
    found: dict[tuple[str, str], RateGap] = {}
    for claim, work in _filed_work(claims, days):
        if work.retail is None:
            continue
        key = (folded(claim.maker), claim.currency)
        sums = found.get(key, RateGap(claim.maker, claim.currency, ZERO, ZERO, ZERO))
        found[key] = sums._replace(
            hours=sums.hours + work.claimed, worth=sums.worth + work.worth, retail=sums.retail + work.retail
        )
    return tuple(sorted(found.values(), key=lambda gap: (gap.currency, -gap.gap, gap.maker)))


def _filed_work(claims: Iterable[ReportedClaim], days: Days) -> Iterator[tuple[ReportedClaim, Work]]:
    for claim in claims:
        if days.hold(claim.filed) and claim.state != "withdrawn":
            yield from ((claim, work) for work in claim.work)


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


def technicians(claims: Iterable[ReportedClaim], days: Days) -> tuple[TechnicianTime, ...]:
    """The time and the income of every technician on the claims filed within the days, most hours first.

    Source: common practice, no source.
    """
    found: dict[tuple[str, str], list[tuple[ReportedClaim, Work]]] = {}
    for claim, work in _filed_work(claims, days):
        found.setdefault((folded(work.technician), claim.currency), []).append((claim, work))
    rows = (_time_of(some) for some in found.values())
    return tuple(sorted(rows, key=lambda row: (row.currency, -row.worked, row.technician)))


def _time_of(some: Sequence[tuple[ReportedClaim, Work]]) -> TechnicianTime:
    first, work = some[0]
    return TechnicianTime(
        technician=work.technician or NOBODY,
        currency=first.currency,
        claims=len({claim.number for claim, _ in some}),
        worked=sum((work.worked or ZERO for _, work in some), ZERO),
        claimed=sum((work.claimed for _, work in some), ZERO),
        worth=sum((work.worth for _, work in some), ZERO),
        income=sum((_income(claim, work) for claim, work in some), ZERO),
    )


def _income(claim: ReportedClaim, work: Work) -> Decimal:
    if claim.claimed <= 0:
        return ZERO
    return rounded(work.worth * min(max(claim.paid, ZERO) / claim.claimed, Decimal(1)), claim.currency)
