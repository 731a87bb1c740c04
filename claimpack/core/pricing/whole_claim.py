"""What a plan says of a claim as a whole: its cap and that of the unit, the deductible, the least paid, the tax."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.facts.fields import Payer
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.lines import PricedLine, handling_in
from claimpack.core.values.money import ZERO, in_money, percent, plain, rounded
from claimpack.core.values.wording.sentence import Sentence, say


class StepFacts(NamedTuple):
    """What a step goes by: the plan, and what the maker paid for the unit before."""

    plan: Plan
    paid_before: Decimal = ZERO


PricingStep = Callable[[Sequence[PricedLine], StepFacts], list[PricedLine]]


def claimed(lines: Iterable[PricedLine]) -> Decimal:
    """What the maker pays of the lines, before tax."""
    return sum((line.whole for line in lines if line.payer == "maker"), ZERO)


def up_to_the_cap(lines: Sequence[PricedLine], terms: StepFacts) -> list[PricedLine]:
    """All of a claim up to its cap; what is above it is the shop's.

    Source: common practice, no source.
    """
    cap = terms.plan.pays.claim_cap
    if cap is None:
        return list(lines)
    return _kept(lines, cap, "shop", say("price.over-claim", cap=plain(cap)))


def up_to_the_cap_of_the_unit(lines: Sequence[PricedLine], terms: StepFacts) -> list[PricedLine]:
    """All of a claim up to what earlier claims of the unit left of its cap; what is above it is the shop's.

    Source: common practice, no source.
    """
    cap, before = terms.plan.pays.unit_cap, terms.paid_before
    if cap is None:
        return list(lines)
    key = "price.over-unit-life" if cap.per == "life" else "price.over-unit-year"
    why = say(key, cap=plain(cap.amount), paid=plain(before))
    return _kept(lines, max(cap.amount - before, ZERO), "shop", why)


def less_the_deductible(lines: Sequence[PricedLine], terms: StepFacts) -> list[PricedLine]:
    """A claim without what the plan leaves of each to somebody else; never below nothing.

    Source: common practice, no source.
    """
    deductible = terms.plan.pays.deductible
    if deductible is None:
        return list(lines)
    why = say(
        "price.deductible",
        amount=in_money(deductible.amount, terms.plan.currency),
        payer_word=f"payer.{deductible.payer}",
    )
    # after the caps: the deductible is left of what would be paid, and a cap is no part of that
    left = max(claimed(lines) - deductible.amount, ZERO)
    return _kept(lines, left, deductible.payer, why, is_deductible=True)


def nothing_below_the_least(lines: Sequence[PricedLine], terms: StepFacts) -> list[PricedLine]:
    """A claim that comes to at least what the plan pays at least; else all of it is the shop's.

    Source: common practice, no source.
    """
    least, comes_to = terms.plan.pays.claim_least, claimed(lines)
    # after the deductible, for it is what the maker would really have paid that must reach the least
    if least is None or comes_to >= least:
        return list(lines)
    return _kept(lines, ZERO, "shop", say("price.below-least", least=plain(least), amount=plain(comes_to)))


def taxed(lines: Sequence[PricedLine], terms: StepFacts) -> list[PricedLine]:
    """Every line the maker pays with the tax that it pays on it, rounded line by line.

    Source: common practice, no source.
    """
    rate, plan = terms.plan.pays.tax, terms.plan
    if not rate:
        return list(lines)
    # last of all, as no tax is due on what is not paid
    return [_with_tax(line, rate, plan) if line.payer == "maker" and line.whole else line for line in lines]


def _with_tax(line: PricedLine, rate: Decimal, plan: Plan) -> PricedLine:
    tax = rounded(line.whole * rate, plan.currency)
    return line._replace(tax=tax, notes=(*line.notes, say("price.tax", percent=percent(rate), tax=plain(tax))))


STEPS: tuple[PricingStep, ...] = (
    up_to_the_cap,
    up_to_the_cap_of_the_unit,
    less_the_deductible,
    nothing_below_the_least,
    taxed,
)
"""Every step, in the order it is taken."""


def _kept(
    lines: Sequence[PricedLine], total: Decimal, to: Payer, why: Sentence, is_deductible: bool = False
) -> list[PricedLine]:
    """The maker's lines in their order up to a total; what is left of them is somebody else's."""
    found: list[PricedLine] = []
    for line in lines:
        # from the top of the claim: lines are paid until the total is used up, and the line it ends in is split
        if line.payer != "maker" or line.whole <= total:
            found.append(line)
            total -= line.whole if line.payer == "maker" else ZERO
            continue
        if total:
            own, rest = line.split(total, to, why)
            found += [own, rest._replace(is_deductible=is_deductible)]
        else:
            left = line._replace(
                amount=line.whole, handling=ZERO, payer=to, notes=(*line.notes, why, *handling_in(line.handling))
            )
            found.append(left._replace(is_deductible=is_deductible))
        total = ZERO
    return found
