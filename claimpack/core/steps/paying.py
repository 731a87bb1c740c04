"""Paying and ending: money in or taken back, entries made by mistake, a claim given up or taken up again."""

from __future__ import annotations

from decimal import Decimal

from claimpack.core.events.event_kinds import EventName
from claimpack.core.events.events import NewEvent
from claimpack.core.events.standing import Standing
from claimpack.core.events.transitions import may_follow
from claimpack.core.steps.settling import Step, amount_in, recorded, refuse_without_reason
from claimpack.core.values.money import exact, in_money, plain
from claimpack.errors import BadInput, WrongState


def paid(standing: Standing, step: Step, written: str, anyway: bool = False, memo: str = "") -> NewEvent:
    """What is recorded of a payment.

    Args:
        standing: where the claim stands.
        step: the day the money came in, and what is to be said of it.
        written: the amount.
        anyway: whether more than is outstanding, or the same once more, is taken.
        memo: the number of the credit memo or transfer it came with.

    Raises:
        WrongState: the claim is not waiting for money.
        BadInput: the amount is none, is recorded of that day already, or is more than is outstanding.

    Source: common practice, no source.
    """
    may_follow(standing, NewEvent(what="paid", on=step.on), step.claim)
    amount = amount_in(written, "AMOUNT", standing.currency)
    if not anyway:
        _refuse_doublet(standing, step, amount, "a payment")
    if amount > standing.outstanding and not anyway:
        gives_in = f"if the maker reversed, record that first: claimpack answer {step.claim} part --amount MORE; "
        raise BadInput(
            f"AMOUNT: {_money(standing, amount)} is more than is outstanding, {_money(standing, standing.outstanding)}",
            "It may be meant for another claim, or have been entered before.",
            f"Correct it; {gives_in if standing.refused_rest else ''}or say why it is right with --anyway REASON.",
        )
    return recorded("paid", step, {"amount": plain(amount), "memo": memo})


def charged_back(standing: Standing, step: Step, written: str, anyway: bool = False, memo: str = "") -> NewEvent:
    """What is recorded of money the maker took back.

    Args:
        standing: where the claim stands.
        step: the day it was taken back, and the maker's reason.
        written: the amount.
        anyway: whether the same is taken back once more.
        memo: the number of the memo that says so.

    Raises:
        WrongState: nothing has been paid.
        BadInput: there is no reason; the amount is none, is recorded of that day already, or is more than was paid.

    Source: common practice, no source.
    """
    may_follow(standing, NewEvent(what="charged back", on=step.on), step.claim)
    refuse_without_reason(step)
    amount = amount_in(written, "AMOUNT", standing.currency)
    if not anyway:
        _refuse_doublet(standing, step, -amount, "a charge-back")
    if amount > standing.paid:
        raise BadInput(
            f"AMOUNT: {_money(standing, amount)} is more than was paid, {_money(standing, standing.paid)}",
            "Nobody can take back what was never paid.",
            "Correct the amount.",
        )
    return recorded("charged back", step, {"amount": plain(amount), "memo": memo})


def _refuse_doublet(standing: Standing, step: Step, amount: Decimal, what: str) -> None:
    """The same sum on the same day is most likely one entry made twice; below zero it was taken back."""
    if any((payment.on, payment.amount) == (step.on, amount) for payment in standing.payments):
        raise BadInput(
            f"AMOUNT: {what} of {_money(standing, abs(amount))} on {step.on} is already recorded",
            "Entered twice, it would count twice.",
            "If it did happen twice, say why with --anyway REASON.",
        )


def _money(standing: Standing, amount: Decimal) -> str:
    return in_money(amount, standing.currency)


def written_off(standing: Standing, step: Step, rest_only: bool = False) -> NewEvent:
    """What is recorded when the shop gives up what is outstanding, and what the maker refused of a claim.

    Args:
        standing: where the claim stands.
        step: the day, and why.
        rest_only: whether only what the maker refused is given up, and what it accepted is still waited for.

    Raises:
        WrongState: nothing can be written off.
        BadInput: there is no reason, or no part of it is refused and still open.

    Source: common practice, no source.
    """
    may_follow(standing, NewEvent(what="written off", on=step.on), step.claim)
    refuse_without_reason(step)
    rest = standing.refused_rest
    if rest_only and not rest:
        raise BadInput(
            "--rest: no part of the claim is refused and still open",
            "It gives up what the maker did not accept when it accepted a part, and nothing else.",
            f"Leave it out to give up what is outstanding; see: claimpack show {step.claim}",
        )
    amount = rest if rest_only else rest + standing.outstanding
    facts = {"amount": plain(amount) if amount else "", "rest": plain(rest) if rest else ""}
    return recorded("written off", step, facts)


def withdrawn(standing: Standing, step: Step) -> NewEvent:
    """What is recorded when the shop takes a claim back.

    Raises:
        WrongState: it is settled, or money came in for it.
        BadInput: there is no reason.

    Source: a rule of this tool's, no source.
    """
    return plainly("withdrawn", standing, step)


def reopened(standing: Standing, step: Step) -> NewEvent:
    """What is recorded when a claim that was withdrawn or written off, whole or in part, is taken up again.

    Raises:
        WrongState: nothing of it was.
        BadInput: there is no reason.

    Source: a rule of this tool's, no source.
    """
    return plainly("reopened", standing, step)


def plainly(what: EventName, standing: Standing, step: Step) -> NewEvent:
    """What is recorded of an event that has no facts of its own, its reason alone.

    Raises:
        WrongState: it does not follow from where the claim stands.
        BadInput: there is no reason.
    """
    may_follow(standing, NewEvent(what=what, on=step.on), step.claim)
    refuse_without_reason(step)
    return recorded(what, step, {})


def answer_undone(standing: Standing, step: Step) -> NewEvent:
    """What is recorded when the last answer was entered by mistake.

    Raises:
        WrongState: there is no answer to undo.
        BadInput: there is no reason.

    Source: a rule of this tool's, no source.
    """
    may_follow(standing, NewEvent(what="answer undone", on=step.on), step.claim)
    refuse_without_reason(step)
    if not standing.answers:
        raise WrongState(
            "the claim has no answer that could be undone",
            "It counts as accepted because money came in.",
            f"Undo the payment: claimpack pay {step.claim} --undo --because TEXT",
        )
    last = standing.answers[-1]
    return recorded("answer undone", step, {"answer": last.answer, "answered": last.on.isoformat()})


def payment_undone(standing: Standing, step: Step) -> NewEvent:
    """What is recorded when the last payment, or the last charge-back, was entered by mistake.

    Raises:
        WrongState: there is none to undo.
        BadInput: there is no reason.

    Source: a rule of this tool's, no source.
    """
    may_follow(standing, NewEvent(what="payment undone", on=step.on), step.claim)
    refuse_without_reason(step)
    if not standing.payments:
        raise WrongState("the claim has no payment that could be undone", do=f"See: claimpack history {step.claim}")
    last = standing.payments[-1]
    return recorded("payment undone", step, {"amount": plain(last.amount), "paid": last.on.isoformat()})


def what_was_undone(undone: NewEvent, currency: str) -> str:
    """The answer or the payment that was taken back, with its day, in a sentence; empty for any other step.

    Args:
        undone: what was recorded of the step.
        currency: the currency of the claim.
    """
    facts = undone.facts
    if undone.what == "answer undone":
        return f"Undone: the answer {facts['answer']} of {facts['answered']}."
    if undone.what != "payment undone":
        return ""
    amount = exact(facts["amount"])
    kind = "charge-back" if amount.is_signed() else "payment"
    return f"Undone: the {kind} of {in_money(abs(amount), currency)} of {facts['paid']}."
