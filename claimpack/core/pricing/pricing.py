"""The priced claim: every line, who pays it, and the totals."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from functools import partial
from typing import NamedTuple

from claimpack.core.claims.claim import Claim, Part, Payer, Record
from claimpack.core.plans.makers import is_maker_of
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.extras import capped_by_kind, capped_together, extra_lines
from claimpack.core.pricing.labour import LabourTime, labour_times
from claimpack.core.pricing.lines import PricedLine
from claimpack.core.pricing.rates import Rate, handling, labour_rate
from claimpack.core.pricing.whole_claim import STEPS
from claimpack.core.pricing.window_pays import ALL_PAID, PaidParts, shared
from claimpack.core.values.money import ZERO, NotNegative, Number, PartOfOne, fits, plain, rounded
from claimpack.core.values.wording import say
from claimpack.core.values.words import Line
from claimpack.errors import BadInput


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
        return next((level for maker, level in self.levels.items() if is_maker_of(plan, maker)), "")


NO_RETAIL = Retail()
"""A shop that has said nothing: owner labour at the plan's rate, no tax."""


class Amounts(Record):
    """Totals, in one currency. Claimed is what the maker is asked for; owner and shop pay the rest.

    Claimed has the tax in it that the maker pays, and owner or shop what is deductible; both are told apart as well.
    What the owner pays has the shop's tax in it, which is told apart as well. `would_be` is what would have been
    claimed where nothing is; None where something is.
    """

    currency: str
    parts: Number
    handling: Number
    labour: Number
    extras: Number
    claimed: Number
    owner: Number
    owner_tax: Number = ZERO
    shop: Number
    tax: Number = ZERO
    deductible: Number = ZERO
    would_be: Number | None = None


class Price(NamedTuple):
    """The priced lines in the order parts, labour, extras, and their totals."""

    lines: tuple[PricedLine, ...]
    amounts: Amounts


def price(claim: Claim, plan: Plan, retail: Retail = NO_RETAIL, paid: PaidParts = ALL_PAID) -> Price:
    """Price a claim under a plan; totals are sums of rounded lines.

    Lines the owner pays are at the shop's labour rate where it has one, and taxed; the tax is rounded once, on
    their sum.

    Args:
        claim: the claim.
        plan: the plan.
        retail: what pricing goes by of the shop.
        paid: how much of each kind of line the windows pay; all of a kind that is not named.

    Raises:
        BadInput: the claim is in another currency than the plan, or an amount has more decimals than the currency.

    Source: handling, flat-rate labour, parts sent at no charge, wear parts to the owner: common practice, no source.
    """
    _check_currency(claim, plan)
    lines: list[PricedLine] = []
    for part in claim.parts:
        lines += shared(part.payer, paid.get("parts"), partial(_part_lines, part, plan), plan)
    for time in labour_times(claim, plan):
        made = partial(_labour_lines, time, claim, plan, retail)
        lines += shared(time.entry.payer, paid.get("labour"), made, plan)
    for extra in claim.extras:
        lines += shared(extra.payer, paid.get("extras"), partial(extra_lines, extra, plan), plan)
    lines = capped_together(capped_by_kind(lines, plan), plan)
    for step in STEPS:
        lines = step(lines, plan)
    return Price(lines=tuple(lines), amounts=_totals(lines, plan.currency, retail.tax))


def unclaimed(amounts: Amounts) -> Amounts:
    """The totals of a claim from which nothing is asked of the maker.

    Source: a claim that is not covered is not owed: common practice, no source.
    """
    asked = ("parts", "handling", "labour", "extras", "tax", "claimed")
    nothing = dict.fromkeys(asked, rounded(ZERO, amounts.currency))
    return amounts.model_copy(update={**nothing, "would_be": amounts.claimed})


def _check_currency(claim: Claim, plan: Plan) -> None:
    if claim.currency and claim.currency != plan.currency:
        raise BadInput(
            f"claim {claim.number}, key currency: {claim.currency}, but plan {plan.id} pays in {plan.currency}",
            "Amounts of two currencies cannot be added.",
            f'Convert the amounts and write currency = "{plan.currency}", or name another plan.',
        )
    amounts = [(f"extras, {extra.what}", extra.amount) for extra in claim.extras if extra.amount is not None]
    if claim.approval and claim.approval.up_to is not None:
        amounts.append(("approval.up_to", claim.approval.up_to))
    for key, amount in amounts:
        if not fits(amount, plan.currency):
            raise BadInput(
                f"claim {claim.number}, key {key}: {plain(amount)} has more decimals than {plan.currency} has",
                "An amount that no coin can pay would be rounded without anybody's knowing.",
                f"Write an amount such as {plain(rounded(amount, plan.currency))}.",
            )


def _part_lines(part: Part, plan: Plan, payer: Payer) -> list[PricedLine]:
    from_maker = part.source == "maker"
    amount = ZERO if from_maker else rounded(part.quantity * part.unit_cost, plan.currency)
    added = handling(part, plan) if payer == "maker" else Rate(rounded(ZERO, plan.currency))
    sent = (say("price.from-maker"),) if from_maker else ()
    line = PricedLine(
        kind="part",
        what=part.name,
        code=part.number,
        quantity=part.quantity,
        unit_price=ZERO if from_maker else part.unit_cost,
        amount=rounded(amount, plan.currency),
        handling=added.rate,
        payer=payer,
        notes=(*sent, *added.notes),
    )
    return [line]


def _labour_lines(time: LabourTime, claim: Claim, plan: Plan, retail: Retail, payer: Payer) -> list[PricedLine]:
    known = time.schedule is not None
    rate, notes = labour_rate(time.entry, claim, plan, retail.level_with(plan))
    if payer == "owner" and retail.labour_rate is not None:
        rate, notes = retail.labour_rate, ()
    line = PricedLine(
        kind="labour",
        what=time.name,
        code=time.entry.operation if known else "",
        technician=time.entry.technician,
        quantity=time.claimed,
        unit_price=rate,
        amount=rounded(time.claimed * rate, plan.currency),
        schedule=time.schedule,
        clocked=time.clocked,
        payer=payer,
        notes=(*time.notes, *notes),
    )
    return [line]


def _totals(lines: Sequence[PricedLine], currency: str, tax: Decimal) -> Amounts:
    def total(amounts: Iterable[Decimal]) -> Decimal:
        return rounded(sum(amounts, ZERO), currency)

    def of_maker(kind: str) -> Decimal:
        return total(line.amount for line in lines if line.kind == kind and line.payer == "maker")

    parts, labour, extras = of_maker("part"), of_maker("labour"), of_maker("extra")
    handling = total(line.handling for line in lines)
    owner = total(line.amount for line in lines if line.payer == "owner")
    owner_tax = rounded(owner * tax, currency)
    makers_tax = total(line.tax for line in lines)
    return Amounts(
        currency=currency,
        parts=parts,
        handling=handling,
        labour=labour,
        extras=extras,
        claimed=total((parts, handling, labour, extras, makers_tax)),
        owner=total((owner, owner_tax)),
        owner_tax=owner_tax,
        shop=total(line.amount for line in lines if line.payer == "shop"),
        tax=makers_tax,
        deductible=total(line.whole for line in lines if line.is_deductible),
    )
