"""Ways a unit is used: the three that every plan knows, and those that plans name."""

from __future__ import annotations

from collections.abc import Iterable

from claimpack.core.facts.fields import USES
from claimpack.core.plans.plan import Plan
from claimpack.core.values.words import did_you_mean, folded, is_said
from claimpack.errors import BadInput

MEANT_USES = {
    **dict.fromkeys(("residential", "home", "homeowner", "consumer", "domestic", "private", "personal"), "household"),
    **dict.fromkeys(("commercial", "business", "trade", "contractor", "industrial"), "professional"),
    **dict.fromkeys(("hire", "rent", "lease"), "rental"),
}
"""Which of the uses that are always known people mean by another word."""


def uses_known(plans: Iterable[Plan]) -> tuple[str, ...]:
    """Every word for a use, each once: the three that are always known, then those that plans and windows name."""
    groups = [uses for plan in plans for uses in (plan.uses, *(window.uses for window in plan.window))]
    known: dict[str, str] = {}
    for use in (*USES, *(use for group in groups for use in group or ())):
        known.setdefault(folded(use), use)
    return tuple(known.values())


def refuse_unknown_use(said: str, plans: Iterable[Plan], where: str) -> None:
    """Refuse a use that no plan within reach names.

    Args:
        said: how somebody says the unit is used; an empty text passes.
        plans: the plans within reach.
        where: what it is called where it was written.

    Raises:
        BadInput: no plan names it, and it is none of the three that are always known.
    """
    known = uses_known(plans)
    if said and not is_said(said, known):
        raise BadInput(f"{where}{said!r} is no use that a plan names", did_you_mean(said, known))
