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


def filed_and_paid(standing: Standing, answered: str = "") -> str:
    """When a claim was filed and received, how it was answered, and what was paid for it, in the order of the days."""
    paid = [payment for payment, _ in standing.with_their_payments() if payment.came_in]
    each = ", ".join(f"{money_said(payment.amount, standing)} on {day_said(payment.on)}" for payment in paid)
    said = [f"You paid {each}."] if paid else []
    before = paid and standing.answered and paid[0].on < standing.answered
    said.insert(len(said) if before else 0, answered)
    return " ".join(filter(None, (how_it_was_filed(standing), *said)))


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
    """The answer that is contested, as a letter tells it."""
    why = as_noted(standing.because)
    day = in_a_letter(standing.answered) if standing.answered else ""
    if standing.state == "questioned":
        return f"You came back to us with a question on {day}{f'; {why}' if why else '.'}"
    if standing.state == "refused" and standing.answers[-1].silent:
        return f"We have no answer to it from you by {day}, which we read as a refusal."
    if standing.state == "refused":
        return f"You refused it on {day}; {reason_noted(standing.because)}"
    reason = f"; {reason_noted(standing.because)}" if standing.because else "."
    accepted = money_said(standing.owed, standing)
    return f"You accepted {accepted} of it{f' on {day}' if day else ''} and refused the rest{reason}"


def as_noted(why: str) -> str:
    """What somebody said, by our own note of it, to end a sentence; empty where nothing was noted."""
    said = " ".join(why.split())
    return f"as we noted it: {said}{'' if said.endswith(('.', '?', '!')) else '.'}" if said else ""


def reason_noted(why: str) -> str:
    """The reason that was given, by our own note of it, to end a sentence."""
    return f"the reason, {as_noted(why)}" if why.strip() else "we have no reason on record."


def accepted_label(standing: Standing) -> str:
    """What the day stands behind on which a maker accepted a claim, or a part of it."""
    return "Accepted in part on" if standing.refused_rest else "Accepted on"


def anything_more(sender: Sender, *, part_held: bool) -> str:
    """Where the shop is reached for more; a part that failed is offered only while the shop has it."""
    reach = " or ".join(part for part in (sender.phone, sender.email) if part)
    held = ", the held part included" if part_held else ""
    return f"If you need anything more from us{held}, tell us{f' at {reach}' if reach else ''}."


def each_payment(standing: Standing) -> str:
    """Every payment and charge-back with its day, in the order of the days, as what somebody did."""
    said = [
        f"paid {money_said(payment.amount, standing)} on {day_said(payment.on)}"
        if payment.came_in
        else f"charged {money_said(-payment.amount, standing)} back on {day_said(payment.on)}"
        for payment, _ in standing.with_their_payments()
    ]
    return f"{', '.join(said[:-1])}, and {said[-1]}" if len(said) > 1 else said[0]
