"""What pricing goes by of the shop: what owners pay, and its level with each maker."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from claimpack.core.facts.record import Record
from claimpack.core.values.money import NotNegative, PartOfOne
from claimpack.core.values.words import Line

if TYPE_CHECKING:
    from claimpack.core.plans.plan import Plan


class Retail(Record):
    """What pricing goes by of the shop.

    Args:
        labour_rate: what owners pay an hour; None takes the plan's rate.
        tax: the tax on what owners pay, as a fraction.
        levels: the shop's level with each maker that has levels.
    """

    labour_rate: NotNegative | None = None
    tax: PartOfOne = Decimal(0)
    levels: dict[str, Line] = {}

    def level_with(self, plan: Plan) -> str:
        """The shop's level with the maker of a plan; empty where it is not known."""
        from claimpack.core.plans.makers import is_maker_of

        return next((level for maker, level in self.levels.items() if is_maker_of(plan, maker)), "")


NO_RETAIL = Retail.model_construct()
"""A shop that has said nothing: owner labour at the plan's rate, no tax."""
