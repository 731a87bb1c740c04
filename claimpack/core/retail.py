"""What the shop charges an owner at the counter."""

from __future__ import annotations

from decimal import Decimal

from claimpack.core.claim import Record
from claimpack.core.money import NotNegative, PartOfOne


class Retail(Record):
    """The shop's labour rate and the tax on owner lines, as a fraction; a rate of None takes the plan's."""

    labour_rate: NotNegative | None = None
    tax: PartOfOne = Decimal(0)


NO_RETAIL = Retail()
"""A shop that has said nothing: owner labour at the plan's rate, no tax."""
