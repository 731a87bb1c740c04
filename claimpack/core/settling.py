"""Settling: what the maker answers and pays, and how a claim ends; each decided here before it is recorded."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import get_args

from claimpack.core.answers import AnswerKind
from claimpack.core.claim import Record
from claimpack.core.days import Day
from claimpack.core.events import Happening, Kind
from claimpack.core.money import exact, fits, in_money, minor_unit, plain, rounded
from claimpack.core.states import Standing, may_follow
from claimpack.core.words import Text, did_you_mean
from claimpack.errors import BadInput, WrongState


class Step(Record):
    """A step somebody takes with a filed claim: the business day it counts from, and why."""

    on: Day
    why: Text = ""


def amount_in(written: str, name: str, currency: str) -> Decimal:
    """An amount above zero as it was written, in whole coins of the currency.

    Raises:
        BadInput: it is no amount, is zero or below, or has more decimals than the currency.
    """
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


def refuse_impossible_day(standing: Standing, on: date, today: date) -> None:
    """Refuse a day before the claim was filed, or one still to come.

    Raises:
        BadInput: with the two days.

    Source: a rule of this tool's, no source.
    """
    if on > today:
        raise BadInput(
            f"--on: {on} is still to come; today is {today}",
            "The book records what has happened.",
            "Correct the day; or say which day it is with --today.",
        )
    if standing.filed and on < standing.filed:
        raise BadInput(
            f"--on: {on} lies before {standing.filed}, the day the claim was filed",
            "The maker cannot act on a claim it does not have.",
            "Correct the day.",
        )


def received(standing: Standing, step: Step) -> Happening:
    """What is recorded of the day the maker received a claim; it may be said again to correct it.

    Raises:
        WrongState: the claim is not filed, or answered for good.

    Source: common practice, no source.
    """
    may_follow(standing, Happening(what="received", on=step.on))
    return _happening("received", step, {})


def answered(standing: Standing, step: Step, answer: str, amount: str, form: bool) -> Happening:
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
    kinds = get_args(AnswerKind)
    if answer not in kinds:
        raise BadInput(
            f"{answer!r} is no answer of a maker's: it is one of {', '.join(kinds)}",
            do=did_you_mean(answer, kinds) or "Choose one of them.",
        )
    may_follow(standing, Happening(what="answered", on=step.on))
    _refuse_twice(standing, step, answer)
    if form and answer != "refused":
        raise BadInput(
            f"--form goes with refused, not with {answer}",
            "It says that form alone was wrong, and that the claim can be put right.",
            "Leave it out.",
        )
    facts = {"answer": answer, "form": "yes" if form else ""}
    accepted = _accepted(standing, answer, amount)
    if accepted is not None:
        facts["amount"] = plain(accepted)
    return _happening("answered", step, facts)


def _refuse_twice(standing: Standing, step: Step, answer: str) -> None:
    """One answer entered twice would count twice among the refusals."""
    last = standing.answers[-1] if standing.answers else None
    if last and (last.answer, last.on) == (answer, step.on):
        raise BadInput(
            f"the answer {answer} of {step.on} is recorded already",
            "Entered twice, it would count as two answers of the maker's.",
            "To change it, take it back first: claimpack answer CLAIM --undo --because REASON",
        )


def _accepted(standing: Standing, answer: str, written: str) -> Decimal | None:
    if answer == "part" and not written:
        raise BadInput(
            "--amount is missing: how much does the maker accept?",
            "The rest is not outstanding any more.",
            "Add it, as in: answer CLAIM part --amount 120.00",
        )
    if not written:
        return None
    amount = amount_in(written, "--amount", standing.currency)
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


def paid(standing: Standing, step: Step, written: str, anyway: bool = False) -> Happening:
    """What is recorded of a payment.

    Args:
        standing: where the claim stands.
        step: the day the money came in, and what is to be said of it.
        written: the amount.
        anyway: whether more than is outstanding is taken.

    Raises:
        WrongState: the claim is not waiting for money.
        BadInput: the amount is none, or more than is outstanding.

    Source: common practice, no source.
    """
    may_follow(standing, Happening(what="paid", on=step.on))
    amount = amount_in(written, "AMOUNT", standing.currency)
    if amount > standing.outstanding and not anyway:
        raise BadInput(
            f"AMOUNT: {_money(standing, amount)} is more than is outstanding, {_money(standing, standing.outstanding)}",
            "It may be meant for another claim, or have been entered before.",
            "Correct it; or say why it is right with --anyway REASON.",
        )
    return _happening("paid", step, {"amount": plain(amount)})


def charged_back(standing: Standing, step: Step, written: str) -> Happening:
    """What is recorded of money the maker took back.

    Raises:
        WrongState: nothing has been paid.
        BadInput: there is no reason, or the amount is none, or more than was paid.

    Source: common practice, no source.
    """
    may_follow(standing, Happening(what="charged back", on=step.on))
    _refuse_without_reason(step)
    amount = amount_in(written, "AMOUNT", standing.currency)
    if amount > standing.paid:
        raise BadInput(
            f"AMOUNT: {_money(standing, amount)} is more than was paid, {_money(standing, standing.paid)}",
            "Nobody can take back what was never paid.",
            "Correct the amount.",
        )
    return _happening("charged back", step, {"amount": plain(amount)})


def answer_undone(standing: Standing, step: Step) -> Happening:
    """What is recorded when the last answer was entered by mistake.

    Raises:
        WrongState: there is no answer to undo.
        BadInput: there is no reason.

    Source: a rule of this tool's, no source.
    """
    may_follow(standing, Happening(what="answer undone", on=step.on))
    _refuse_without_reason(step)
    if not standing.answers:
        raise WrongState(
            "the claim has no answer that could be undone",
            "It counts as accepted because money came in.",
            "Undo the payment: claimpack pay CLAIM --undo --because TEXT",
        )
    last = standing.answers[-1]
    return _happening("answer undone", step, {"answer": last.answer, "answered": last.on.isoformat()})


def payment_undone(standing: Standing, step: Step) -> Happening:
    """What is recorded when the last payment, or the last charge-back, was entered by mistake.

    Raises:
        WrongState: there is none to undo.
        BadInput: there is no reason.

    Source: a rule of this tool's, no source.
    """
    may_follow(standing, Happening(what="payment undone", on=step.on))
    _refuse_without_reason(step)
    if not standing.payments:
        raise WrongState("the claim has no payment that could be undone", do="See: claimpack history CLAIM")
    last = standing.payments[-1]
    return _happening("payment undone", step, {"amount": plain(last.amount), "paid": last.on.isoformat()})


def written_off(standing: Standing, step: Step) -> Happening:
    """What is recorded when the shop gives up what is outstanding.

    Raises:
        WrongState: nothing can be written off.
        BadInput: there is no reason.

    Source: common practice, no source.
    """
    may_follow(standing, Happening(what="written off", on=step.on))
    _refuse_without_reason(step)
    return _happening("written off", step, {"amount": plain(standing.outstanding)} if standing.outstanding else {})


def withdrawn(standing: Standing, step: Step) -> Happening:
    """What is recorded when the shop takes a claim back.

    Raises:
        WrongState: it is settled.
        BadInput: there is no reason.

    Source: a rule of this tool's, no source.
    """
    return _plainly("withdrawn", standing, step)


def reopened(standing: Standing, step: Step) -> Happening:
    """What is recorded when a claim that was withdrawn or written off is taken up again.

    Raises:
        WrongState: it is neither.
        BadInput: there is no reason.

    Source: a rule of this tool's, no source.
    """
    return _plainly("reopened", standing, step)


def _plainly(what: Kind, standing: Standing, step: Step) -> Happening:
    may_follow(standing, Happening(what=what, on=step.on))
    _refuse_without_reason(step)
    return _happening(what, step, {})


def _refuse_without_reason(step: Step) -> None:
    if not step.why:
        raise BadInput(
            "--because is missing: why is it done?",
            "Whoever reads the history later has nothing else to go by.",
            "Add it, as in: --because 'Maker insists on its invoice.'",
        )


def _happening(what: Kind, step: Step, facts: Mapping[str, str]) -> Happening:
    return Happening(what=what, on=step.on, why=step.why, facts={name: fact for name, fact in facts.items() if fact})


def _money(standing: Standing, amount: Decimal) -> str:
    return in_money(amount, standing.currency)
