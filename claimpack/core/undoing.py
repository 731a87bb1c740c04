"""Undoing: the last answer or payment, where it was entered by mistake."""

from __future__ import annotations

from claimpack.core.events import Happening
from claimpack.core.following import may_follow
from claimpack.core.money import exact, in_money, plain
from claimpack.core.settling import Step, recorded, refuse_without_reason
from claimpack.core.states import Standing
from claimpack.errors import WrongState


def answer_undone(standing: Standing, step: Step) -> Happening:
    """What is recorded when the last answer was entered by mistake.

    Raises:
        WrongState: there is no answer to undo.
        BadInput: there is no reason.

    Source: a rule of this tool's, no source.
    """
    may_follow(standing, Happening(what="answer undone", on=step.on), step.claim)
    refuse_without_reason(step)
    if not standing.answers:
        raise WrongState(
            "the claim has no answer that could be undone",
            "It counts as accepted because money came in.",
            f"Undo the payment: claimpack pay {step.claim} --undo --because TEXT",
        )
    last = standing.answers[-1]
    return recorded("answer undone", step, {"answer": last.answer, "answered": last.on.isoformat()})


def payment_undone(standing: Standing, step: Step) -> Happening:
    """What is recorded when the last payment, or the last charge-back, was entered by mistake.

    Raises:
        WrongState: there is none to undo.
        BadInput: there is no reason.

    Source: a rule of this tool's, no source.
    """
    may_follow(standing, Happening(what="payment undone", on=step.on), step.claim)
    refuse_without_reason(step)
    if not standing.payments:
        raise WrongState("the claim has no payment that could be undone", do=f"See: claimpack history {step.claim}")
    last = standing.payments[-1]
    return recorded("payment undone", step, {"amount": plain(last.amount), "paid": last.on.isoformat()})


def what_was_undone(undone: Happening, currency: str) -> str:
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
    kind = "payment" if amount > 0 else "charge-back"
    return f"Undone: the {kind} of {in_money(abs(amount), currency)} of {facts['paid']}."
