"""Parts: what is paid for each, what a kit on the claim has in it already, and the deposit on a core."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.clauses.operations import Kit
from claimpack.core.facts.lines import Part
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.lines import PricedLine, PricedPayer
from claimpack.core.pricing.rates import Rate, handling
from claimpack.core.values.money import ZERO, plain, rounded
from claimpack.core.values.wording.sentence import Sentence, say
from claimpack.core.values.words import run_on


class PiecesPaid(NamedTuple):
    """A part with the pieces of it that are paid, and those that a kit on the claim has in it; the kit, if any."""

    part: Part
    paid: Decimal
    included: Decimal = ZERO
    kit: str = ""


def pieces_paid(parts: Sequence[Part], plan: Plan) -> tuple[PiecesPaid, ...]:
    """The pieces that are paid of every part, in the claim's order.

    The maker pays a kit, and not again the parts in it: as many of each as the kits have, the first on the claim
    first. What was used beyond them is paid.

    Source: common practice, no source.
    """
    left = _in_kits(parts, plan)
    found = []
    for part in parts:
        kit, pieces = left.get(run_on(part.number), ("", ZERO)) if part.payer == "maker" else ("", ZERO)
        # what was used beyond a kit's pieces is paid
        included = min(pieces, part.quantity)
        if included:
            left[run_on(part.number)] = (kit, pieces - included)
        found.append(PiecesPaid(part, part.quantity - included, included, kit if included else ""))
    return tuple(found)


def _in_kits(parts: Sequence[Part], plan: Plan) -> dict[str, tuple[str, Decimal]]:
    """The pieces in the kits that the maker pays, by part number, with the name of the first kit that has it."""
    kits = {run_on(kit.number): kit for kit in plan.kit}
    found: dict[str, tuple[str, Decimal]] = {}
    for part in parts:
        kit = kits.get(run_on(part.number)) if part.payer == "maker" else None
        for number in kit.includes if kit else ():
            name, pieces = found.get(run_on(number), (_called(kit), ZERO))
            # two kits hold each piece twice
            found[run_on(number)] = (name, pieces + part.quantity)
    return found


def _called(kit: Kit | None) -> str:
    return (kit.name or kit.number) if kit else ""


def part_lines(pieces: PiecesPaid, plan: Plan, payer: PricedPayer) -> list[PricedLine]:
    """The lines of a part: the pieces paid, those that come with a kit at nothing, the deposit on the core.

    Source: parts sent at no charge, cores: common practice, no source.
    """
    part, found = pieces.part, []
    if pieces.paid:
        found.append(_pieces(part.model_copy(update={"quantity": pieces.paid}), plan, payer))
    if pieces.included:
        # it stays on the claim at nothing: the maker sees that it was fitted
        free = part.model_copy(update={"quantity": pieces.included, "unit_cost": ZERO, "list_price": None})
        found.append(_line(free, ZERO, plan, payer, say("price.in-kit", kit=pieces.kit)))
    return [*found, *_core(part, pieces.paid, plan, payer)]


def _pieces(part: Part, plan: Plan, payer: PricedPayer) -> PricedLine:
    from_maker = part.source == "maker"
    # what the maker sent it has paid for already; handling may be paid on it all the same
    cost = ZERO if from_maker else part.unit_cost
    added = handling(part, plan) if payer == "maker" else Rate(rounded(ZERO, plan.currency))
    sent = (say("price.from-maker"),) if from_maker else ()
    line = _line(part, cost, plan, payer, *sent, *added.notes, *_returned(part))
    return line._replace(handling=added.rate)


def _line(part: Part, cost: Decimal, plan: Plan, payer: PricedPayer, *notes: Sentence) -> PricedLine:
    return PricedLine(
        kind="part",
        what=part.name,
        code=part.number,
        quantity=part.quantity,
        unit_price=cost,
        amount=rounded(part.quantity * cost, plan.currency),
        handling=rounded(ZERO, plan.currency),
        payer=payer,
        notes=notes,
    )


def _returned(part: Part) -> tuple[Sentence, ...]:
    if not part.core or part.core_returned is None:
        return ()
    return (say("price.core-returned", core=plain(part.core), returned=part.core_returned),)


def _core(part: Part, quantity: Decimal, plan: Plan, payer: PricedPayer) -> list[PricedLine]:
    """The deposit that stands while the core is not returned: the maker's where the plan claims it, else the shop's."""
    # a core that went back brought its deposit back, and a piece of a kit has none of its own
    if not part.core or not quantity or part.core_returned:
        return []
    # an owner who pays a part pays the deposit on it too, whatever the maker's plan says
    is_claimed = payer != "maker" or plan.pays.core == "claimed"
    why = say("price.core-claimed" if is_claimed else "price.core-left")
    deposit = part.model_copy(update={"quantity": quantity})
    line = _line(deposit, part.core, plan, payer if is_claimed else "shop", why)
    return [line._replace(is_core=True)]
