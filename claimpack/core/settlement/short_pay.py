"""What the difference of a claim that was paid short comes to: a line, the handling, another labour rate."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from claimpack.core.pricing.lines import PricedLine
from claimpack.core.values.money import ZERO, percent, plain, rounded

_MOST = 3


def likely_reasons(lines: Sequence[PricedLine], difference: Decimal, currency: str) -> tuple[str, ...]:
    """What comes to a difference exactly, the likeliest first; nothing where nothing does. It need not be the reason.

    Args:
        lines: the priced lines of the claim as it was filed.
        difference: by how much it was paid short, above zero.
        currency: of the claim.

    Source: common practice, no source.
    """
    own = [line for line in lines if line.payer == "maker" and line.whole]
    return tuple(dict.fromkeys(_reasons(own, difference, currency)))[:_MOST]


def _reasons(own: Sequence[PricedLine], difference: Decimal, currency: str) -> Iterator[str]:
    labour = [line for line in own if line.kind == "labour" and line.quantity]
    parts = [line for line in own if line.kind == "part"]
    for line in own:
        if difference in (line.whole, line.whole + line.tax):
            yield f"the line {line.what}"
        # a maker that paid the handling alone left out the part
        elif line.handling and difference == line.amount:
            yield f"the line {line.what} without its handling"
    if len(labour) > 1 and difference == sum(line.whole for line in labour):
        yield "all of the labour"
    if len(parts) > 1 and difference == sum(line.whole for line in parts):
        yield "all of the parts"
    if difference == sum((line.tax for line in own), ZERO):
        yield "the tax"
    yield from _of_labour_rate(labour, difference, currency)
    yield from _of_handling(parts, difference, currency)


def _of_labour_rate(labour: Sequence[PricedLine], difference: Decimal, currency: str) -> Iterator[str]:
    """Hours at another rate, where one in whole coins comes to the difference."""
    rates = {line.unit_price for line in labour}
    hours = sum((line.quantity for line in labour), ZERO)
    if len(rates) != 1:
        return
    rate = rates.pop()
    # the rate that would leave such a difference, which is named only if it comes to it cent by cent
    lower = rounded(rate - difference / hours, currency)
    come_to = sum((rounded(line.quantity * lower, currency) for line in labour), ZERO)
    if ZERO < lower < rate and sum((line.amount for line in labour), ZERO) - come_to == difference:
        yield f"labour at {plain(lower)} an hour instead of {plain(rate)}"


def _of_handling(parts: Sequence[PricedLine], difference: Decimal, currency: str) -> Iterator[str]:
    """No handling, or handling at another rate, where one in whole hundredths comes to the difference."""
    handling, cost = sum((line.handling for line in parts), ZERO), sum((line.amount for line in parts), ZERO)
    if not cost or difference > handling:
        return
    if difference == handling:
        yield "the handling of the parts"
        return
    # whole percents, as plans write them; anything finer would fit by chance
    paid = ((handling - difference) / cost).quantize(Decimal("0.01"))
    come_to = sum((rounded(line.amount * paid, currency) for line in parts), ZERO)
    if handling - come_to == difference:
        yield f"handling at {percent(paid)} % of the parts"
