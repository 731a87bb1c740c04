"""Undoing: the last step with a held part, where a wrong code or day was entered."""

from __future__ import annotations

from datetime import date
from typing import Literal

from claimpack.core.event_kinds import PartState
from claimpack.core.events import Happening
from claimpack.core.following import may_follow
from claimpack.core.letting_go import RELEASED
from claimpack.core.part_codes import PartCode
from claimpack.core.part_states import HeldStanding
from claimpack.core.settling import Step, recorded, refuse_without_reason
from claimpack.core.states import Standing

PartUndo = Literal["part call-back undone", "part sending undone", "part release undone", "part scrapping undone"]


def step_undone(standing: Standing, code: PartCode, what: PartUndo, step: Step) -> Happening:
    """What is recorded when the last step with a held part was entered by mistake.

    Raises:
        WrongState: it was not the part's last step.
        BadInput: there is no reason.

    Source: a rule of this tool's, no source.
    """
    part = {"part": str(code.nth)}
    may_follow(standing, Happening(what=what, on=step.on, facts=part), code.claim)
    refuse_without_reason(step, "The wrong code was scanned.")
    stands = standing.part(code.nth)
    return recorded(what, step, {**part, **_taken_back(stands), "state": _before(stands)})


def _taken_back(part: HeldStanding) -> dict[str, str]:
    if part.asked_before and part.state == "called back":
        return {"send_by": _told(part.send_by)}
    days = {"called back": part.called_back, "sent": part.sent, "released": part.released, "scrapped": part.scrapped}
    return {part.state.replace(" ", "_"): _told(days.get(part.state))}


def _told(day: date | None) -> str:
    return day.isoformat() if day else ""


def _before(part: HeldStanding) -> PartState:
    """Where the part stood; one that a rule let go when it was scrapped was released in the same step."""
    if part.state == "scrapped" and part.rule in ("", RELEASED):
        return "released"
    was_called_back = part.called_back is not None
    if part.state == "called back":
        was_called_back = bool(part.asked_before)
    return "called back" if was_called_back else "held"


def undone_in_words(undone: Happening) -> str:
    """The step with a held part that was taken back, with its day, in a sentence."""
    facts = undone.facts
    if "send_by" in facts:
        return f"Undone: {facts['send_by']} as the day to send it by."
    step = undone.what.removeprefix("part ").removesuffix(" undone")
    return f"Undone: the {step} of {next(facts[day] for day in _DAYS if day in facts)}."


_DAYS = ("called_back", "sent", "released", "scrapped")
