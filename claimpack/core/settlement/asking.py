"""Asking a maker again: a letter that went out, a note on a claim, and the day to look at it again."""

from __future__ import annotations

from datetime import date

from claimpack.core.steps.claim_state import Standing
from claimpack.core.steps.events import NewEvent
from claimpack.core.steps.settling import Step, recorded
from claimpack.core.steps.transitions import may_follow
from claimpack.errors import BadInput


def noted(step: Step, again: date | None) -> NewEvent:
    """What is recorded of a note; the last one counts, and without a day it leaves none to look again.

    Raises:
        BadInput: it says nothing, or the day to look again is over.

    Source: a rule of this tool's, no source.
    """
    if not step.why:
        raise BadInput("TEXT is missing: what is to be noted?", do="As in: claimpack note CLAIM 'Pump is on order'")
    _refuse_past(step, again)
    return recorded("noted", step, {"again": again.isoformat() if again else ""})


def chased(standing: Standing, step: Step, asks: str, again: date) -> NewEvent:
    """What is recorded of a letter that went out: what it asks for, and the next day to ask.

    Raises:
        WrongState: the maker does not have the claim.
        BadInput: the next day to ask is over.

    Source: a rule of this tool's, no source.
    """
    may_follow(standing, NewEvent(what="chased", on=step.on), step.claim)
    _refuse_past(step, again)
    return recorded("chased", step, {"asks": asks, "again": again.isoformat()})


def _refuse_past(step: Step, again: date | None) -> None:
    if again and again < step.on:
        raise BadInput(
            f"--again: {again} lies before {step.on}",
            "It is the day on which the claim comes up again.",
            "Name a day to come.",
        )
