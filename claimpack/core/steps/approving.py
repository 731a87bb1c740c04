"""The maker's approval asked for, given, refused, and taken back: decided here before the claim is changed."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from typing import Literal

from claimpack.core.claims.claim import Claim
from claimpack.core.facts.cases import Approval
from claimpack.core.facts.record import Record
from claimpack.core.judging.assessment import Assessment
from claimpack.core.values.words import Line, Text
from claimpack.errors import BadInput, WrongState


class Said(Record):
    """What the maker said: its number, who said it, up to which amount and day, and on which conditions, or why not."""

    on: date
    number: Line = ""
    by: Line = ""
    up_to: Decimal | None = None
    expires: date | None = None
    conditions: Text = ""
    because: Text = ""


def refuse_unaskable(assessment: Assessment, *, again: bool) -> None:
    """Refuse to ask for an approval where there is nothing to ask for, or nothing more.

    Raises:
        BadInput: nothing is estimated, or no plan says how much it is.
        WrongState: it is not covered, was repaired, or the maker has approved it, and it is not asked again.

    Source: common practice, no source.
    """
    claim, number = assessment.claim, assessment.claim.number
    if claim.dates.repaired:
        raise WrongState(
            f"claim {number} was repaired on {claim.dates.repaired}: an approval is asked for before the repair",
            "The request says that the work waits for the maker's answer.",
            f"Write to the maker in your own words; its answer goes in with: claimpack approval given {number}",
        )
    if assessment.amounts is None:
        raise BadInput(
            f"claim {number} has no price: {assessment.headline}",
            "An estimate is made by a plan's rates and schedule.",
            f"See why: claimpack check {number}",
        )
    # undecided may be asked: the maker's answer is often what decides it
    if assessment.verdict == "not covered" and assessment.goodwill is None:
        raise WrongState(
            f"claim {number} is not covered: the maker owes nothing that it could approve",
            str(assessment.headline),
            f"To ask for a favour: claimpack set {number} case goodwill goodwill.because TEXT",
        )
    if not assessment.amounts.claimed:
        raise BadInput(
            f"claim {number} asks nothing of the maker yet",
            "The maker approves an estimate: the parts, the operations and the extras.",
            f"Add a part: claimpack part add {number} NUMBER NAME --cost AMOUNT; or say what is to be done: "
            f"claimpack approval request {number} --operation CODE",
        )
    if claim.approval and claim.approval.is_given and not again:
        raise WrongState(
            f"claim {number} has approval {claim.approval.number} already",
            "A new request takes its place until the maker answers.",
            "Where more is needed than it reaches to, ask once more with --again.",
        )


def asked(claim: Claim, on: date, question: str) -> Claim:
    """The claim waiting for the maker's approval; what was said before is in its history."""
    return claim.model_copy(update={"approval": Approval(state="asked", asked=on, question=question)})


def answered(claim: Claim, state: Literal["given", "refused"], said: Said) -> Claim:
    """The claim with what the maker said.

    Raises:
        BadInput: an approval without a number, or a day before it was asked for, or after its own last day.

    Source: common practice, no source; an approval counts by its number.
    """
    before = claim.approval or Approval()
    if state == "given" and not said.number:
        raise BadInput(
            "--number is missing: under which number did the maker approve it?",
            "The maker pays by it. Where it gives none, take what it names the mail or the talk by.",
            f"Add it, as in: claimpack approval given {claim.number} --number A-7715",
        )
    if before.asked and said.on < before.asked:
        raise BadInput(
            f"--on: {said.on} is before {before.asked}, the day it was asked for",
            "The maker answers what it was asked.",
            "Correct the day.",
        )
    if said.expires and said.expires < said.on:
        raise BadInput(
            f"--expires: {said.expires} is before {said.on}, the day it was given",
            "No repair could be made under it.",
            "Correct one of the two days.",
        )
    told = before.model_dump(include={"asked", "question"}) | said.model_dump()
    return claim.model_copy(update={"approval": Approval(state=state, **told)})


def undone(claim: Claim, state: str, earlier: Iterable[Claim | None]) -> Claim:
    """The claim with the approval that it had before the last change of it.

    Args:
        claim: the claim.
        state: what is taken back: asked, given or refused.
        earlier: the claim at its revisions, the latest first; None for one that cannot be read.

    Raises:
        WrongState: that is not what was done last.
    """
    now = claim.approval
    is_it = now is not None and (now.state == state or (state == "given" and now.is_given))
    if not is_it:
        stands = "nothing is recorded of an approval" if now is None else f"it is {now.state or 'given'}"
        raise WrongState(
            f"claim {claim.number} has no approval {state} to take back: {stands}",
            "What was recorded last can be taken back, one step at a time.",
            f"See: claimpack history {claim.number}",
        )
    before = next((each.approval for each in earlier if each is not None and each.approval != now), None)
    return claim.model_copy(update={"approval": before})
