"""The history with which a claim that was kept elsewhere comes into the book, told from its row, and taken back."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.events.events import Event, NewEvent
from claimpack.core.events.fold import Folding
from claimpack.core.events.standing import Standing
from claimpack.core.events.transitions import may_follow
from claimpack.core.steps.filing import IMPORT
from claimpack.core.steps.paying import answer_undone, paid, payment_undone
from claimpack.core.steps.settling import Step, answered, refuse_impossible_day
from claimpack.core.steps.taken_over import AMOUNTS, LACKING, StateTaken, TakenOver, is_answered, state_told
from claimpack.core.values.money import ZERO, fits, plain
from claimpack.errors import BadInput, ClaimpackError

UNDONE = "import undone"
"""The fact of the event that takes an import back: which it was."""


class History(NamedTuple):
    """What happened to a claim that is taken over, and where that leaves it."""

    events: tuple[NewEvent, ...]
    standing: Standing


def history_of(row: TakenOver, imported: str, today: date, before: Sequence[Event] = ()) -> History:
    """What happened to a claim, each event on the day that the list says, as if it had been recorded then.

    Args:
        row: the row.
        imported: the import it comes with.
        today: the day it comes in.
        before: what happened to a claim that came in before, whose import was taken back.

    Raises:
        BadInput: a day or an amount is missing, or cannot be; or the state does not follow from them.

    Source: a rule of this tool's, no source.
    """
    telling = _Telling(row.number, today, before)
    # an import that was taken back left the claim withdrawn, and it has to be taken up before it is told anew
    if before:
        telling.take(NewEvent(what="reopened", on=today, why=f"import {imported}", facts={IMPORT: imported}))
    telling.take(NewEvent(what="imported", on=today, facts={IMPORT: imported}))
    # what the list says of the state is believed before what its days would make of it
    state = row.state or state_told(row)
    _refuse_more_than_state(row, state)
    if state != "draft":
        telling.take(_filed(row, imported))
    if is_answered(row, state):
        _answer(telling, row, state)
    if row.paid:
        on = _needed(row.paid_on, "paid_on")
        telling.follow(on, row.because, lambda standing, step: paid(standing, step, plain(row.paid or ZERO)), "paid")
    if state == "paid" and telling.standing.state != "paid" and row.accepted is None:
        raise BadInput(
            f"paid: it is said to be paid, and {plain(telling.standing.outstanding)} of it is not: write what the "
            "maker accepted and the day it answered, or the state accepted if it still owes that",
            "What is outstanding would be chased.",
        )
    return History(tuple(telling.events), telling.standing)


class _Telling:
    """A claim's history as it is told, event after event."""

    def __init__(self, number: str, today: date, before: Sequence[Event]) -> None:
        self.number, self.today = number, today
        self.folding = Folding(before)
        self.events: list[NewEvent] = []

    @property
    def standing(self) -> Standing:
        return self.folding.standing

    def take(self, event: NewEvent) -> None:
        may_follow(self.standing, event, self.number)
        refuse_impossible_day(self.standing, event, self.today)
        self.folding.take(event)
        self.events.append(event)

    def follow(self, on: date, why: str, step: Callable[[Standing, Step], NewEvent], key: str) -> None:
        """Take a step as its command would; a refusal names the key that it comes from."""
        try:
            self.take(step(self.standing, Step(on=on, why=why, claim=self.number)))
        except ClaimpackError as error:
            # refusals name options of commands; somebody with a list has columns
            what = error.what.removeprefix("--on: ").removeprefix("AMOUNT: ").removeprefix("--amount: ")
            raise BadInput(f"{key}: {what}", error.why, "Correct the list.") from None


def _refuse_more_than_state(row: TakenOver, state: StateTaken) -> None:
    """Refuse money or an answer of a claim that the maker does not have."""
    told = next((key for key in ("filed", "received", "answered", "paid_on", "paid") if getattr(row, key)), "")
    if state == "draft" and told:
        raise BadInput(
            f"{told}: it is said of a draft",
            "The maker cannot act on a claim it does not have.",
            "Say when it was filed, or leave it out.",
        )


def _filed(row: TakenOver, imported: str) -> NewEvent:
    on = _needed(row.filed, "filed")
    if row.claimed is None:
        raise _lacks("claimed", "What is outstanding goes by it.")
    if row.currency is None:
        raise _lacks("currency", "An amount without one says nothing.")
    # all three, before the first of them is recorded in a currency that cannot hold it
    for key in AMOUNTS:
        amount: Decimal | None = getattr(row, key)
        if amount is not None and not fits(amount, row.currency):
            raise BadInput(f"{key}: {plain(amount)} has more decimals than {row.currency}", do="Correct it.")
    if row.received and row.received < on:
        raise BadInput(f"received: {row.received} is before {on}, the day of filing", do="Correct one of them.")
    facts = {
        "claimed": plain(row.claimed),
        "currency": row.currency,
        "received": row.received.isoformat() if row.received else "",
        "reference": row.reference,
        IMPORT: imported,
    }
    return NewEvent(what="filed", on=on, facts={name: fact for name, fact in facts.items() if fact})


def _answer(telling: _Telling, row: TakenOver, state: StateTaken) -> None:
    """The maker's answer; a claim that is paid may have been accepted before, whole or in part."""
    on = _needed(row.answered, "answered")
    kind = state
    if state in ("filed", "paid"):
        kind = "part" if row.accepted is not None and row.accepted != row.claimed else "accepted"
    amount = ""
    if kind == "part":
        if row.accepted is None:
            raise _lacks("accepted", "The rest is not outstanding.")
        amount = plain(row.accepted)
    telling.follow(
        on, row.because, lambda standing, step: answered(standing, step, kind, amount, form=False), "answered"
    )


def _needed(day: date | None, key: str) -> date:
    if day is None:
        raise _lacks(key, "Dates to keep and reports go by it, and nobody may make it up.")
    return day


def _lacks(key: str, why: str) -> BadInput:
    return BadInput(f"{key}: {LACKING[key]}", why, "Add it to the list, or leave the claim out.")


def undoing(events: Sequence[Event], imported: str, today: date, why: str) -> tuple[NewEvent, ...]:
    """What takes the import of a claim back: its payments and answers undone, the last first, then the claim withdrawn.

    Args:
        events: everything that happened to the claim, the import last.
        imported: the import.
        today: the day it is taken back.
        why: the reason.

    Raises:
        ClaimpackError: it does not follow from where the claim stands.

    Source: a rule of this tool's, no source.
    """
    folding, number = Folding(events), events[-1].claim
    step, back = Step(on=today, why=why, claim=number), list[NewEvent]()
    since = max(place for place, event in enumerate(events) if event.what == "imported")
    undo = {"paid": payment_undone, "answered": answer_undone}
    # the last first, as each must be the last of its kind when it is taken back
    for event in reversed(events[since:]):
        if event.what in undo:
            back.append(undo[event.what](folding.standing, step))
            folding.take(back[-1])
    withdrawn = NewEvent(what="withdrawn", on=today, why=why, facts={UNDONE: imported})
    may_follow(folding.standing, withdrawn, number)
    return (*back, withdrawn)
