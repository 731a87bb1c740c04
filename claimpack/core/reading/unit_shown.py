"""Which unit a plate shows, before there is a claim: its maker by the plans, its model, its serial numbers."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from claimpack.core.plans.plan import Plan
from claimpack.core.reading.plates import proposed_build, proposed_model
from claimpack.core.reading.read_text import Proposal, TextRead
from claimpack.core.reading.serials import proposed_serials
from claimpack.core.values.typed.days import DateOrder
from claimpack.core.values.words import folded

_NOTHING_TYPED = {"unit": ""}


def unit_shown(
    lines: Sequence[TextRead], plans: Sequence[Plan], maker: str, today: dt.date, order: DateOrder
) -> list[Proposal]:
    """What a plate says of its unit: maker, model, serial numbers, day of build; what it says two ways is left out.

    Args:
        lines: what was read.
        plans: every plan within reach.
        maker: the maker, where somebody said it already; empty where not.
        today: no day of build is later.
        order: which comes first in a day in figures.

    Source: a rule of this tool's, no source; the maker is the one that the plate names, or whose form its serial has.
    """
    named = [plan for plan in plans if folded(plan.maker) == folded(maker)] or _named(lines, plans)
    read = [(plan, proposed_serials(lines, plan.requires.serial_patterns, {})) for plan in named or plans]
    # a number in a plan's form says whose plate it is, even where no maker's name could be read
    fitting = [(plan, found) for plan, found in read if any(each.key.endswith(".unit") for each in found)]
    of_plans = [plan for plan, _ in fitting] or named
    found: list[Proposal | None] = [None if maker else _maker(lines, of_plans)]
    found.append(proposed_model(lines, [model for plan in of_plans for model in plan.models], ""))
    found += _told_alike([each for _, some in fitting for each in some]) or proposed_serials(lines, {}, _NOTHING_TYPED)
    found.append(proposed_build(lines, today, order))
    return [each for each in found if each]


def _named(lines: Sequence[TextRead], plans: Sequence[Plan]) -> list[Plan]:
    """The plans whose maker stands on the plate."""
    said = {folded(line.text) for line in lines}
    return [plan for plan in plans if {folded(plan.maker), folded(plan.maker_name)} & (said - {""})]


def _maker(lines: Sequence[TextRead], plans: Sequence[Plan]) -> Proposal | None:
    makers = {folded(plan.maker): plan.maker for plan in plans}
    # two makers whose numbers have one form leave the question to a person
    if len(makers) != 1 or not lines:
        return None
    return Proposal("maker", next(iter(makers.values())), lines[0].by, lines[0].spot)


def _told_alike(found: Sequence[Proposal]) -> list[Proposal]:
    """What every plan reads alike, by key, once."""
    by_key: dict[str, dict[str, Proposal]] = {}
    for each in found:
        by_key.setdefault(each.key, {})[each.text] = each
    return [next(iter(texts.values())) for texts in by_key.values() if len(texts) == 1]
