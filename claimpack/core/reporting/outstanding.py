"""What is outstanding by age and maker."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.payment.pending import Ageing, Pending
from claimpack.core.reporting.reported import by_maker
from claimpack.core.values.ageing import BY_AGE, BY_DUE
from claimpack.core.values.money import ZERO


class MakerAges(NamedTuple):
    """What one maker owes: claims and amounts by bucket, from young to old."""

    maker: str
    claims: int
    amounts: tuple[Decimal, ...]

    @property
    def total(self) -> Decimal:
        """All of it."""
        return sum(self.amounts, ZERO)


class Outstanding(NamedTuple):
    """What is outstanding in one currency, who owes most first; `older` counts what is past sixty days."""

    currency: str
    buckets: tuple[str, ...]
    makers: tuple[MakerAges, ...]
    claims: int
    amounts: tuple[Decimal, ...]
    older: int
    older_amount: Decimal

    @property
    def total(self) -> Decimal:
        """All of it."""
        return sum(self.amounts, ZERO)


_PAST_SIXTY = ("61-90", "over 90")


def outstanding_by_age(items: Iterable[Pending], ageing: Ageing = "filed") -> tuple[Outstanding, ...]:
    """What is outstanding in each currency, most claims first; claims with nothing outstanding are left out.

    Source: common practice, no source; the buckets are those of `pending`.
    """
    by_currency: dict[str, list[Pending]] = {}
    for item in items:
        # what waits for an answer and asks for nothing has no place in a table of money
        if item.outstanding > 0:
            by_currency.setdefault(item.currency, []).append(item)
    buckets = BY_DUE if ageing == "due" else BY_AGE
    ordered = sorted(by_currency.items(), key=lambda pair: (-len(pair[1]), pair[0]))
    return tuple(_in_currency(currency, some, buckets) for currency, some in ordered)


def _in_currency(currency: str, items: Sequence[Pending], buckets: tuple[str, ...]) -> Outstanding:
    makers = [MakerAges(maker, len(some), _by_bucket(some, buckets)) for maker, some in by_maker(items).items()]
    older = [item for item in items if item.bucket in _PAST_SIXTY]
    return Outstanding(
        currency=currency,
        buckets=buckets,
        makers=tuple(sorted(makers, key=lambda maker: -maker.total)),
        claims=len(items),
        amounts=_by_bucket(items, buckets),
        older=len(older),
        older_amount=sum((item.outstanding for item in older), ZERO),
    )


def _by_bucket(items: Sequence[Pending], buckets: tuple[str, ...]) -> tuple[Decimal, ...]:
    sums = dict.fromkeys(buckets, ZERO)
    for item in items:
        sums[item.bucket] += item.outstanding
    return tuple(sums.values())
