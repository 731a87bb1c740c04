"""Where a claim stands: folded from its events, and what may follow."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from decimal import Decimal
from typing import Literal

from claimpack.core.answers import UNANSWERED, Answer, left_by
from claimpack.core.claim import Record
from claimpack.core.events import Event, Happening
from claimpack.core.money import ZERO, Number
from claimpack.errors import WrongState

State = Literal["draft", "filed", "questioned", "accepted", "refused", "paid", "written off", "withdrawn"]
PartState = Literal["held", "called back", "sent", "released", "scrapped"]

OPEN: tuple[State, ...] = ("draft", "filed", "questioned", "accepted", "refused")
"""States in which something is still to be done."""

PENDING: tuple[State, ...] = ("filed", "questioned", "accepted", "refused")
"""States of a claim that is filed and not settled."""

_FOLLOWS: Mapping[str, tuple[State, ...]] = {
    "edited": ("draft",),
    "corrected": ("filed", "questioned", "accepted", "refused"),
    "filed": ("draft", "questioned", "refused"),
    "received": ("filed", "questioned"),
    "answered": ("filed", "questioned", "refused"),
    "answer undone": ("questioned", "accepted", "refused"),
    "paid": ("filed", "questioned", "accepted", "paid"),
    "payment undone": ("accepted", "paid"),
    "charged back": ("paid", "accepted"),
    "written off": ("filed", "questioned", "accepted", "refused"),
    "withdrawn": ("draft", "filed", "questioned", "accepted", "refused"),
    "reopened": ("withdrawn", "written off"),
}

_PART_FOLLOWS: Mapping[str, tuple[PartState, ...]] = {
    "part moved": ("held", "called back", "released"),
    "part called back": ("held",),
    "part sent": ("called back",),
    "part released": ("held", "called back"),
    "part scrapped": ("released",),
}


_SAID = {"answer undone": "have its answer undone", "payment undone": "have its payment undone"}


class Payment(Record):
    """Money that came in, or was taken back when the amount is below zero."""

    on: date
    amount: Number


class HeldStanding(Record):
    """Where one held part stands; index counts from 1."""

    index: int
    state: PartState = "held"
    called_back: date | None = None
    send_by: date | None = None
    sent: date | None = None
    released: date | None = None
    scrapped: date | None = None
    missing: date | None = None
    rule: str = ""


class Standing(Record):
    """Where a claim stands; dates are the business days of its events, None where there was none."""

    state: State = "draft"
    before: State = "draft"
    opened: date | None = None
    filed: date | None = None
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
    written_off: Number = ZERO
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
    def owed(self) -> Decimal:
        """What the maker accepted to pay, else what was claimed."""
        return self.claimed if self.accepted is None else self.accepted

    @property
    def outstanding(self) -> Decimal:
        """What is still to come in; nothing on a claim that is not filed, settled, or refused for good."""
        if self.state not in PENDING:
            return ZERO
        return max(self.owed - self.paid - self.written_off, ZERO)

    def part(self, index: int) -> HeldStanding:
        """Where a held part stands."""
        return next((part for part in self.parts if part.index == index), HeldStanding(index=index))


def may_follow(standing: Standing, happening: Happening) -> None:
    """Refuse what does not follow from where a claim or one of its parts stands.

    Raises:
        WrongState: it does not follow; the message names the state and what may happen in it.

    Source: the states of a claim and of a held part are this tool's, no source.
    """
    if happening.what in _PART_FOLLOWS:
        part = standing.part(int(happening.facts["part"]))
        _refuse_unless(part.state in _PART_FOLLOWS[happening.what], happening.what, part.state, _PART_FOLLOWS)
    elif happening.what == "answered" and standing.state == "accepted" and not standing.answers:
        return  # it was accepted by paying short of the claim; the written answer comes after
    elif happening.what in _FOLLOWS:
        _refuse_unless(standing.state in _FOLLOWS[happening.what], happening.what, standing.state, _FOLLOWS)


def _refuse_unless(follows: bool, what: str, state: str, table: Mapping[str, tuple[str, ...]]) -> None:
    if follows:
        return
    possible = [kind for kind, states in table.items() if state in states and kind not in _SAID]
    subject = "the held part" if what.startswith("part ") else "the claim"
    step = _SAID.get(what, f"be {what.removeprefix('part ')}")
    raise WrongState(
        f"{subject} is {state}, so it cannot {step} now",
        f"From {state} it can be: {', '.join(kind.removeprefix('part ') for kind in possible) or 'nothing more'}.",
    )


def stand(events: Iterable[Event | Happening], start: Standing | None = None) -> Standing:
    """Where a claim stands after its events, in their order."""
    standing = start or Standing()
    for event in events:
        fold = _FOLDS.get(event.what)
        if fold:
            standing = standing.model_copy(update=fold(standing, event))
    return standing


Told = Event | Happening
Change = dict[str, object]


def _opened(_standing: Standing, event: Told) -> Change:
    return {"opened": event.on}


def _filed(standing: Standing, event: Told) -> Change:
    facts = event.facts
    return {
        **UNANSWERED,
        "state": "filed",
        "filed": event.on,
        "received": date.fromisoformat(facts["received"]) if facts.get("received") else None,
        "reference": facts.get("reference", standing.reference),
        "packet": facts.get("packet", ""),
        "filed_revision": int(facts.get("revision", "0")),
        "claimed": Decimal(facts.get("claimed", "0")),
        "currency": facts.get("currency", ""),
    }


def _answered(standing: Standing, event: Told) -> Change:
    facts = event.facts
    answer = Answer(
        on=event.on,
        answer=facts["answer"],
        amount=Decimal(facts["amount"]) if facts.get("amount") else None,
        because=event.why,
        form=facts.get("form") == "yes",
    )
    change = left_by((*standing.answers, answer), standing.claimed)
    after = standing.model_copy(update=change)
    settled = after.state == "accepted" and standing.payments and not after.outstanding
    return {**change, "state": "paid"} if settled else change


_UNFILED: Change = {
    **UNANSWERED,
    "state": "draft",
    "filed": None,
    "received": None,
    "packet": "",
    "filed_revision": 0,
    "currency": "",
    "claimed": ZERO,
}


def _answer_undone(standing: Standing, _event: Told) -> Change:
    return _stood_again(standing, standing.answers[:-1], standing.payments)


def _payment_undone(standing: Standing, _event: Told) -> Change:
    return _stood_again(standing, standing.answers, standing.payments[:-1])


def _stood_again(standing: Standing, answers: tuple[Answer, ...], payments: tuple[Payment, ...]) -> Change:
    """Where a claim stands with other answers and payments than it had."""
    change = {**left_by(answers, standing.claimed), "payments": payments}
    if not payments:
        return change
    after = standing.model_copy(update={**change, "state": "accepted"})
    settled = "paid" if after.outstanding == 0 else "accepted"
    return {**change, "state": settled, "accepted_on": after.accepted_on or payments[0].on}


def _paid(standing: Standing, event: Told) -> Change:
    amount = Decimal(event.facts["amount"])
    after = standing.model_copy(
        update={"payments": (*standing.payments, Payment(on=event.on, amount=amount)), "state": "accepted"}
    )
    settled = after.outstanding == 0
    return {
        "payments": after.payments,
        "state": "paid" if settled else "accepted",
        "accepted_on": standing.accepted_on or event.on,
    }


def _charged_back(standing: Standing, event: Told) -> Change:
    taken = Payment(on=event.on, amount=-Decimal(event.facts["amount"]))
    return {"payments": (*standing.payments, taken), "state": "accepted", "because": event.why}


def _written_off(standing: Standing, event: Told) -> Change:
    amount = Decimal(event.facts.get("amount", "0"))
    return {"state": "written off", "before": standing.state, "written_off": standing.written_off + amount}


def _withdrawn(standing: Standing, _event: Told) -> Change:
    return {"state": "withdrawn", "before": standing.state}


def _reopened(standing: Standing, _event: Told) -> Change:
    if standing.state == "withdrawn":
        return _UNFILED
    return {"state": standing.before, "written_off": ZERO}


def _part(change: Callable[[Told], Change]) -> Callable[[Standing, Told], Change]:
    def fold(standing: Standing, event: Told) -> Change:
        index = int(event.facts["part"])
        part = standing.part(index).model_copy(update=change(event))
        others = [other for other in standing.parts if other.index != index]
        return {"parts": tuple(sorted([*others, part], key=lambda part: part.index))}

    return fold


def _counted(standing: Standing, event: Told) -> Change:
    """A part not found at a count is missing from that day on, until a count finds it."""
    missing = event.on if event.facts.get("found") == "no" else None
    return _part(lambda _event: {"missing": missing})(standing, event)


def _called_back(event: Told) -> Change:
    send_by = event.facts.get("send_by")
    return {
        "state": "called back",
        "called_back": event.on,
        "send_by": date.fromisoformat(send_by) if send_by else None,
    }


_FOLDS: Mapping[str, Callable[[Standing, Told], Change]] = {
    "opened": _opened,
    "imported": _opened,
    "filed": _filed,
    "received": lambda _standing, event: {"received": event.on},
    "shelf counted": _counted,
    "answered": _answered,
    "answer undone": _answer_undone,
    "paid": _paid,
    "payment undone": _payment_undone,
    "charged back": _charged_back,
    "written off": _written_off,
    "withdrawn": _withdrawn,
    "reopened": _reopened,
    "part called back": _part(_called_back),
    "part sent": _part(lambda event: {"state": "sent", "sent": event.on}),
    "part released": _part(
        lambda event: {"state": "released", "released": event.on, "rule": event.facts.get("rule", "")}
    ),
    "part scrapped": _part(lambda event: {"state": "scrapped", "scrapped": event.on}),
}
