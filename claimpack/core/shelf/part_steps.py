"""Steps with a held part: moved, called back, sent, released, scrapped, undone; each decided before it is recorded."""

from __future__ import annotations

from datetime import date
from typing import Literal

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.part_codes import PartCode
from claimpack.core.events.event_kinds import EventName
from claimpack.core.events.events import NewEvent
from claimpack.core.events.part_state import HeldStanding
from claimpack.core.events.standing import Standing
from claimpack.core.events.states import PartState
from claimpack.core.events.transitions import may_follow
from claimpack.core.facts.keys import record_from
from claimpack.core.facts.lines import HeldPart
from claimpack.core.holding.cautions import names_air
from claimpack.core.holding.release_rules import RELEASED, WITHDRAWN, LetGo
from claimpack.core.steps.settling import Step, recorded, refuse_without_reason
from claimpack.core.values.numbers_said import how_many
from claimpack.errors import BadInput


def moved_to(claim: Claim, nth: int, shelf: str) -> Claim:
    """The claim with its nth held part on another shelf.

    Raises:
        BadInput: the shelf has no name that can be printed.
    """
    held = claim.held[nth - 1]
    # read as a claim's key is, so that a shelf typed here is spelt as one typed there
    clean = record_from(HeldPart, {"part": held.part, "shelf": shelf}, "SHELF", {}).shelf
    if not clean:
        raise BadInput("SHELF: it is empty", "Nobody finds a part that is on no shelf.", "Name it, as in B3.")
    parts = list(claim.held)
    parts[nth - 1] = held.model_copy(update={"shelf": clean})
    return claim.model_copy(update={"held": tuple(parts)})


def moving(nth: int, before: str, after: str, on: date) -> NewEvent:
    """What is recorded of a part put on another shelf."""
    return _part_event("part moved", nth, Step(on=on), {"from": before, "to": after})


def calling_back(nth: int, step: Step, send_by: date | None) -> NewEvent:
    """What is recorded when the maker calls a part back.

    A part that is called back already is so for another day to send it by.

    Raises:
        BadInput: it would have to be sent before it was called back.

    Source: common practice, no source.
    """
    if send_by and send_by < step.on:
        raise BadInput(
            f"--send-by: {send_by} is before {step.on}, the day the part was called back",
            "Nobody can send a part before it is asked for.",
            "Correct one of the two days.",
        )
    return _part_event("part called back", nth, step, {"send_by": send_by.isoformat() if send_by else ""})


def sending(nth: int, step: Step, carrier: str, tracking: str, hazard: str = "none") -> NewEvent:
    """What is recorded when a part goes back to the maker.

    Raises:
        BadInput: a lithium battery that failed goes with a carrier that is called by the air, and nobody says why.

    Source: 49 CFR 173.185(f): such a battery goes by road, rail or water.
    """
    if hazard == "lithium battery" and names_air(carrier) and not step.why:
        raise BadInput(
            f"--carrier: {carrier!r} sounds like a way by air",
            "A damaged or defective lithium battery never goes by air (49 CFR 173.185(f)).",
            "Send it another way; if it goes by road all the same, say so: --because TEXT",
        )
    return _part_event("part sent", nth, step, {"carrier": carrier, "tracking": tracking})


def late_sending(send_by: date | None, on: date) -> tuple[str, ...]:
    """What to say of a part that goes to the maker after the day it was wanted by.

    Source: charge-back when the part does not come: common practice, no source.
    """
    if send_by is None or on <= send_by:
        return ()
    late = (on - send_by).days
    days = how_many(late, "day")
    return (f"It is late: the maker wanted it sent by {send_by}, {days} before. Tell the maker that it is on its way.",)


def releasing(nth: int, step: Step) -> NewEvent:
    """What is recorded when the maker lets a part go.

    Raises:
        BadInput: it is not said who released it, and how.

    Source: common practice, no source.
    """
    if not step.why:
        raise BadInput(
            "--because is missing: who released it, and how?",
            "The maker may ask for the part later, and nobody else can answer then.",
            "Add it, as in: --because 'Mail of the service desk, 3 March.'",
        )
    return _part_event("part released", nth, step, {"rule": RELEASED})


def refuse_unexplained(code: PartCode, step: Step, let_go: LetGo) -> None:
    """Refuse to scrap a part of a withdrawn claim without a reason.

    Raises:
        BadInput: there is none.

    Source: common practice, no source.
    """
    # a withdrawn claim may be taken up again, unlike one that a maker or the time let go
    if let_go.rule == WITHDRAWN and not step.why:
        raise BadInput(
            f"--because is missing: why may {code} go?",
            "Its claim was withdrawn; taken up again, it would need the part as its evidence.",
            "Add it, as in: --because 'The owner took the unit back.'",
        )


def scrapping(nth: int, state: str, step: Step, let_go: LetGo) -> tuple[NewEvent, ...]:
    """What is recorded when a part is scrapped: the rule that let it go and its reason, then the scrapping.

    Source: common practice, no source.
    """
    scrapped = _part_event("part scrapped", nth, step, {"rule": let_go.rule})
    # any other part is released by the rule first: what let it go stands in the history beside its scrapping
    if state == "released":
        return (scrapped,)
    released = Step(on=step.on, why=let_go.because)
    return (_part_event("part released", nth, released, {"rule": let_go.rule}), scrapped)


def _part_event(what: EventName, nth: int, step: Step, facts: dict[str, str]) -> NewEvent:
    said = {name: fact for name, fact in facts.items() if fact}
    return NewEvent(what=what, on=step.on, why=step.why, facts={"part": str(nth), **said})


PartUndo = Literal["part call-back undone", "part sending undone", "part release undone", "part scrapping undone"]


def step_undone(standing: Standing, code: PartCode, what: PartUndo, step: Step) -> NewEvent:
    """What is recorded when the last step with a held part was entered by mistake.

    Raises:
        WrongState: it was not the part's last step.
        BadInput: there is no reason.

    Source: a rule of this tool's, no source.
    """
    part = {"part": str(code.nth)}
    may_follow(standing, NewEvent(what=what, on=step.on, facts=part), code.claim)
    refuse_without_reason(step, "The wrong code was scanned.")
    stands = standing.part(code.nth)
    return recorded(what, step, {**part, **_taken_back(stands), "state": _before(stands)})


def _taken_back(part: HeldStanding) -> dict[str, str]:
    # the last thing that happened was another day to send it by, so that alone is taken back
    if part.asked_before and part.state == "called back":
        return {"send_by": _told(part.send_by)}
    days = {"called back": part.called_back, "sent": part.sent, "released": part.released, "scrapped": part.scrapped}
    return {part.state.replace(" ", "_"): _told(days.get(part.state))}


def _told(day: date | None) -> str:
    return day.isoformat() if day else ""


def _before(part: HeldStanding) -> PartState:
    """Where the part stood; one that a rule let go when it was scrapped was released in the same step."""
    # a part that a rule let go was released in the same step; undone, both go
    if part.state == "scrapped" and part.rule in ("", RELEASED):
        return "released"
    was_called_back = part.called_back is not None
    if part.state == "called back":
        was_called_back = bool(part.asked_before)
    return "called back" if was_called_back else "held"


def undone_in_words(undone: NewEvent) -> str:
    """The step with a held part that was taken back, with its day, in a sentence."""
    facts = undone.facts
    if "send_by" in facts:
        return f"Undone: {facts['send_by']} as the day to send it by."
    step = undone.what.removeprefix("part ").removesuffix(" undone")
    return f"Undone: the {step} of {next(facts[day] for day in _DAYS if day in facts)}."


_DAYS = ("called_back", "sent", "released", "scrapped")
