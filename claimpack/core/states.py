"""Where a claim stands: folded from its events."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from decimal import Decimal
from typing import Literal

from claimpack.core.answers import UNANSWERED, Answer, left_by
from claimpack.core.claim import Record
from claimpack.core.events import Event, Happening
from claimpack.core.money import ZERO, Number
from claimpack.core.part_states import PART_FOLDS, Change, HeldStanding, Told

State = Literal["draft", "filed", "questioned", "accepted", "refused", "paid", "written off", "withdrawn"]

OPEN: tuple[State, ...] = ("draft", "filed", "questioned", "accepted", "refused")
"""States in which something is still to be done."""

PENDING: tuple[State, ...] = ("filed", "questioned", "accepted", "refused")
"""States of a claim that is filed and not settled."""


class Payment(Record):
    """Money that came in, or was taken back when the amount is below zero.

    `regained` is what had been written off and was paid with it all the same, `regained_rest` the part of it that the
    maker had refused.
    """

    on: date
    amount: Number
    regained: Number = ZERO
    regained_rest: Number = ZERO


class Standing(Record):
    """Where a claim stands; dates are the business days of its events, None where there was none.

    `rest_written_off` is the part of `written_off` that the maker had refused, `rest_before` what was let go of it
    before the whole was given up; `paid_before` counts the payments that came in before the last filing.
    """

    state: State = "draft"
    before: State = "draft"
    opened: date | None = None
    filed: date | None = None
    first_filed: date | None = None
    received: date | None = None
    reference: str = ""
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
    rest_before: Number = ZERO
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
    def heard(self) -> date | None:
        """The first day since the last filing that the maker was heard of, by an answer or by money."""
        days = [answer.on for answer in self.answers]
        days += [payment.on for payment in self.payments[self.paid_before :] if payment.amount > 0]
        return min(days, default=None)

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


def stand(events: Iterable[Event | Happening], start: Standing | None = None) -> Standing:
    """Where a claim stands after its events, in their order."""
    standing = start or Standing()
    for event in events:
        fold = _FOLDS.get(event.what)
        if fold:
            standing = standing.model_copy(update=fold(standing, event))
    return standing


_NOT_WRITTEN_OFF: Change = {"written_off": ZERO, "rest_written_off": ZERO, "rest_before": ZERO}


def _opened(_standing: Standing, event: Told) -> Change:
    return {"opened": event.on}


def _filed(standing: Standing, event: Told) -> Change:
    facts = event.facts
    return {
        **UNANSWERED,
        **_NOT_WRITTEN_OFF,
        "state": "filed",
        "filed": event.on,
        "first_filed": standing.first_filed or event.on,
        "received": date.fromisoformat(facts["received"]) if facts.get("received") else None,
        "reference": facts.get("reference", standing.reference),
        "packet": facts.get("packet", ""),
        "filed_revision": int(facts.get("revision", "0")),
        "claimed": _amount(facts.get("claimed")),
        "currency": facts.get("currency", ""),
        "payments": _nothing_regained(standing.payments),
        "paid_before": len(standing.payments),
    }


def _nothing_regained(payments: tuple[Payment, ...]) -> tuple[Payment, ...]:
    """Payments as they are where nothing is written off any more, so that undoing one brings none of it back."""
    return tuple(payment.model_copy(update={"regained": ZERO, "regained_rest": ZERO}) for payment in payments)


def _still_lost(standing: Standing, change: Change) -> Change:
    """A change of answers or payments; what was written off and is owed or paid all the same was not lost."""
    after = standing.model_copy(update=change)
    rest = min(after.rest_written_off, max(after.claimed - max(after.owed, after.paid), ZERO))
    given_up = min(after.written_off - after.rest_written_off, max(after.owed - after.paid, ZERO))
    lost = {"written_off": rest + given_up, "rest_written_off": rest, "rest_before": min(after.rest_before, rest)}
    return {**change, **{name: amount or ZERO for name, amount in lost.items()}}


def _amount(written: str | None) -> Decimal:
    """An amount of a fact; nothing is always written alike, so that a standing kept and read again is the same."""
    return Decimal(written or "0") or ZERO


def _answered(standing: Standing, event: Told) -> Change:
    facts = event.facts
    answer = Answer(
        on=event.on,
        answer=facts["answer"],
        amount=Decimal(facts["amount"]) if facts.get("amount") else None,
        because=event.why,
        form=facts.get("form") == "yes",
        after=len(standing.payments),
    )
    change = _still_lost(standing, left_by((*standing.answers, answer), standing.claimed))
    after = standing.model_copy(update=change)
    settled = after.state == "accepted" and standing.payments and not after.outstanding
    return {**change, "state": "paid"} if settled else change


_UNFILED: Change = {
    **UNANSWERED,
    **_NOT_WRITTEN_OFF,
    "state": "draft",
    "filed": None,
    "first_filed": None,
    "received": None,
    "packet": "",
    "filed_revision": 0,
    "currency": "",
    "claimed": ZERO,
}


def _answer_undone(standing: Standing, _event: Told) -> Change:
    return {**_stood_again(standing, standing.answers[:-1], standing.payments), **_NOT_WRITTEN_OFF}


def _payment_undone(standing: Standing, _event: Told) -> Change:
    undone = standing.payments[-1]
    again = {
        **_stood_again(standing, standing.answers, standing.payments[:-1]),
        "written_off": standing.written_off + undone.regained,
        "rest_written_off": standing.rest_written_off + undone.regained_rest,
    }
    return _still_lost(standing, again)


def _stood_again(standing: Standing, answers: tuple[Answer, ...], payments: tuple[Payment, ...]) -> Change:
    """Where a claim stands with other answers and payments than it had.

    Money that came in since the last filing accepts it, unless the maker refused or asked after the money came.
    """
    answers = tuple(answer.model_copy(update={"after": min(answer.after, len(payments))}) for answer in answers)
    before = min(standing.paid_before, len(payments))
    change = {**left_by(answers, standing.claimed), "payments": payments, "paid_before": before}
    came_in = payments[before:]
    if not came_in and not (payments and change["state"] == "accepted"):
        return change
    if answers and not answers[-1].accepts and answers[-1].after >= len(payments):
        return change
    after = standing.model_copy(update={**change, "state": "accepted"})
    settled = "paid" if after.outstanding == 0 else "accepted"
    return {**change, "state": settled, "accepted_on": after.accepted_on or _accepted_by(answers, payments, before)}


def _accepted_by(answers: tuple[Answer, ...], payments: tuple[Payment, ...], before: int) -> date:
    """The day of the first payment since the last filing, and since the last answer that did not accept."""
    since = max(before, answers[-1].after) if answers and not answers[-1].accepts else before
    return payments[since].on


def _paid(standing: Standing, event: Told) -> Change:
    payment = Payment(on=event.on, amount=Decimal(event.facts["amount"]))
    payments = (*standing.payments, payment)
    change = {"state": _settled_by(standing, payments), "accepted_on": standing.accepted_on or event.on}
    lost = _still_lost(standing, {**change, "payments": payments})
    left = standing.model_copy(update=lost)
    regained = {
        "regained": standing.written_off - left.written_off,
        "regained_rest": standing.rest_written_off - left.rest_written_off,
    }
    return {**lost, "payments": (*standing.payments, payment.model_copy(update=regained))}


def _settled_by(standing: Standing, payments: tuple[Payment, ...]) -> State:
    after = standing.model_copy(update={"payments": payments, "state": "accepted"})
    return "accepted" if after.outstanding else "paid"


def _charged_back(standing: Standing, event: Told) -> Change:
    payments = (*standing.payments, Payment(on=event.on, amount=-Decimal(event.facts["amount"])))
    return {"payments": payments, "state": _settled_by(standing, payments), "because": event.why}


def _written_off(standing: Standing, event: Told) -> Change:
    """A claim whose refused rest alone is let go stands where it stood."""
    amount, rest = (_amount(event.facts.get(name)) for name in ("amount", "rest"))
    change: Change = {
        "written_off": standing.written_off + amount,
        "rest_written_off": standing.rest_written_off + rest,
    }
    if rest and rest == amount:
        return change
    return {**change, "state": "written off", "before": standing.state, "rest_before": standing.rest_written_off}


def _withdrawn(standing: Standing, _event: Told) -> Change:
    return {"state": "withdrawn", "before": standing.state}


def _reopened(standing: Standing, _event: Told) -> Change:
    """The last write-off alone is taken back: a rest that was let go before it stays let go."""
    if standing.state == "withdrawn":
        return _UNFILED
    change = {**_NOT_WRITTEN_OFF, "payments": _nothing_regained(standing.payments)}
    if standing.state != "written off":
        return change
    let_go = standing.rest_before
    return {**change, "state": standing.before, "written_off": let_go, "rest_written_off": let_go}


def _of_a_part(standing: Standing, event: Told) -> Change:
    part = standing.part(int(event.facts["part"]))
    change = PART_FOLDS[event.what](part, event)
    if event.what == "part scrapped":
        then = {"then_filed": standing.filed, "then_received": standing.received, "then_paid": standing.paid_on}
        change = {**change, **then}
    after = part.model_copy(update=change)
    others = [other for other in standing.parts if other.index != part.index]
    return {"parts": tuple(sorted([*others, after], key=lambda part: part.index))}


_FOLDS: Mapping[str, Callable[[Standing, Told], Change]] = {
    "opened": _opened,
    "imported": _opened,
    "filed": _filed,
    "received": lambda _standing, event: {"received": event.on},
    "answered": _answered,
    "answer undone": _answer_undone,
    "paid": _paid,
    "payment undone": _payment_undone,
    "charged back": _charged_back,
    "written off": _written_off,
    "withdrawn": _withdrawn,
    "reopened": _reopened,
    **dict.fromkeys(PART_FOLDS, _of_a_part),
}
