"""What pricing goes by of the verdict: how much the windows pay, since when, and whose failure is not covered."""

from __future__ import annotations

from collections.abc import Mapping
from collections.abc import Set as AbstractSet
from datetime import date
from types import MappingProxyType
from typing import NamedTuple

from claimpack.core.pricing.lines import PricedPayer
from claimpack.core.pricing.window_pays import ALL_PAID, PaidParts
from claimpack.core.values.wording import Sentence


class LeftTo(NamedTuple):
    """Who pays the lines of a failure that is not covered where another one is, and why."""

    payer: PricedPayer
    why: Sentence


class Cover(NamedTuple):
    """The verdict, as far as amounts go by it; failures are counted from 1.

    Args:
        paid: how much of each kind of line the windows pay, by failure; all where a failure has none.
        starts: the day cover starts; None where that is not known.
        closed: the failures that are not covered, whose diagnosis may be paid otherwise.
        left: who pays the lines of a failure that is not covered where another one is.
    """

    paid: tuple[PaidParts, ...] = ()
    starts: date | None = None
    closed: AbstractSet[int] = frozenset()
    left: Mapping[int, LeftTo] = MappingProxyType({})

    def paid_of(self, failure: int) -> PaidParts:
        """How much of each kind of line the windows pay of one failure."""
        return self.paid[failure - 1] if failure <= len(self.paid) else ALL_PAID

    def pays_none(self, failure: int, kind: str) -> bool:
        """Whether the windows pay nothing of a kind of line for one of several failures."""
        part = self.paid_of(failure).get(kind)
        return len(self.paid) > 1 and part is not None and not part.maker


ALL_COVERED = Cover()
"""A claim that is paid in full."""
