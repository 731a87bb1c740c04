"""What every letter about a claim tells: its numbers and days, how it was filed, paid and answered."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from claimpack.core.events.standing import Standing
from claimpack.core.payment.chasing import Chased
from claimpack.core.payment.letters.letter import Sender
from claimpack.core.values.days import in_a_letter
from claimpack.core.values.money import in_money


def facts_of(chased: Chased, sender: Sender) -> tuple[tuple[str, str], ...]:
    """What every letter about a filed claim names it by: numbers, unit, the days it was filed and received."""
    standing = chased.standing
    return (
        ("Our claim number", chased.number),
        ("Your reference", standing.reference),
        ("Our dealer number", sender.dealer_number),
        ("Unit", chased.unit),
        ("Serial number", chased.serial),
        *_filings(standing),
        ("Received by you on", day_said(standing.received)),
    )


def filed_and_paid(standing: Standing) -> str:
    """When a claim was filed and received, and what was paid for it, as a letter tells it."""
    paid = [payment for payment in standing.payments if payment.amount > 0]
    said = ", ".join(f"{money_said(payment.amount, standing)} on {day_said(payment.on)}" for payment in paid)
    return f"{how_it_was_filed(standing)}{f' You paid {said}.' if said else ''}"


def _filings(standing: Standing) -> tuple[tuple[str, str], ...]:
    last = day_said(standing.filed)
    if not is_sent_again(standing):
        return (("Filed on", last),)
    return (("First filed on", day_said(standing.first_filed)), ("Sent in again on", last))


def is_sent_again(standing: Standing) -> bool:
    """Whether a claim went out before the day it was filed on last."""
    return standing.first_filed != standing.filed


def day_said(day: date | None) -> str:
    """A day as letters write it; empty for none."""
    return in_a_letter(day) if day else ""


def money_said(amount: Decimal, standing: Standing) -> str:
    """An amount in the currency of the claim."""
    return in_money(amount, standing.currency)


def how_it_was_filed(standing: Standing) -> str:
    """On which days a claim was filed and received, in a sentence."""
    last = f"on {day_said(standing.filed)}"
    if is_sent_again(standing):
        received = f"; you received that on {day_said(standing.received)}" if standing.received else ""
        first = f"on {day_said(standing.first_filed)}"
        return f"We first filed this claim with you {first} and sent it in again {last}{received}."
    received = f", and you received it on {day_said(standing.received)}" if standing.received else ""
    return f"We filed this claim with you {last}{received}."


def refused_on(standing: Standing) -> date | None:
    """The day a maker refused a claim; None where it did not, or silence did."""
    return standing.answered if standing.state == "refused" and not standing.answers[-1].silent else None


def how_it_was_answered(standing: Standing) -> str:
    """The answer that is contested, as a letter tells it; empty where a part was accepted."""
    why = standing.because.rstrip(".")
    day = in_a_letter(standing.answered) if standing.answered else ""
    if standing.state == "questioned":
        return f"You came back to us with a question on {day}{f'; as we noted it: {why}' if why else ''}."
    if standing.state == "refused" and standing.answers[-1].silent:
        return f"We have no answer to it from you by {day}, which we read as a refusal."
    if standing.state == "refused":
        reason = f"the reason, as we noted it: {why}" if why else "we have no reason on record"
        return f"You refused it on {day}; {reason}."
    return ""
