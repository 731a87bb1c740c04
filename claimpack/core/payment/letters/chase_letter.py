"""The words of a letter that asks a maker for an answer or a payment, or contests what it did."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from claimpack.core.events.standing import Standing
from claimpack.core.payment.chasing import Chased, Matter
from claimpack.core.payment.late_answers import (
    charged_back_late,
    contested,
)
from claimpack.core.payment.letters.letter import Letter, Sender
from claimpack.core.payment.letters.told_in_letters import (
    accepted_label,
    anything_more,
    as_noted,
    day_said,
    each_payment,
    facts_of,
    filed_and_paid,
    how_it_was_answered,
    how_it_was_filed,
    is_sent_again,
    money_said,
    refused_on,
)
from claimpack.core.payment.payment_dates import PaymentDates, payment_dates
from claimpack.core.plans.terms import Terms
from claimpack.core.values.days import in_a_letter

NO_ADVICE = (
    "This letter states how the shop reads the section named. It is not legal advice: check the current text and the "
    "dealer agreement before relying on it."
)


NO_SECTION = "No section of law is named here. Check the dealer agreement first."


def letter(chased: Chased, asked: Matter, sender: Sender, today: date) -> Letter:
    """The letter about a claim, for a person to read, check and sign."""
    standing = chased.standing
    dates = payment_dates(standing, chased.terms)
    ask = _ask(chased, asked, dates)
    what = "payment" if asked.asks == "payment" else "an answer"
    return Letter(
        sender=sender,
        on=today,
        to=chased.maker,
        subject=f"Warranty claim {chased.number}: request for {what}",
        facts=_facts(chased, sender, dates),
        amounts=_amounts(standing, _asked_for(chased, asked, dates) if asked.contests else None),
        paragraphs=tuple(part for part in (_history(standing, asked), grounds_of(chased, dates, asked, today)) if part),
        ask=ask,
        closing=_closing(chased, asked, sender),
        # money taken back is owed by the claim's own history, whatever the section
        small_print=NO_SECTION if dates.owed_again and not asked.contests else NO_ADVICE,
    )


def _asked_for(chased: Chased, asked: Matter, dates: PaymentDates) -> Decimal:
    if asked.against == "charge-back":
        return charged_back_late(chased.standing, chased.terms)
    return contested(chased.standing, dates) if asked.contests else chased.standing.outstanding


def _facts(chased: Chased, sender: Sender, dates: PaymentDates) -> tuple[tuple[str, str], ...]:
    standing = chased.standing
    # a letter that names no section does not say what it says
    silent = None if dates.owed_again else dates.accepted_by_silence_on
    # money for all of it accepts a claim too, and nothing was written then
    in_writing = standing.accepted_on if standing.accepted is not None else None
    said = (
        *facts_of(chased, sender),
        (
            "Answer due, from filing" if dates.answer_estimated else "Last day to answer",
            day_said(dates.answer_due or silent),
        ),
        ("Refused on", day_said(refused_on(standing))),
        (accepted_label(standing), day_said(in_writing)),
        ("Accepted by silence on", day_said(silent)),
        ("Last day to pay", day_said(dates.pay_due)),
        ("Paid on", day_said(standing.charged_from if dates.audit_reached_to else None)),
        ("An audit reached to", day_said(dates.audit_reached_to)),
        ("Charged back on", day_said(standing.charged_back_on if dates.audit_reached_to else dates.owed_again)),
    )
    return tuple((label, value) for label, value in said if value)


def _amounts(standing: Standing, asked_for: Decimal | None) -> tuple[tuple[str, str], ...]:
    said: list[tuple[str, Decimal]] = [("Claimed", standing.claimed)]
    if standing.owed != standing.claimed:
        said.append(("Accepted", standing.owed))
    if standing.paid:
        said.append(("Paid so far", standing.paid))
    said.append(("Outstanding", standing.outstanding) if asked_for is None else ("Asked for", asked_for))
    return tuple((label, money_said(amount, standing)) for label, amount in said)


def _history(standing: Standing, asked: Matter) -> str:
    said = how_it_was_filed(standing)
    if asked.against == "answer" or standing.state == "questioned":
        return filed_and_paid(standing, how_it_was_answered(standing))
    if standing.accepted is not None and standing.state in ("accepted", "paid"):
        in_part = standing.accepted < standing.claimed
        what = f"{money_said(standing.owed, standing)} of it" if in_part else "it"
        return f"{said} You accepted {what} on {day_said(standing.accepted_on)}{_came_in(standing)}."
    if standing.payments:
        return f"{said} You {each_payment(standing)}; no answer{_to_what(standing)} is on record with us."
    if is_sent_again(standing):
        return f"{said} No answer{_to_what(standing)} is on record with us."
    return f"{said} We have no answer from you on record."


def _came_in(standing: Standing) -> str:
    """What was paid; each payment by its day where the maker took money back."""
    if standing.charged_back_on is None:
        return f", and have paid {money_said(standing.paid, standing)} so far" if standing.paid else ""
    return f", {each_payment(standing)}"


def _to_what(standing: Standing) -> str:
    """What no answer is on record to: what was answered or paid before it was sent in again is no answer to that."""
    if standing.paid_before or is_sent_again(standing):
        return f" to what we sent in on {day_said(standing.filed)}"
    return "" if standing.owed_again else " to the rest"


def grounds_of(chased: Chased, dates: PaymentDates, asked: Matter, today: date) -> str:
    """What the terms say in plain words, and the days that come of it."""
    terms, standing = chased.terms, chased.standing
    if terms and asked.against == "charge-back":
        return f"{why_the_charge_back_is_late(standing, dates, terms)}.{_why_taken_back(chased)}"
    if dates.owed_again:
        owed = money_said(standing.outstanding, standing)
        reason = _why_taken_back(chased)
        # of a claim nobody answered it must not be said that the maker accepted it
        all_of_it = "All of it" if standing.accepted is None else "All that you accepted"
        since = day_said(dates.owed_again)
        return f"{all_of_it} had been paid by then; since {since}, {owed} of it is owed again.{reason}"
    if terms is None:
        return ""
    section = terms.section
    if asked.asks == "answer":
        return f"{_late_answer(section, terms, dates)} {_sentence(through_the_question(standing, terms))}".rstrip()
    pay = f"is to be paid within {terms.pay_within.in_words()} of being accepted" if terms.pay_within else ""
    if dates.no_grounds_on:
        return _no_grounds(section, pay, dates.no_grounds_on, dates.pay_due, today)
    # accepted in time and in writing: silence has no part in it and is not argued with
    if standing.state == "accepted" and dates.answered_late is None:
        return f"As we read {section}, a claim {pay}. The last day to pay was {day_said(dates.pay_due)}."
    answer = terms.answer_within.in_words() if terms.answer_within else ""
    said = f"As we read {section}, a claim that is not answered within {answer} of being {terms.answer_from} "
    said += f"counts as accepted{f', and {pay}' if pay else ''}. {_sentence(through_the_question(standing, terms))}"
    said += _what_came(standing, dates)
    if dates.pay_due is None:
        return f"{said}."
    so = "and" if dates.answered_late and standing.answers else "so"
    return f"{said}, {so} {_to_be_paid_by(dates.pay_due, today)}."


def _to_be_paid_by(pay_due: date, today: date) -> str:
    return f"the last day to pay {'was' if today > pay_due else 'is'} {day_said(pay_due)}"


def _no_grounds(section: str, pay: str, on: date, pay_due: date | None, today: date) -> str:
    """That a refusal gives no grounds, and what the shop concludes."""
    to_pay = f", and a claim {pay}" if pay else ""
    last = f", and {_to_be_paid_by(pay_due, today)}" if pay_due else ""
    return (
        f"As we read {section}, a refusal that gives no grounds counts as acceptance{to_pay}. "
        f"We have no grounds on record for your refusal of {day_said(on)}. "
        f"We therefore count the claim as accepted on that day{last}."
    )


def _sentence(said: str) -> str:
    return f"{said[0].upper()}{said[1:]}. " if said else ""


def through_the_question(standing: Standing, terms: Terms | None) -> str:
    """That a question does not stop the time to answer, where one was asked and the terms say so; empty elsewhere."""
    if terms is None:
        return ""
    asked = standing.asked_filed or (standing.filed if standing.state == "questioned" else None)
    if not (terms.runs_on and asked):
        return ""
    counted = f"which is therefore counted from what we filed on {day_said(asked)}"
    return f"as we read {terms.question_section}, a question does not stop the time to answer, {counted}"


def _why_taken_back(chased: Chased) -> str:
    why = as_noted(chased.taken_back_because)
    return f" The reason given for the charge-back, {why}" if why else ""


def _what_came(standing: Standing, dates: PaymentDates) -> str:
    # a maker that paid all of it after silence, without a word, gave no answer that came late
    if dates.answered_late and standing.answers:
        return why_silence_counts(standing, dates)
    return f"The last day to answer was {day_said(dates.accepted_by_silence_on)}"


def _late_answer(section: str, terms: Terms, dates: PaymentDates) -> str:
    length = terms.answer_within.in_words() if terms.answer_within else ""
    if dates.answer_estimated:
        return (
            f"We have no note of the day you received it. As we read {section}, a claim is to be answered within "
            f"{length} of being received; counted from the day we filed it, that time ran out on "
            f"{day_said(dates.answer_due)}."
        )
    return (
        f"As we read {section}, a claim is to be answered within {length} of being {terms.answer_from}. "
        f"The last day to answer was {day_said(dates.answer_due)}."
    )


def _ask(chased: Chased, asked: Matter, dates: PaymentDates) -> str:
    standing = chased.standing
    owed = money_said(_asked_for(chased, asked, dates), standing)
    pay = f"Please pay {owed} by {day_said(asked.by)}, naming our claim number {chased.number}"
    if asked.against == "charge-back":
        ground = "on what grounds it may be charged back after that day"
        return f"{pay}, or let us know {ground}."
    if asked.contests:
        return f"{pay}{or_else(standing)}."
    if asked.asks == "payment":
        # a reason that is on record is told, and not asked for
        unknown = dates.owed_again and not chased.taken_back_because
        why = ", or let us know why it was charged back" if unknown else ""
        return f"{pay}{why}."
    also = "on which day you received the claim, and " if dates.answer_estimated else ""
    return f"Please let us know by {day_said(asked.by)} {also}what you have decided."


def _closing(chased: Chased, asked: Matter, sender: Sender) -> str:
    crossed = "the payment is" if asked.asks == "payment" else "your answer is"
    return (
        f"If {crossed} on its way already, please take this letter as settled, with our thanks. "
        f"{anything_more(sender, part_held=chased.part_held)}"
    )


def why_silence_counts(standing: Standing, dates: PaymentDates) -> str:
    """That an answer came after the last day to answer, and what the shop concludes, as a letter tells it."""
    silent, answered = (in_a_letter(day) if day else "" for day in (dates.accepted_by_silence_on, standing.answered))
    whole = "the whole claim" if standing.refused_rest else "the claim"
    return (
        f"The last day to answer was {silent}; your {_NAMED[standing.state]} came on {answered}. We therefore count "
        f"{whole} as accepted on {silent}"
    )


_NAMED = {"refused": "refusal", "questioned": "question", "accepted": "answer", "paid": "answer"}


def or_else(standing: Standing) -> str:
    """What the maker may explain instead of paying what is contested."""
    hold = {"refused": "the refusal stands", "questioned": "the claim is still open"}
    return f", or let us know why you hold that {hold.get(standing.state, 'the refusal of the rest stands')}"


def why_the_charge_back_is_late(standing: Standing, dates: PaymentDates, terms: Terms) -> str:
    """That money was taken back after an audit could reach, and what the shop concludes, as a letter tells it."""
    reach = terms.audit_reach.in_words() if terms.audit_reach else ""
    paid_on, reached_to, taken_on = (
        in_a_letter(day) if day else ""
        for day in (standing.charged_from, dates.audit_reached_to, standing.charged_back_on)
    )
    return (
        f"As we read {terms.section}, an audit of a claim reaches back {reach} from its payment. You paid it on "
        f"{paid_on}, so an audit of it reached to {reached_to}; it was charged back on {taken_on}. We therefore "
        f"hold that it is still owed"
    )
