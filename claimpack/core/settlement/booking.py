"""What the rows of a statement come to for a claim, and what is recorded of it or takes it back."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.events.events import Event, NewEvent
from claimpack.core.events.fold import Folding
from claimpack.core.events.standing import Payment, Standing
from claimpack.core.settlement.statement import By, KnownClaim, Outcome, Statement, StatementMatch, StatementRow
from claimpack.core.steps import paying
from claimpack.core.steps.settling import Step, refuse_impossible_day
from claimpack.core.values.money import ZERO, in_money, plain
from claimpack.errors import BadInput, ClaimpackError, WrongState


def matched(
    statement: Statement, claim: KnownClaim, rows: tuple[StatementRow, ...], by: By, anyway: str = ""
) -> StatementMatch:
    """What rows about one claim come to; money in and money taken back are kept apart.

    Source: common practice, no source.
    """
    paid = sum((max(row.amount, ZERO) for row in rows), ZERO)
    back = sum((max(-row.amount, ZERO) for row in rows), ZERO)
    found = StatementMatch(_kind(claim.standing, paid, back), claim, rows, by, paid, back)
    # a statement that says the same twice was more likely pasted twice than paid twice
    twice = next((row for row in rows if row.same_as), None)
    if twice and not anyway:
        why = f"row {twice.place} says the same as row {twice.same_as}; to count one: --once; both: --anyway REASON"
        return found._replace(kind="cannot be booked", reasons=(why,))
    if not paid and not back:
        return found._replace(reasons=("nothing is paid for it",))
    try:
        return found._replace(events=_events(statement, found, anyway))
    except ClaimpackError as error:
        why = error.what.removeprefix("AMOUNT: ").removeprefix("--on: ")
        return found._replace(kind="cannot be booked", reasons=(why,))


def _kind(standing: Standing, paid: Decimal, back: Decimal) -> Outcome:
    # a row that takes back and one that pays are told as what came in; only money back alone is a charge-back
    if back and not paid:
        return "charge-back"
    if paid > standing.outstanding:
        return "over"
    return "short" if paid < standing.outstanding else "paid in full"


def _events(statement: Statement, found: StatementMatch, anyway: str) -> tuple[NewEvent, ...]:
    """The payment and the charge-back; nothing of what is over, as long as nobody says why it is right."""
    standing, number, memo = found.claim.standing, found.claim.number, statement.memo
    if standing.currency and statement.currency and standing.currency != statement.currency:
        raise BadInput(f"it was claimed in {standing.currency}, and the statement is read in {statement.currency}")
    # several rows are one payment on the day the last of it came
    on = max((row.on for row in found.rows if row.on), default=statement.on)
    why = found.because or (anyway if found.kind == "over" else "")
    events = []
    if found.paid:
        step = Step(on=on, why=why, claim=number)
        events.append(paying.paid(standing, step, plain(found.paid), anyway=found.kind == "over", memo=memo))
    # more than is owed waits for a word of the shop, and its charge-back with it
    if found.kind == "over" and not anyway:
        return ()
    if found.charged_back:
        step = Step(on=on, why=why or f"memo {memo}", claim=number)
        # money in comes first: what is taken back may be of it
        had = _after(standing, events)
        events.append(paying.charged_back(had, step, plain(found.charged_back), memo=memo))
    for event in events:
        refuse_impossible_day(standing, event, statement.on)
    mark = {"statement": statement.mark}
    return tuple(event.model_copy(update={"facts": {**event.facts, **mark}}) for event in events)


def _after(standing: Standing, events: Sequence[NewEvent]) -> Standing:
    come = tuple(Payment(on=event.on, amount=event.facts["amount"]) for event in events)
    if not come:
        return standing
    return standing.model_copy(update={"payments": (*standing.payments, *come), "state": "paid"})


class Booked(NamedTuple):
    """What a claim has of a statement: its payments that stand, and whether money moved since."""

    payments: tuple[Payment, ...]
    is_last: bool


def booked_of(standing: Standing, memo: str = "", mark: str = "") -> Booked:
    """What a claim has of the statement with this memo number, or the mark of this file; nothing of what was undone."""
    own = [
        payment
        for payment in standing.payments
        if payment.statement and ((memo and payment.memo == memo) or (mark and payment.statement == mark))
    ]
    return Booked(tuple(own), not own or list(standing.payments[-len(own) :]) == own)


def undoing(history: Sequence[Event], memo: str, today: date, why: str) -> tuple[NewEvent, ...]:
    """What takes back everything that a claim has of a statement, the last first.

    Raises:
        WrongState: money moved since, or it does not follow from where the claim stands.

    Source: a rule of this tool's, no source.
    """
    folding, number = Folding(history), history[-1].claim
    own = booked_of(folding.standing, memo)
    if not own.is_last:
        raise WrongState(
            f"{number}: money moved since memo {memo}",
            "The payment that is taken back must be the last one.",
            f"See: claimpack history {number}",
        )
    back = []
    for payment in reversed(own.payments):
        event = paying.payment_undone(folding.standing, Step(on=today, why=why, claim=number))
        mark = {"memo": memo, "statement": payment.statement}
        back.append(event.model_copy(update={"facts": {**event.facts, **mark}}))
        folding.take(back[-1])
    return tuple(back)


def total_of(matches: Sequence[StatementMatch], currency: str) -> str:
    """What a statement's matches come to that are booked, in words."""
    booked = [one for one in matches if one.events]
    return in_money(sum((one.paid - one.charged_back for one in booked), ZERO), currency)


LEFT_OUT = "left_out"
"""The fact of the first event of a statement: its rows that were booked on no claim."""


class LeftOut(NamedTuple):
    """A row that was booked on no claim: where it stood in the file, its amount, what it named."""

    place: int
    amount: Decimal
    named: str


def with_left_out(events: tuple[NewEvent, ...], left: Sequence[LeftOut]) -> tuple[NewEvent, ...]:
    """The events of a claim, the first with the rows that its statement leaves out."""
    if not left:
        return events
    # as a person reads it in the history, and as it is read back
    told = "; ".join(f"{row.place} {plain(row.amount)} {row.named.replace(';', ',')}" for row in left)
    first, *others = events
    return (first.model_copy(update={"facts": {**first.facts, LEFT_OUT: told}}), *others)


def left_out(event: Event) -> list[LeftOut]:
    """The rows that a statement left out, as its first event tells them."""
    told = event.facts.get(LEFT_OUT, "")
    rows = (each.split(" ", 2) for each in told.split("; ") if told)
    return [LeftOut(int(place), Decimal(amount), named) for place, amount, named in rows]


class BookedStatement(NamedTuple):
    """A statement that is booked: its memo, the last day of its payments, its claims, what they come to.

    `left` are the rows that were left out of it.
    """

    memo: str
    on: date
    currency: str
    claims: tuple[str, ...]
    amount: Decimal
    left: tuple[LeftOut, ...]


def booked_statements(standings: Mapping[str, Standing], events: Iterable[Event]) -> list[BookedStatement]:
    """The statements that are booked and stand, the latest first.

    Args:
        standings: where their claims stand, by number.
        events: every event that tells of a statement, the latest first.
    """
    left: dict[str, list[LeftOut]] = {}
    for event in events:
        # what was left out of a statement that was taken back may be booked since
        if LEFT_OUT in event.facts or event.what == "payment undone":
            left.setdefault(event.facts["statement"], left_out(event))
    found: dict[str, list[tuple[str, str, Payment]]] = {}
    for number, standing in standings.items():
        for payment in standing.payments:
            if payment.statement:
                found.setdefault(payment.statement, []).append((number, standing.currency, payment))
    booked = [
        BookedStatement(
            some[0][2].memo,
            max(payment.on for *_, payment in some),
            some[0][1],
            tuple(dict.fromkeys(number for number, *_ in some)),
            sum((payment.amount for *_, payment in some), ZERO),
            tuple(left.get(mark, ())),
        )
        for mark, some in found.items()
    ]
    return sorted(booked, key=lambda one: (one.on, one.memo), reverse=True)
