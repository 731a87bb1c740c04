"""A repair that the owner declined: the unit leaves, what failed goes back on it, and the claim is closed unfiled."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.part_codes import PartCode
from claimpack.core.events.events import NewEvent
from claimpack.core.events.standing import Standing
from claimpack.core.judging.assessment import Assessment
from claimpack.core.steps.paying import withdrawn
from claimpack.core.steps.settling import Step
from claimpack.core.values.money import ZERO, in_money, plain
from claimpack.core.values.numbers_said import hours_said, how_many
from claimpack.errors import BadInput, WrongState

_FACT = "declined"


def declined(claim: Claim, standing: Standing, step: Step) -> tuple[Claim, NewEvent]:
    """The claim as it is closed, and what is recorded: the unit left on that day, and no part of it is held any more.

    Raises:
        WrongState: the claim was filed, or a part is no longer on the shelf.
        BadInput: the unit left before it came in.

    Source: common practice, no source.
    """
    number = claim.number
    if standing.state != "draft":
        raise WrongState(
            f"claim {number} is {standing.state}: the repair was not declined",
            "The owner declines before the maker has the claim.",
            f"To take it back from the maker: claimpack withdraw {number} --because TEXT",
        )
    # a part the maker has cannot be put back, so that the repair has begun
    gone = [part for part in standing.parts if part.state != "held"]
    if gone:
        code = PartCode(number, gone[0].index)
        raise WrongState(
            f"{code} is {gone[0].state}, and cannot go back on the unit",
            "What failed leaves with the unit when the owner declines.",
            f"See: claimpack history {number}",
        )
    if step.on < claim.dates.presented:
        raise BadInput(
            f"--on: {step.on} is before {claim.dates.presented}, the day the unit came in",
            "It leaves after it came.",
            "Correct the day.",
        )
    dates = claim.dates.model_copy(update={"returned": step.on})
    # what failed leaves with the unit, so that nothing is left on the shelf to look for
    closed = claim.model_copy(update={"case": "declined", "dates": dates, "held": ()})
    # an event of its own would have to be known everywhere; it is a withdrawal that the shop did not decide
    event = withdrawn(standing, step.model_copy(update={"why": step.why or "The owner declined the repair."}))
    return closed, event.model_copy(update={"facts": {**event.facts, _FACT: "yes"}})


def before_it_was_declined(claim: Claim, earlier: Iterable[Claim | None]) -> Claim:
    """The claim as it was before the owner declined; as it is where it never was otherwise.

    Args:
        claim: the claim.
        earlier: the claim at its revisions before, the latest first; None for one that cannot be read.
    """
    if claim.case != "declined":
        return claim
    return next((each for each in earlier if each is not None and each.case != "declined"), claim)


def what_became(before: Claim) -> tuple[str, ...]:
    """What is to be done when the owner declined: the part goes back, a sentence each."""
    if not before.held:
        return ()
    names = ", ".join(part.part for part in before.held)
    gone = how_many(len(before.held), "held part")
    return (f"Off the shelf, back on the unit: {names} ({gone}). Take the tag off.",)


def what_it_cost(assessment: Assessment, own_rate: Decimal | None) -> tuple[str, ...]:
    """What the owner pays, a sentence that says by whose rate and for how long; empty where nothing was done.

    Args:
        assessment: the claim as it was closed.
        own_rate: what the shop charges an owner for an hour; None where it has no rate of its own.
    """
    price = assessment.price
    if price is None:
        return ()
    amounts = price.amounts
    lines = [line for line in price.lines if line.kind == "labour" and line.payer == "owner"]
    worked = sum((line.clocked for line in lines if line.clocked), ZERO)
    if not amounts.owner:
        # a minute of work is not no work, though in the steps of the plan it comes to nothing
        short = (
            f"{hours_said(worked)} of labour come to nothing in the steps the plan counts in: the owner pays nothing"
        )
        return (short,) if worked else ()
    paid = [line for line in lines if line.amount]
    rates = " and ".join(dict.fromkeys(plain(line.unit_price) for line in paid))
    whose = "maker" if own_rate is None else "shop"
    hours = sum((line.quantity for line in paid), ZERO)
    as_worked = f" ({hours_said(worked)} worked)" if worked != hours else ""
    labour = f"; labour: {hours_said(hours)}{as_worked} at the {whose}'s rate of {rates}" if paid else ""
    cost = f"What it cost, for the owner to pay: {in_money(amounts.owner, amounts.currency)}{labour}"
    parts, number = assessment.parts_of_the_owner, assessment.claim.number
    if not parts:
        return (cost,)
    # parts are often listed for an estimate, and nobody said whether they were opened
    wrong = (
        f"if they were not used: claimpack reopen {number} --because TEXT, part remove {number} N, and decline again"
    )
    return (cost, f"Parts are in that, {', '.join(parts)}; {wrong}")
