"""The priced claim: every line, who pays it, and the totals."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from decimal import Decimal
from functools import partial
from typing import NamedTuple, TypeVar

from claimpack.core.claims.claim import Claim
from claimpack.core.facts.lines import Extra, Labour, Part
from claimpack.core.facts.record import Record
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.extras import capped_by_kind, capped_together, extra_lines
from claimpack.core.pricing.labour import LabourTime, hours_paid, is_diagnosis, labour_times, up_to_the_limit
from claimpack.core.pricing.lines import PricedLine, PricedPayer
from claimpack.core.pricing.parts import part_lines, pieces_paid
from claimpack.core.pricing.rates import labour_rate
from claimpack.core.pricing.retail import NO_RETAIL, Retail
from claimpack.core.pricing.unit_cap import paid_before
from claimpack.core.pricing.whole_claim import STEPS, StepFacts
from claimpack.core.pricing.window_pays import ALL_COVERED, Cover, shared
from claimpack.core.values.money import ZERO, Number, fits, plain, rounded
from claimpack.core.values.wording.sentence import say
from claimpack.errors import BadInput


class Amounts(Record):
    """Totals, in one currency. Claimed is what the maker is asked for; owner, shop and other makers pay the rest.

    Claimed has the tax in it that the maker pays, and owner or shop what is deductible; both are told apart as well. So
    is what parts have of deposits on cores in them.
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
    other_maker: Number = ZERO
    tax: Number = ZERO
    deductible: Number = ZERO
    core: Number = ZERO
    would_be: Number | None = None


class Price(NamedTuple):
    """The priced lines in the order parts, labour, extras, their totals, and the labour entries as claimed.

    `owner_tax` is the shop's tax on what the owner pays, as a fraction.
    """

    lines: tuple[PricedLine, ...]
    amounts: Amounts
    labour: tuple[LabourTime, ...] = ()
    owner_tax: Decimal = ZERO


def price(claim: Claim, plan: Plan, retail: Retail = NO_RETAIL, cover: Cover = ALL_COVERED) -> Price:
    """Price a claim under a plan; totals are sums of rounded lines.

    Lines the owner pays are at the shop's labour rate where it has one, and taxed; the tax is rounded once, on
    their sum.

    Args:
        claim: the claim.
        plan: the plan.
        retail: what pricing goes by of the shop.
        cover: what pricing goes by of the verdict.

    Raises:
        BadInput: the claim is in another currency than the plan, or an amount has more decimals than the currency.

    Source: flat-rate labour, wear parts to the owner: common practice, no source.
    """
    _check_currency(claim, plan)
    lines = [*_parts(claim, plan, cover), *_labour(claim, plan, retail, cover), *_extras(claim, plan, cover)]
    # a cap for one kind first, so that what it cuts off leaves room under the cap for all
    lines = capped_together(capped_by_kind(lines, plan), plan)
    terms = StepFacts(plan, paid_before(claim, plan, cover.starts).paid)
    for step in STEPS:
        lines = step(lines, terms)
    totals = _totals(lines, plan.currency, retail.tax)
    return Price(tuple(lines), totals, _labour_claimed(claim, plan, cover), retail.tax)


def _parts(claim: Claim, plan: Plan, cover: Cover) -> list[PricedLine]:
    found: list[PricedLine] = []
    # kits are looked at over all parts together, and then each part is priced
    for part, pieces in zip(claim.parts, pieces_paid(_without_left(claim.parts, "parts", cover), plan), strict=True):
        found += _lines(part, partial(part_lines, pieces, plan), "parts", plan, cover)
    return found


def _labour(claim: Claim, plan: Plan, retail: Retail, cover: Cover) -> list[PricedLine]:
    found: list[PricedLine] = []
    times = _labour_times(claim, plan, cover)
    for entry, time, hours in zip(claim.labour, times, hours_paid(times, plan), strict=True):
        made = partial(_labour_lines, time, hours, claim, plan, retail)
        diagnosis = plan.pays.diagnosis if is_diagnosis(entry.operation, plan) else None
        # finding out that something is not covered is work all the same; the plan says who pays it
        if diagnosis and entry.payer == "maker" and entry.failure in cover.closed:
            # told as well why the rest of this failure is not the maker's
            left = cover.left.get(entry.failure)
            why = (*([left.why] if left else []), say("price.no-diagnosis"))
            lines = made(diagnosis.else_)
            found += [line._replace(failure=entry.failure, notes=(*line.notes, *why)) for line in lines]
        else:
            found += _lines(entry, made, "labour", plan, cover)
    return found


def _labour_times(claim: Claim, plan: Plan, cover: Cover) -> tuple[LabourTime, ...]:
    return labour_times(claim.model_copy(update={"labour": _without_left(claim.labour, "labour", cover)}), plan)


def _labour_claimed(claim: Claim, plan: Plan, cover: Cover) -> tuple[LabourTime, ...]:
    """Every labour entry with the hours that are claimed of it from the maker, none of a failure that is not covered.

    Caps of the claim or the unit take off money, not hours.
    """
    times = _labour_times(claim, plan, cover)
    return tuple(
        time._replace(claimed=hours if _is_asked(time.entry, cover) else ZERO)
        for time, hours in zip(times, hours_paid(times, plan), strict=True)
    )


def _is_asked(entry: Labour, cover: Cover) -> bool:
    share = cover.paid_of(entry.failure).get("labour")
    return entry.payer == "maker" and entry.failure not in cover.closed and (share is None or bool(share.maker))


def _extras(claim: Claim, plan: Plan, cover: Cover) -> list[PricedLine]:
    found: list[PricedLine] = []
    for extra in claim.extras:
        found += _lines(extra, partial(extra_lines, extra, plan), "extras", plan, cover)
    return found


AnyEntry = TypeVar("AnyEntry", Part, Labour)


def _without_left(entries: Sequence[AnyEntry], kind: str, cover: Cover) -> tuple[AnyEntry, ...]:
    """The entries with those of failures for which the maker pays none of the kind as the owner's.

    So they include nothing that the maker pays for another failure.
    """
    return tuple(
        entry.model_copy(update={"payer": "owner"})
        if _is_left(entry, cover) or cover.pays_none(entry.failure, kind)
        else entry
        for entry in entries
    )


def _is_left(entry: Part | Labour | Extra, cover: Cover) -> bool:
    return entry.payer == "maker" and entry.failure in cover.left


def _lines(
    entry: Part | Labour | Extra,
    made: Callable[[PricedPayer], Sequence[PricedLine]],
    kind: str,
    plan: Plan,
    cover: Cover,
) -> list[PricedLine]:
    """The lines of an entry, paid by whom it says, by the windows open for its failure, or by whom that is left to."""
    if _is_left(entry, cover):
        left = cover.left[entry.failure]
        # no share of it is the maker's, so the windows' shares are not asked
        found = [line.noted(left.why) for line in made(left.payer)]
    else:
        found = shared(entry.payer, cover.paid_of(entry.failure).get(kind), made, plan)
    return [line._replace(failure=entry.failure) for line in found]


def unclaimed(amounts: Amounts) -> Amounts:
    """The totals of a claim from which nothing is asked of the maker.

    Source: a claim that is not covered is not owed: common practice, no source.
    """
    asked = ("parts", "handling", "labour", "extras", "tax", "core", "claimed")
    nothing = dict.fromkeys(asked, rounded(ZERO, amounts.currency))
    return amounts.model_copy(update={**nothing, "would_be": amounts.claimed})


def _check_currency(claim: Claim, plan: Plan) -> None:
    if claim.currency and claim.currency != plan.currency:
        raise BadInput(
            f"claim {claim.number}, key currency: {claim.currency}, but plan {plan.id} pays in {plan.currency}",
            "Amounts of two currencies cannot be added.",
            f'Convert the amounts and write currency = "{plan.currency}", or name another plan.',
        )
    # amounts typed as a whole must be payable; a price each is multiplied first, and may be finer
    amounts = [(f"extras, {extra.what}", extra.amount) for extra in claim.extras if extra.amount is not None]
    amounts += [(f"earlier, {repair.component}, paid", repair.paid) for repair in claim.earlier if repair.paid]
    amounts += [(f"parts, {part.name}, core", part.core) for part in claim.parts if part.core]
    if claim.approval and claim.approval.up_to is not None:
        amounts.append(("approval.up_to", claim.approval.up_to))
    for key, amount in amounts:
        if not fits(amount, plan.currency):
            raise BadInput(
                f"claim {claim.number}, key {key}: {plain(amount)} has more decimals than {plan.currency} has",
                "An amount that no coin can pay would be rounded without anybody's knowing.",
                f"Write an amount such as {plain(rounded(amount, plan.currency))}.",
            )


def _labour_lines(
    time: LabourTime, hours: Decimal, claim: Claim, plan: Plan, retail: Retail, payer: PricedPayer
) -> list[PricedLine]:
    known = time.schedule is not None
    rate, notes = labour_rate(time.entry, claim, plan, retail.level_with(plan))
    # an owner pays what the shop asks of owners, and not what a maker has bargained for
    if payer == "owner" and retail.labour_rate is not None:
        rate, notes = retail.labour_rate, ()
    line = PricedLine(
        kind="labour",
        what=time.name,
        code=time.entry.operation if known else "",
        technician=time.entry.worker,
        quantity=time.claimed,
        unit_price=rate,
        amount=rounded(time.claimed * rate, plan.currency),
        schedule=time.schedule,
        clocked=time.clocked,
        payer=payer,
        notes=(*time.notes, *notes),
    )
    # a limit of the maker's binds the maker alone
    return up_to_the_limit(line, hours, plan) if payer == "maker" else [line]


def _totals(lines: Sequence[PricedLine], currency: str, tax: Decimal) -> Amounts:
    def total(amounts: Iterable[Decimal]) -> Decimal:
        return rounded(sum(amounts, ZERO), currency)

    def of_maker(kind: str) -> Decimal:
        return total(line.amount for line in lines if line.kind == kind and line.payer == "maker")

    parts, labour, extras = of_maker("part"), of_maker("labour"), of_maker("extra")
    handling = total(line.handling for line in lines)
    owner = total(line.amount for line in lines if line.payer == "owner")
    # on the sum, as a bill for an owner states it; the maker's tax is rounded line by line
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
        other_maker=total(line.whole for line in lines if line.payer == "other maker"),
        tax=makers_tax,
        deductible=total(line.whole for line in lines if line.is_deductible),
        core=total(line.amount for line in lines if line.is_core and line.payer == "maker"),
    )
