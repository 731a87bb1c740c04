"""Settling: what the maker answers, and the days of all that follows; decided here before it is recorded."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import get_args

from claimpack.core.events.day_order import refuse_before_what_it_follows, refuse_received_after_heard
from claimpack.core.events.event_kinds import EVENT_KINDS, EventName
from claimpack.core.events.events import NewEvent
from claimpack.core.events.standing import AnswerKind, Standing
from claimpack.core.events.transitions import CLAIM, may_follow
from claimpack.core.facts.record import Record
from claimpack.core.values.days import Day
from claimpack.core.values.money import exact, fits, in_money, minor_unit, plain, rounded
from claimpack.core.values.words import Line, Text, did_you_mean
from claimpack.errors import BadInput


class Step(Record):
    """A step somebody takes with a claim: the business day it counts from, why, and the claim's number for messages."""

    on: Day
    why: Text = ""
    claim: Line = CLAIM


def amount_in(written: str, name: str, currency: str) -> Decimal:
    """An amount above zero as it was written, in whole coins of the currency.

    Raises:
        BadInput: it is missing or no amount, is zero or below, or has more decimals than the currency.
    """
    if not written.strip():
        raise BadInput(f"{name} is missing: how much is it?", do="Write digits with a point, as in 1234.50.")
    try:
        amount = exact(written)
    except ValueError as error:
        raise BadInput(f"{name}: {error}", do="Write digits with a point, as in 1234.50.") from None
    if amount <= 0:
        raise BadInput(
            f"{name}: {plain(amount)} is not above zero", "An amount that came in is above zero.", "Correct the amount."
        )
    if currency and not fits(amount, currency):
        raise BadInput(
            f"{name}: {plain(amount)} has more decimals than {currency}, which has {minor_unit(currency)}",
            "Nobody can pay a part of the smallest coin.",
            "Correct the amount.",
        )
    return rounded(amount, currency) if currency else amount


def refuse_day_ahead(on: date, today: date, option: str = "--on") -> None:
    """Refuse a day still to come for what is said to have happened.

    Raises:
        BadInput: with the two days.

    Source: a rule of this tool's, no source.
    """
    if on > today:
        raise BadInput(
            f"{option}: {on} is still to come; today is {today}",
            "The book records what has happened.",
            "Correct the day; or say which day it is with --today.",
        )


def refuse_impossible_day(standing: Standing, new_event: NewEvent, today: date) -> None:
    """Refuse a day still to come, or one before the claim was filed, received, answered or paid for what comes after.

    Raises:
        BadInput: with the two days.

    Source: a rule of this tool's, no source.
    """
    on = new_event.on
    refuse_day_ahead(on, today)
    since_filing = EVENT_KINDS[new_event.what].since_filing
    # a part's own days may lie before filing: it is moved and scrapped by the shop
    if standing.filed and on < standing.filed and since_filing:
        raise BadInput(
            f"--on: {on} is before {standing.filed}, the day the claim was filed",
            since_filing,
            "Correct the day.",
        )
    refuse_before_what_it_follows(standing, new_event)


def received(standing: Standing, step: Step) -> NewEvent:
    """What is recorded of the day the maker received a claim; it may be said again to correct it.

    Raises:
        WrongState: the claim is not filed, or answered for good.
        BadInput: the maker asked about it before that day.

    Source: common practice, no source.
    """
    may_follow(standing, NewEvent(what="received", on=step.on), step.claim)
    refuse_received_after_heard(standing, step.on)
    return recorded("received", step, {})


def answered(standing: Standing, step: Step, answer: str, amount: str, form: bool) -> NewEvent:
    """What is recorded of the maker's answer.

    Args:
        standing: where the claim stands.
        step: the day the answer came in, and the maker's reason.
        answer: accepted, part, refused or questioned.
        amount: what the maker accepts, for a part.
        form: whether it is refused for a matter of form, which can be put right.

    Raises:
        WrongState: the claim is not waiting for an answer.
        BadInput: the answer is none or recorded already, or the amount or --form does not go with it.

    Source: common practice, no source.
    """
    # the kinds of answer have one home, which help and messages read as well
    kinds = get_args(AnswerKind)
    if not answer:
        raise BadInput(
            f"ANSWER is missing: what did the maker say to claim {step.claim}?",
            f"It is one of {', '.join(kinds)}.",
            f"As in: claimpack answer {step.claim} accepted",
        )
    if answer not in kinds:
        raise BadInput(
            f"{answer!r} is no answer of a maker's: it is one of {', '.join(kinds)}",
            do=did_you_mean(answer, kinds),
        )
    may_follow(standing, NewEvent(what="answered", on=step.on), step.claim)
    if form and answer != "refused":
        raise BadInput(
            f"--form goes with refused, not with {answer}",
            "It says that form alone was wrong, and that the claim can be put right.",
            "Leave it out.",
        )
    accepted = _accepted(standing, step, answer, amount)
    _refuse_twice(standing, step, answer, accepted)
    _refuse_less(standing, step, answer, accepted)
    facts = {"answer": answer, "form": "yes" if form else ""}
    if accepted is not None:
        facts["amount"] = plain(accepted)
    return recorded("answered", step, facts)


def _accepted(standing: Standing, step: Step, answer: str, written: str) -> Decimal | None:
    if answer == "part" and not written:
        raise BadInput(
            "--amount is missing: how much does the maker accept?",
            "The rest is not outstanding any more.",
            f"Add it, as in: claimpack answer {step.claim} part --amount 120.00",
        )
    if not written:
        return None
    amount = amount_in(written, "--amount", standing.currency)
    # "accepted" with the full amount says the same twice and does no harm
    if answer not in ("part", "accepted") or (answer == "accepted" and amount != standing.claimed):
        raise BadInput(
            f"--amount goes with part, not with {answer}",
            f"Accepted means all of what was claimed: {_money(standing, standing.claimed)}.",
            "Leave it out, or answer: part",
        )
    if amount > standing.claimed:
        raise BadInput(
            f"--amount: {_money(standing, amount)} is more than was claimed, {_money(standing, standing.claimed)}",
            "A part is at most the whole.",
            "Correct the amount.",
        )
    return amount


def _refuse_twice(standing: Standing, step: Step, answer: str, accepted: Decimal | None) -> None:
    """One answer entered twice would count twice among the refusals."""
    last = standing.answers[-1] if standing.answers else None
    # one letter entered by two people; an answer may well be repeated on another day
    if last and (last.answer, last.on, last.amount) == (answer, step.on, accepted):
        raise BadInput(
            f"the answer {answer} of {step.on} is already recorded",
            "Entered twice, it would count as two answers of the maker's.",
            f"To change it, take it back first: {_taking_back(standing, step)}",
        )


def _refuse_less(standing: Standing, step: Step, answer: str, accepted: Decimal | None) -> None:
    """After a part was accepted, the maker can only give in to more of the rest."""
    # what was accepted is a debt: the maker may add to it, and takes nothing of it back by an answer
    if not standing.refused_rest:
        return
    if answer not in ("part", "accepted"):
        raise BadInput(
            f"{answer} cannot follow: {_money(standing, standing.owed)} is accepted already",
            f"The other {_money(standing, standing.refused_rest)} is refused; the maker can only accept more of it.",
            f"Resubmit it: claimpack file {step.claim}; if that answer was a mistake: {_taking_back(standing, step)}",
        )
    if accepted is not None and accepted <= standing.owed:
        raise BadInput(
            f"--amount: {_money(standing, accepted)} is not more than is accepted already, "
            f"{_money(standing, standing.owed)}",
            "It says how much the maker accepts in all.",
            f"Correct the amount; if that answer was a mistake: {_taking_back(standing, step)}",
        )


def _taking_back(standing: Standing, step: Step) -> str:
    answer = f"claimpack answer {step.claim} --undo --because TEXT"
    # the payment rests on the answer, so that one goes first
    return f"claimpack pay {step.claim} --undo --because TEXT, then {answer}" if standing.state == "paid" else answer


def refuse_without_reason(step: Step, such_as: str = "Maker insists on its invoice.") -> None:
    """Refuse a step that takes something back without a reason; the message shows one such as may be given.

    Raises:
        BadInput: there is none.
    """
    if not step.why:
        raise BadInput(
            "--because is missing: why is it done?",
            "Whoever reads the history later has nothing else to go by.",
            f"Add it, as in: --because '{such_as}'",
        )


def recorded(what: EventName, step: Step, facts: Mapping[str, str]) -> NewEvent:
    """What is recorded of a step; facts that say nothing are left out."""
    return NewEvent(what=what, on=step.on, why=step.why, facts={name: fact for name, fact in facts.items() if fact})


def _money(standing: Standing, amount: Decimal) -> str:
    return in_money(amount, standing.currency)
