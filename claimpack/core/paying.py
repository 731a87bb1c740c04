"""Paying: money that comes in for a claim, and money the maker takes back; each decided before it is recorded."""

from __future__ import annotations

from decimal import Decimal

from claimpack.core.events import Happening
from claimpack.core.following import may_follow
from claimpack.core.money import in_money, plain
from claimpack.core.settling import Step, amount_in, recorded, refuse_without_reason
from claimpack.core.states import Standing
from claimpack.errors import BadInput


def paid(standing: Standing, step: Step, written: str, anyway: bool = False) -> Happening:
    """What is recorded of a payment.

    Args:
        standing: where the claim stands.
        step: the day the money came in, and what is to be said of it.
        written: the amount.
        anyway: whether more than is outstanding, or the same once more, is taken.

    Raises:
        WrongState: the claim is not waiting for money.
        BadInput: the amount is none, is recorded of that day already, or is more than is outstanding.

    Source: common practice, no source.
    """
    may_follow(standing, Happening(what="paid", on=step.on), step.claim)
    amount = amount_in(written, "AMOUNT", standing.currency)
    if not anyway:
        _refuse_doublet(standing, step, amount, "a payment")
    if amount > standing.outstanding and not anyway:
        gives_in = f"if the maker gave in, record that first: claimpack answer {step.claim} part --amount MORE; "
        raise BadInput(
            f"AMOUNT: {_money(standing, amount)} is more than is outstanding, {_money(standing, standing.outstanding)}",
            "It may be meant for another claim, or have been entered before.",
            f"Correct it; {gives_in if standing.refused_rest else ''}or say why it is right with --anyway REASON.",
        )
    return recorded("paid", step, {"amount": plain(amount)})


def charged_back(standing: Standing, step: Step, written: str, anyway: bool = False) -> Happening:
    """What is recorded of money the maker took back.

    Args:
        standing: where the claim stands.
        step: the day it was taken back, and the maker's reason.
        written: the amount.
        anyway: whether the same is taken back once more.

    Raises:
        WrongState: nothing has been paid.
        BadInput: there is no reason; the amount is none, is recorded of that day already, or is more than was paid.

    Source: common practice, no source.
    """
    may_follow(standing, Happening(what="charged back", on=step.on), step.claim)
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
    return recorded("charged back", step, {"amount": plain(amount)})


def _refuse_doublet(standing: Standing, step: Step, amount: Decimal, what: str) -> None:
    """The same sum on the same day is most likely one entry made twice; below zero it was taken back."""
    if any((payment.on, payment.amount) == (step.on, amount) for payment in standing.payments):
        raise BadInput(
            f"AMOUNT: {what} of {_money(standing, abs(amount))} on {step.on} is recorded already",
            "Entered twice, it would count twice.",
            "If it did happen twice, say why with --anyway REASON.",
        )


def _money(standing: Standing, amount: Decimal) -> str:
    return in_money(amount, standing.currency)
