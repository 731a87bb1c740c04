"""What a plan pays beside the least the law lets it pay."""

from __future__ import annotations

from decimal import Decimal

from claimpack.core.money import ZERO, rounded
from claimpack.core.terms import Terms


def parts_floor_gap(cost: Decimal, handling: Decimal, terms: Terms, currency: str) -> Decimal:
    """By how much a plan pays less for parts than the terms' floor; zero where it pays enough or there is no floor.

    Args:
        cost: the shop's cost of the parts.
        handling: what the plan adds, as a fraction.
        terms: the payment terms.
        currency: of the cost.

    Source: the section the terms cite, as S.D. Codified Laws 37-5-17 (cost plus at least 30 %).
    """
    floor = terms.floor_of(cost)
    if floor is None:
        return ZERO
    return max(rounded(floor, currency) - rounded(cost * (1 + handling), currency), rounded(ZERO, currency))


def labour_floor_gap(paid_rate: Decimal, retail_rate: Decimal | None, terms: Terms) -> Decimal:
    """By how much an hour a plan pays less than the shop's retail rate, where the terms ask for it.

    Source: the section the terms cite, as La. R.S. 51:501 (the dealer's posted retail rate).
    """
    if terms.labour_floor != "retail" or retail_rate is None:
        return ZERO
    return max(retail_rate - paid_rate, ZERO)
