"""The order of days: a step counts from no day before the one of what it follows."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.events.event_kinds import EVENT_KINDS, Milestone
from claimpack.core.events.events import NewEvent
from claimpack.core.events.part_state import HeldStanding
from claimpack.core.events.standing import Answer, Payment, Standing
from claimpack.core.values.money import ZERO, exact
from claimpack.errors import BadInput


class Followed(NamedTuple):
    """A day that a step cannot lie before, and what happened on it."""

    on: date
    what: str


def refuse_before_what_it_follows(standing: Standing, new_event: NewEvent) -> None:
    """Refuse a step dated before the answer, the receipt, the money or the step with a held part that it follows.

    Raises:
        BadInput: with the two days.

    Source: a rule of this tool's, no source.
    """
    for milestone, why in EVENT_KINDS[new_event.what].after:
        followed = _MILESTONES[milestone](standing, new_event)
        if followed and new_event.on < followed.on:
            raise BadInput(
                f"--on: {new_event.on} is before {followed.on}, the day {followed.what}",
                why,
                "Correct the day, or take back the step that has the wrong one (--undo).",
            )


_ANSWERED: Mapping[str, str] = {
    "accepted": "it was accepted",
    "part": "it was accepted in part",
    "refused": "it was refused",
    "questioned": "the maker asked about it",
}


def _last_answer(standing: Standing, _new_event: NewEvent) -> Followed | None:
    answer = standing.answers[-1] if standing.answers else None
    return Followed(answer.on, _ANSWERED[answer.answer]) if answer else None


def _receipt(standing: Standing, _new_event: NewEvent) -> Followed | None:
    return Followed(standing.received, "the maker received it") if standing.received else None


def _latest(payments: Sequence[Payment]) -> Followed | None:
    if not payments:
        return None
    # of one day the last recorded is named: `max` keeps the first it meets, hence the reversal
    latest = max(reversed(payments), key=lambda payment: payment.on)
    return Followed(latest.on, "it was paid" if latest.came_in else "money was taken back")


def _to_take_back(standing: Standing, new_event: NewEvent) -> Followed | None:
    """The last payment, where not enough had come in by then to take so much back."""
    # money of later days does not count, though it is recorded: on that day it had not come in
    there = sum((payment.amount for payment in standing.payments if payment.on <= new_event.on), ZERO)
    if there >= exact(new_event.facts["amount"]):
        return None
    return _latest([payment for payment in standing.payments if payment.came_in])


def _part(standing: Standing, new_event: NewEvent) -> HeldStanding:
    return standing.part(int(new_event.facts["part"]))


def _call_back(standing: Standing, new_event: NewEvent) -> Followed | None:
    called_back = _part(standing, new_event).called_back
    return Followed(called_back, "it was called back") if called_back else None


def _release(standing: Standing, new_event: NewEvent) -> Followed | None:
    """A part that a rule lets go is released by its scrapping, and follows nothing."""
    released = _part(standing, new_event).released
    return Followed(released, "it was released") if released else None


_MILESTONES: Mapping[Milestone, Callable[[Standing, NewEvent], Followed | None]] = {
    "call-back": _call_back,
    "last answer": _last_answer,
    "last money": lambda standing, _: _latest(standing.payments),
    "last payment or charge-back": lambda standing, _: _latest(standing.payments[-1:]),
    "money to take back": _to_take_back,
    "receipt": _receipt,
    "release": _release,
}
"""The day of each milestone of the events; None where it has not come."""


def refuse_received_after_heard(standing: Standing, on: date) -> None:
    """Refuse a day of receipt after the maker's first answer.

    Raises:
        BadInput: with the two days.

    Source: a rule of this tool's, no source.
    """
    # the first and not the last: even a question shows that the maker had the claim
    first: Answer | None = min(standing.answers, key=lambda answer: answer.on, default=None)
    if first and on > first.on:
        raise BadInput(
            f"--on: {on} is after {first.on}, the day {_ANSWERED[first.answer]}",
            "The maker answers what it has received.",
            "Correct the day; or the answer's, with --undo.",
        )
