"""Where a claim stands: its answers, its payments, and what is owed after them."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import Literal

from claimpack.core.events.part_state import HeldStanding
from claimpack.core.events.states import PENDING, State
from claimpack.core.facts.record import Record
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


class Payment(Record):
    """Money that came in, or was taken back when the amount is below zero; the memo it came with, where one is known.

    `statement` is the mark of the file it was booked from, empty where it was typed in.
    """

    on: date
    amount: Number
    memo: str = ""
    statement: str = ""

    @property
    def came_in(self) -> bool:
        """Whether it came in; else it was taken back."""
        return self.amount > 0


class Standing(Record):
    """Where a claim stands; dates are the business days of its events, None where there was none.

    `anyway` is the reason it was filed last although something spoke against it, empty where nothing did;
    `asked_filed` and `asked_received` are the days of the filing that the maker answered with a question, once the
    claim was filed again with the reply: a time to answer that no question stops is counted from them.
    `chased_on` is the day of the last letter about it, and `ask_again` that from which to ask again, until something
    comes of it.
    `rest_written_off` is the part of `written_off` that the maker had refused; `paid_before` counts the payments that
    came in before the last filing. `shop` is the id of the shop whose claim it is, empty in a book of one.
    """

    state: State = "draft"
    shop: str = ""
    opened: date | None = None
    filed: date | None = None
    first_filed: date | None = None
    received: date | None = None
    asked_filed: date | None = None
    asked_received: date | None = None
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
    chased_on: date | None = None
    ask_again: date | None = None

    @property
    def paid(self) -> Decimal:
        """What came in, less what was taken back."""
        return sum((payment.amount for payment in self.payments), ZERO)

    @property
    def paid_on(self) -> date | None:
        """The day of the last payment."""
        return max((payment.on for payment in self.payments if payment.came_in), default=None)

    @property
    def parts_gone(self) -> tuple[int, ...]:
        """The held parts that are sent to the maker, or that nobody need keep any more, by their index."""
        return tuple(part.index for part in self.parts if part.state not in ("held", "called back"))

    @property
    def gave_no_grounds(self) -> bool:
        """Whether the maker refused it without a reason that is on record; that form was wrong is one."""
        last = self.answers[-1] if self.answers and self.state == "refused" else None
        return last is not None and not (last.because or last.form or last.silent)

    @property
    def heard(self) -> date | None:
        """The first day since the last filing that the maker was heard of, by an answer or by paying all of it."""
        days = [*(answer.on for answer in self.answers if not answer.silent), self.accepted_on]
        return min((day for day in days if day), default=None)

    @property
    def decided(self) -> date | None:
        """The first day since the last filing that the maker said what it pays, or paid all of it."""
        said = (answer.on for answer in self.answers if not answer.silent and answer.answer != "questioned")
        return min((day for day in (*said, self.accepted_on) if day), default=None)

    @property
    def charged_back_on(self) -> date | None:
        """The last day on which the maker took money back."""
        return max((payment.on for payment in self.payments if not payment.came_in), default=None)

    @property
    def charged_from(self) -> date | None:
        """The day of the last payment that had come in by then, which an audit counts from."""
        return next((day for payment, day in reversed(self.with_their_payments()) if not payment.came_in), None)

    def with_their_payments(self) -> list[tuple[Payment, date | None]]:
        """Every payment and charge-back by its day, each with the day of the last payment that had come in by then."""
        found, last = list[tuple[Payment, date | None]](), None
        # of one day they stay in the order in which they were recorded
        for payment in sorted(self.payments, key=lambda payment: payment.on):
            last = payment.on if payment.came_in else last
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
        for payment, _ in self.with_their_payments():
            since = payment.on if left <= 0 else since
            left -= payment.amount
        return since

    def part(self, index: int) -> HeldStanding:
        """Where a held part stands."""
        return next((part for part in self.parts if part.index == index), HeldStanding(index=index))
