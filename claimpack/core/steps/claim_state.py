"""Where a claim stands: folded from its events, those that were undone left out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import Literal

from claimpack.core.facts.fields import Record
from claimpack.core.steps.event_kinds import EVENT_KINDS, State
from claimpack.core.steps.part_state import PART_FOLDS, AnyEvent, HeldStanding, StateChange, part_undone
from claimpack.core.values.money import ZERO, Number
from claimpack.core.values.words import Text

AnswerKind = Literal["accepted", "part", "refused", "questioned"]


class Answer(Record):
    """What the maker answered, on the day it came in; amount where it accepts a part, form where only that is wrong.

    `after` counts the payments recorded before it. `silent`: nobody answered, and the terms count that as a refusal.
    """

    on: date
    answer: AnswerKind
    amount: Number | None = None
    because: Text = ""
    form: bool = False
    after: int = 0
    silent: bool = False

    @property
    def accepts(self) -> bool:
        """Whether the maker pays all of it or a part."""
        return self.answer in ("accepted", "part")


UNANSWERED: Mapping[str, object] = {
    "answers": (),
    "answered": None,
    "because": "",
    "refused_for_form": False,
    "accepted": None,
    "accepted_on": None,
}
"""What is known of the answer to a claim that has none."""


def left_by(answers: tuple[Answer, ...], claimed: Decimal) -> dict[str, object]:
    """Where the answers since the last filing leave a claim; the last one counts, and without one it is filed.

    Source: common practice, no source.
    """
    if not answers:
        return {**UNANSWERED, "state": "filed"}
    last = answers[-1]
    amount = claimed if last.amount is None else last.amount
    return {
        "state": "accepted" if last.accepts else last.answer,
        "answers": answers,
        "answered": last.on,
        "because": last.because,
        "refused_for_form": last.answer == "refused" and last.form,
        "accepted": amount if last.accepts else None,
        "accepted_on": last.on if last.accepts else None,
    }


OPEN: tuple[State, ...] = ("draft", "filed", "questioned", "accepted", "refused")
"""States in which something is still to be done."""

PENDING: tuple[State, ...] = ("filed", "questioned", "accepted", "refused")
"""States of a claim that is filed and not settled."""


class Payment(Record):
    """Money that came in, or was taken back when the amount is below zero; the memo it came with, where one is known.

    `statement` is the mark of the file it was booked from, empty where it was typed in.
    """

    on: date
    amount: Number
    memo: str = ""
    statement: str = ""


class Standing(Record):
    """Where a claim stands; dates are the business days of its events, None where there was none.

    `anyway` is the reason it was filed last although something spoke against it, empty where nothing did;
    `rest_written_off` is the part of `written_off` that the maker had refused; `paid_before` counts the payments that
    came in before the last filing.
    """

    state: State = "draft"
    opened: date | None = None
    filed: date | None = None
    first_filed: date | None = None
    received: date | None = None
    reference: str = ""
    anyway: str = ""
    packet: str = ""
    filed_revision: int = 0
    currency: str = ""
    claimed: Number = ZERO
    answers: tuple[Answer, ...] = ()
    answered: date | None = None
    because: str = ""
    refused_for_form: bool = False
    accepted_on: date | None = None
    accepted: Number | None = None
    payments: tuple[Payment, ...] = ()
    paid_before: int = 0
    written_off: Number = ZERO
    rest_written_off: Number = ZERO
    parts: tuple[HeldStanding, ...] = ()

    @property
    def paid(self) -> Decimal:
        """What came in, less what was taken back."""
        return sum((payment.amount for payment in self.payments), ZERO)

    @property
    def paid_on(self) -> date | None:
        """The day of the last payment."""
        return max((payment.on for payment in self.payments if payment.amount > 0), default=None)

    @property
    def parts_gone(self) -> tuple[int, ...]:
        """The held parts that are sent to the maker, or that nobody need keep any more, by their index."""
        return tuple(part.index for part in self.parts if part.state not in ("held", "called back"))

    @property
    def heard(self) -> date | None:
        """The first day since the last filing that the maker was heard of, by an answer or by paying all of it."""
        days = [*(answer.on for answer in self.answers if not answer.silent), self.accepted_on]
        return min((day for day in days if day), default=None)

    @property
    def charged_back_on(self) -> date | None:
        """The day the maker took money back last."""
        return next((payment.on for payment in reversed(self.payments) if payment.amount < 0), None)

    @property
    def charged_from(self) -> date | None:
        """The day of the last payment that had come in by then, which an audit counts from."""
        return next(
            (from_day for payment, from_day in reversed(self.with_their_payments()) if payment.amount < 0), None
        )

    def with_their_payments(self) -> list[tuple[Payment, date | None]]:
        """Every payment and charge-back, each with the day of the last payment that had come in by then."""
        found, last = list[tuple[Payment, date | None]](), None
        for payment in self.payments:
            if payment.amount > 0:
                last = max(payment.on, last or payment.on)
            found.append((payment, last))
        return found

    @property
    def owed(self) -> Decimal:
        """What the maker accepted to pay, else what was claimed."""
        return self.claimed if self.accepted is None else self.accepted

    @property
    def outstanding(self) -> Decimal:
        """What is still to come in; nothing on a claim that is not filed, settled, or refused for good."""
        if self.state not in PENDING:
            return ZERO
        given_up = self.written_off - self.rest_written_off
        return max(self.owed - self.paid - given_up, ZERO)

    @property
    def refused_rest(self) -> Decimal:
        """What the maker refused when it accepted a part, has not paid all the same, and was not let go."""
        in_part = bool(self.answers) and self.answers[-1].answer == "part"
        if not in_part or self.state not in ("accepted", "paid"):
            return ZERO
        return max(self.claimed - max(self.owed, self.paid) - self.rest_written_off, ZERO)

    @property
    def owed_again(self) -> date | None:
        """The day since which money that had come in is owed again: all was paid, and the maker took some back.

        None where some of what is outstanding was never paid.
        """
        if self.state != "accepted":
            return None
        left, since = self.owed - (self.written_off - self.rest_written_off), None
        for payment in self.payments:
            was_settled, left = left <= 0, left - payment.amount
            since = None if left <= 0 else payment.on if was_settled else since
        return since

    def part(self, index: int) -> HeldStanding:
        """Where a held part stands."""
        return next((part for part in self.parts if part.index == index), HeldStanding(index=index))


class Folding:
    """One claim folded event by event: where it stands, and the events that count, in the order they were recorded."""

    def __init__(self, events: Iterable[AnyEvent] = ()) -> None:
        self.standing = Standing()
        self.counting: list[AnyEvent] = []
        for event in events:
            self.take(event)

    def take(self, event: AnyEvent) -> None:
        """Fold one more event; one that undoes others drops them, and the rest is folded anew."""
        undone = _undone_by(event, self.counting)
        if undone:
            # no step is reckoned backwards: what stood before it comes from the events before it
            again = Folding(other for place, other in enumerate(self.counting) if place not in undone)
            self.standing, self.counting = again.standing, again.counting
        elif event.what in _FOLDS:
            change = _FOLDS[event.what](self.standing, event)
            if change:
                self.standing = self.standing.model_copy(update=change)
                self.counting.append(event)


def stand(events: Iterable[AnyEvent]) -> Standing:
    """Where a claim stands after all its events, in the order they were recorded."""
    return Folding(events).standing


def _undone_by(event: AnyEvent, before: Sequence[AnyEvent]) -> tuple[int, ...]:
    """The places of the events that an event undoes; none for one that undoes nothing."""
    # the proof of a book reads events that nobody checked, and is to name them rather than fail
    kind = EVENT_KINDS.get(event.what, _UNKNOWN)
    if kind.of_a_part and kind.takes_back:
        return part_undone(event, before)
    last = next((place for place in range(len(before) - 1, -1, -1) if before[place].what in kind.takes_back), None)
    # a withdrawal is not undone: a claim that is taken up again after it has to be filed again
    return () if last is None or before[last].what == "withdrawn" else (last,)


_UNKNOWN = EVENT_KINDS["opened"]
"""What an event is taken for that another program wrote: the proof of the book names it."""

_NOT_WRITTEN_OFF: StateChange = {"written_off": ZERO, "rest_written_off": ZERO}


def _opened(_standing: Standing, event: AnyEvent) -> StateChange:
    return {"opened": event.on}


def _filed(standing: Standing, event: AnyEvent) -> StateChange:
    facts = event.facts
    return {
        **UNANSWERED,
        **_NOT_WRITTEN_OFF,
        "state": "filed",
        "filed": event.on,
        "first_filed": standing.first_filed or event.on,
        "received": date.fromisoformat(facts["received"]) if facts.get("received") else None,
        "reference": facts.get("reference", standing.reference),
        "anyway": event.why,
        "packet": facts.get("packet", ""),
        "filed_revision": int(facts.get("revision", "0")),
        "claimed": _amount(facts.get("claimed")),
        "currency": facts.get("currency", ""),
        "paid_before": len(standing.payments),
    }


def _given_up(standing: Standing, change: StateChange) -> StateChange:
    """A change of answers or payments; what was written off and is owed or paid all the same was not given up."""
    after = standing.model_copy(update=change)
    rest = min(after.rest_written_off, max(after.claimed - max(after.owed, after.paid), ZERO))
    accepted = min(after.written_off - after.rest_written_off, max(after.owed - after.paid, ZERO))
    return {**change, "written_off": rest + accepted or ZERO, "rest_written_off": rest or ZERO}


def _amount(written: str | None) -> Decimal:
    """An amount of a fact; nothing is always written alike, so that a standing kept and read again is the same."""
    return Decimal(written or "0") or ZERO


def _answered(standing: Standing, event: AnyEvent) -> StateChange:
    facts = event.facts
    answer = Answer(
        on=event.on,
        answer=facts["answer"],
        amount=Decimal(facts["amount"]) if facts.get("amount") else None,
        because=event.why,
        form=facts.get("form") == "yes",
        after=len(standing.payments),
        silent=facts.get("silence") == "yes",
    )
    change = _given_up(standing, left_by((*standing.answers, answer), standing.claimed))
    after = standing.model_copy(update=change)
    settled = after.state == "accepted" and standing.payments and not after.outstanding
    return {**change, "state": "paid"} if settled else change


_UNFILED: StateChange = {
    **UNANSWERED,
    **_NOT_WRITTEN_OFF,
    "state": "draft",
    "filed": None,
    "first_filed": None,
    "received": None,
    "anyway": "",
    "packet": "",
    "filed_revision": 0,
    "currency": "",
    "claimed": ZERO,
}


def _paid(standing: Standing, event: AnyEvent) -> StateChange:
    """Money for all of a claim accepts it; money for a part of it is no answer to the rest."""
    payments = (*standing.payments, _payment(event, Decimal(event.facts["amount"])))
    state = _settled_by(standing, payments)
    accepted_on = standing.accepted_on or (event.on if state == "paid" else None)
    return _given_up(standing, {"payments": payments, "state": state, "accepted_on": accepted_on})


def _payment(event: AnyEvent, amount: Decimal) -> Payment:
    facts = event.facts
    return Payment(on=event.on, amount=amount, memo=facts.get("memo", ""), statement=facts.get("statement", ""))


def _settled_by(standing: Standing, payments: tuple[Payment, ...]) -> State:
    after = standing.model_copy(update={"payments": payments, "state": "accepted"})
    if not after.outstanding:
        return "paid"
    return "accepted" if standing.accepted_on else standing.state


def _charged_back(standing: Standing, event: AnyEvent) -> StateChange:
    payments = (*standing.payments, _payment(event, -Decimal(event.facts["amount"])))
    return {"payments": payments, "state": _settled_by(standing, payments), "because": event.why}


def _written_off(standing: Standing, event: AnyEvent) -> StateChange:
    """At most what is there is given up, and nothing is no change.

    A claim whose refused rest alone is let go stands where it stood.
    """
    amount, rest = (_amount(event.facts.get(name)) for name in ("amount", "rest"))
    let_go, given_up = min(rest, standing.refused_rest), min(amount - rest, standing.outstanding)
    if amount and not let_go + given_up:
        return {}
    change: StateChange = {
        "written_off": standing.written_off + let_go + given_up,
        "rest_written_off": standing.rest_written_off + let_go,
    }
    return change if amount and not given_up else {**change, "state": "written off"}


def _reopened(standing: Standing, _event: AnyEvent) -> StateChange:
    """A claim that was withdrawn is as one that was never filed."""
    return _UNFILED if standing.state == "withdrawn" else {}


def _of_a_part(standing: Standing, event: AnyEvent) -> StateChange:
    part = standing.part(int(event.facts["part"]))
    change = PART_FOLDS[event.what](part, event)
    if event.what == "part scrapped":
        then = {"then_filed": standing.filed, "then_received": standing.received, "then_paid": standing.paid_on}
        change = {**change, **then}
    after = part.model_copy(update=change)
    others = [other for other in standing.parts if other.index != part.index]
    return {"parts": tuple(sorted([*others, after], key=lambda part: part.index))}


_FOLDS: Mapping[str, Callable[[Standing, AnyEvent], StateChange]] = {
    "opened": _opened,
    "imported": _opened,
    "filed": _filed,
    "received": lambda _standing, event: {"received": event.on},
    "answered": _answered,
    "paid": _paid,
    "charged back": _charged_back,
    "written off": _written_off,
    "withdrawn": lambda _standing, _event: {"state": "withdrawn"},
    "reopened": _reopened,
    **dict.fromkeys(PART_FOLDS, _of_a_part),
}
