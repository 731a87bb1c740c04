"""Answers that came after silence had accepted a claim: what they leave to be contested, and the words for it."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from claimpack.core.payment.payment_dates import CHECK_TEXT, PaymentDates, audit_reached_to, payment_dates
from claimpack.core.plans.terms import Terms
from claimpack.core.steps.claim_state import Standing
from claimpack.core.values.days import in_a_letter
from claimpack.core.values.money import ZERO
from claimpack.core.values.numbers_said import how_many


def contested(standing: Standing, dates: PaymentDates) -> Decimal:
    """What the shop may hold against a late answer: all that silence accepted and the answer does not.

    Zero where the answer came in time, where the terms give silence no such meaning, or where nothing is left.

    Source: the section the terms cite; that a late answer does not undo an acceptance is the shop's reading to check.
    """
    if dates.answered_late is None:
        return ZERO
    if standing.state in ("refused", "questioned"):
        return standing.outstanding
    return standing.outstanding + standing.refused_rest if standing.refused_rest else ZERO


def charged_back_late(standing: Standing, terms: Terms | None) -> Decimal:
    """What the shop may hold against charge-backs that came after an audit of what was paid could reach.

    Zero where they came in time, where the terms set no such time, or where nothing is outstanding.

    Source: the section the terms cite; that a charge-back after that time does not stand is a reading to check.
    """
    taken = ZERO
    for payment, paid_on in standing.with_their_payments():
        reached_to = audit_reached_to(paid_on, terms)
        if payment.amount < 0 and reached_to and payment.on > reached_to:
            taken -= payment.amount
    return min(taken, standing.outstanding) if standing.state == "accepted" else ZERO


def of_the_charge_back(number: str, standing: Standing, terms: Terms | None) -> tuple[str, ...]:
    """What is to be said of money taken back after an audit could reach; empty where it was in time.

    Source: the section the terms cite.
    """
    reached_to = payment_dates(standing, terms).audit_reached_to
    if terms is None or reached_to is None or standing.charged_back_on is None:
        return ()
    days = (standing.charged_back_on - reached_to).days
    said = (
        f"An audit of the payment on {standing.charged_from} reached to {reached_to}, "
        f"{how_many(days, 'day')} before the charge-back: {_section(terms)} ({CHECK_TEXT})."
    )
    return (said, f"A letter that contests the charge-back: claimpack chase {number}")


def why_the_charge_back_is_late(standing: Standing, dates: PaymentDates, terms: Terms) -> str:
    """That money was taken back after an audit could reach, and what the shop concludes, as a letter tells it."""
    reach = terms.audit_reach.in_words() if terms.audit_reach else ""
    paid_on, reached_to, taken_on = (
        in_a_letter(day) if day else ""
        for day in (standing.charged_from, dates.audit_reached_to, standing.charged_back_on)
    )
    return (
        f"As we read {_section(terms)}, an audit of a claim reaches back {reach} from its payment. The payment was of "
        f"{paid_on}, so an audit of it reached to {reached_to}; the money was taken back on {taken_on}. We therefore "
        f"hold that it is still owed"
    )


def remarks(number: str, standing: Standing, terms: Terms | None) -> tuple[str, ...]:
    """What is to be said of an answer under the terms: that it came late, that a refusal gives no reason.

    Source: the section the terms cite.
    """
    return (*_of_lateness(number, standing, terms), *_of_no_reason(number, standing, terms))


def _of_lateness(number: str, standing: Standing, terms: Terms | None) -> tuple[str, ...]:
    dates = payment_dates(standing, terms)
    silent = dates.accepted_by_silence_on
    if terms is None or silent is None or dates.answered_late is None or standing.state not in _LETTERS:
        return ()
    if standing.state == "paid" and not standing.refused_rest:
        return ()
    pay = f", and the last day to pay stays {dates.pay_due}" if dates.pay_due else ""
    said = (
        f"Silence accepted it on {silent}, before the answer of {standing.answered}{pay}: "
        f"{_section(terms)} ({CHECK_TEXT})."
    )
    if not contested(standing, dates):
        return (said,)
    again = "Filing it again would start its time to answer anew."
    return (said, f"{_LETTERS[standing.state]}: claimpack chase {number}. {again}")


_OF_THE_REST = "A letter that contests the refusal of the rest"
_LETTERS = {
    "refused": "A letter that contests the refusal",
    "questioned": "A letter that says so",
    "accepted": _OF_THE_REST,
    "paid": _OF_THE_REST,
}


def _of_no_reason(number: str, standing: Standing, terms: Terms | None) -> tuple[str, ...]:
    if standing.state != "refused" or standing.because:
        return ()
    said = (
        f"No reason is recorded. Where the maker gave one: claimpack answer {number} --undo --because TEXT, then the "
        f"answer again with --because."
    )
    if terms is None or terms.without_grounds != "accepted":
        return (said,)
    return (said, f"A refusal without grounds counts as acceptance: {_section(terms)} ({CHECK_TEXT}).")


def _section(terms: Terms) -> str:
    return terms.cites or terms.name


def too_late_again(standing: Standing, terms: Terms | None, on: date) -> tuple[str, ...]:
    """That the time to send a refused claim in again is over, in a sentence; empty where it is not, or none is set.

    Source: the section the terms cite.
    """
    last = payment_dates(standing, terms).resubmit_by
    if terms is None or last is None or on <= last:
        return ()
    days = (on - last).days
    late = f"{how_many(days, 'day')} before"
    return (f"The last day to send it in again was {last}, {late}: {_section(terms)} ({CHECK_TEXT}).",)


def how_it_was_answered(standing: Standing) -> str:
    """The answer that is contested, as a letter tells it; empty where a part was accepted."""
    why = standing.because.rstrip(".")
    day = in_a_letter(standing.answered) if standing.answered else ""
    if standing.state == "questioned":
        return f"You came back to us with a question on {day}{f'; as we noted it: {why}' if why else ''}."
    if standing.state == "refused":
        reason = f"the reason, as we noted it: {why}" if why else "we have no reason on record"
        return f"You refused it on {day}; {reason}."
    return ""


def why_silence_counts(standing: Standing, dates: PaymentDates) -> str:
    """That an answer came after the last day to answer, and what the shop concludes, as a letter tells it."""
    silent, answered = (in_a_letter(day) if day else "" for day in (dates.accepted_by_silence_on, standing.answered))
    whole = "the whole claim" if standing.refused_rest else "the claim"
    return (
        f"The last day to answer was {silent}; your {_NAMED[standing.state]} is of {answered}. We therefore count "
        f"{whole} as accepted on {silent}"
    )


_NAMED = {"refused": "refusal", "questioned": "question", "accepted": "answer", "paid": "answer"}


def or_else(standing: Standing) -> str:
    """What the maker may explain instead of paying what is contested."""
    hold = {"refused": "the refusal stands", "questioned": "the claim is still open"}
    return f", or let us know why you hold that {hold.get(standing.state, 'the refusal of the rest stands')}"
