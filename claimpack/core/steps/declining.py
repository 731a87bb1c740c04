"""A repair that the owner declined: the unit leaves, what failed goes back on it, and the claim is closed unfiled."""

from __future__ import annotations

from collections.abc import Iterable

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.part_codes import PartCode
from claimpack.core.steps.claim_state import Standing
from claimpack.core.steps.events import NewEvent
from claimpack.core.steps.paying import withdrawn
from claimpack.core.steps.settling import Step
from claimpack.core.values.numbers_said import how_many
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
            f"--on: {step.on} lies before {claim.dates.presented}, the day the unit came in",
            "It leaves after it came.",
            "Correct the day.",
        )
    dates = claim.dates.model_copy(update={"returned": step.on})
    closed = claim.model_copy(update={"case": "declined", "dates": dates, "held": ()})
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


def what_became(before: Claim, after: Claim) -> tuple[str, ...]:
    """What is to be done when the owner declined: the part goes back, a sentence each."""
    if not before.held:
        return ()
    names = ", ".join(part.part for part in before.held)
    gone = how_many(len(before.held) - len(after.held), "held part")
    return (f"Off the shelf, back on the unit: {names} ({gone}). Take the tag off.",)
