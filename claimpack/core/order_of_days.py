"""The order of days: a step counts from no day before the one of what it follows."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date
from typing import NamedTuple

from claimpack.core.answers import Answer
from claimpack.core.events import Happening
from claimpack.core.money import ZERO, exact
from claimpack.core.part_states import HeldStanding
from claimpack.core.states import Payment, Standing
from claimpack.errors import BadInput


class Followed(NamedTuple):
    """A day that a step cannot lie before: what happened on it, and why the step comes after."""

    on: date
    what: str
    why: str


def refuse_before_what_it_follows(standing: Standing, happening: Happening) -> None:
    """Refuse a step dated before the answer, the receipt, the money or the step with a held part that it follows.

    Raises:
        BadInput: with the two days.

    Source: a rule of this tool's, no source.
    """
    followed = _FOLLOWED.get(happening.what, _nothing)
    for each in followed(standing, happening):
        if happening.on < each.on:
            raise BadInput(
                f"--on: {happening.on} lies before {each.on}, the day {each.what}",
                each.why,
                "Correct the day, or take back the step that has the wrong one (--undo).",
            )


def _nothing(_standing: Standing, _happening: Happening) -> Iterator[Followed]:
    yield from ()


_ANSWERED: Mapping[str, str] = {
    "accepted": "it was accepted",
    "part": "it was accepted in part",
    "refused": "it was refused",
    "questioned": "the maker asked about it",
}


def _last_answer(standing: Standing, why: str) -> Iterator[Followed]:
    for answer in standing.answers[-1:]:
        yield Followed(answer.on, _ANSWERED[answer.answer], why)


def _latest(payments: Iterable[Payment], why: str) -> Iterator[Followed]:
    for payment in sorted(payments, key=lambda payment: payment.on)[-1:]:
        yield Followed(payment.on, "it was paid" if payment.amount > 0 else "money was taken back", why)


def _filed(standing: Standing, _happening: Happening) -> Iterator[Followed]:
    yield from _last_answer(standing, "A claim is sent in again after the maker answered, not before.")


def _answered(standing: Standing, _happening: Happening) -> Iterator[Followed]:
    if standing.received:
        yield Followed(standing.received, "the maker received it", "The maker answers what it has received.")
    yield from _last_answer(standing, "An answer follows the one before it; the last one counts.")


def _given_up(standing: Standing, _happening: Happening) -> Iterator[Followed]:
    yield from _last_answer(standing, "What is given up is what that answer left.")
    yield from _latest(standing.payments, "What is given up is what that payment left.")


def _taken_up_again(standing: Standing, _happening: Happening) -> Iterator[Followed]:
    why = "It is taken up again after it was given up, and that was later still."
    yield from _last_answer(standing, why)
    yield from _latest(standing.payments, why)


def _taken_back(standing: Standing, _happening: Happening) -> Iterator[Followed]:
    yield from _last_answer(standing, "The claim still stood when the maker answered it.")


def _charged_back(standing: Standing, happening: Happening) -> Iterator[Followed]:
    """Money is taken back from what had come in by then."""
    there = sum((payment.amount for payment in standing.payments if payment.on <= happening.on), ZERO)
    if there < exact(happening.facts.get("amount") or "0") or not there:
        came_in = [payment for payment in standing.payments if payment.amount > 0]
        yield from _latest(came_in, "Nobody can take back what had not come in by then.")


def _answer_undone(standing: Standing, _happening: Happening) -> Iterator[Followed]:
    yield from _last_answer(standing, "An answer is taken back after it was recorded.")


def _payment_undone(standing: Standing, _happening: Happening) -> Iterator[Followed]:
    yield from _latest(standing.payments[-1:], "A payment is taken back after it was recorded.")


def _part(standing: Standing, happening: Happening) -> HeldStanding:
    return standing.part(int(happening.facts["part"]))


def _part_asked_for(standing: Standing, happening: Happening) -> Iterator[Followed]:
    yield from _call_back(_part(standing, happening), "Another day to send it by is named after that.")


def _part_sent(standing: Standing, happening: Happening) -> Iterator[Followed]:
    yield from _call_back(_part(standing, happening), "A part goes to the maker after it was called back, not before.")


def _part_released(standing: Standing, happening: Happening) -> Iterator[Followed]:
    why = "The maker still wanted the part when it called it back, and let it go later."
    yield from _call_back(_part(standing, happening), why)


def _call_back(part: HeldStanding, why: str) -> Iterator[Followed]:
    if part.called_back:
        yield Followed(part.called_back, "it was called back", why)


def _part_scrapped(standing: Standing, happening: Happening) -> Iterator[Followed]:
    """A part that a rule lets go is released by its scrapping, and follows nothing."""
    released = _part(standing, happening).released
    if released:
        yield Followed(released, "it was released", "A part that the maker let go is scrapped after that, not before.")


_FOLLOWED: Mapping[str, Callable[[Standing, Happening], Iterator[Followed]]] = {
    "filed": _filed,
    "answered": _answered,
    "written off": _given_up,
    "reopened": _taken_up_again,
    "withdrawn": _taken_back,
    "charged back": _charged_back,
    "answer undone": _answer_undone,
    "payment undone": _payment_undone,
    "part called back": _part_asked_for,
    "part sent": _part_sent,
    "part released": _part_released,
    "part scrapped": _part_scrapped,
}


def refuse_received_after_heard(standing: Standing, on: date) -> None:
    """Refuse a day of receipt after the maker's first answer.

    Raises:
        BadInput: with the two days.

    Source: a rule of this tool's, no source.
    """
    first: Answer | None = min(standing.answers, key=lambda answer: answer.on, default=None)
    if first and on > first.on:
        raise BadInput(
            f"--on: {on} lies after {first.on}, the day {_ANSWERED[first.answer]}",
            "The maker answers what it has received.",
            "Correct the day; or the answer's, with --undo.",
        )
