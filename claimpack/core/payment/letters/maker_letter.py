"""The words of one letter to a maker about all that is late: each claim, its days and its section, and the total."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.events.standing import Standing
from claimpack.core.payment.chasing import Chased, Matter
from claimpack.core.payment.letters.chase_letter import NO_ADVICE, NO_SECTION, through_the_question
from claimpack.core.payment.letters.letter import Letter, Sender
from claimpack.core.payment.letters.told_in_letters import anything_more, money_said, reason_noted
from claimpack.core.payment.payment_dates import payment_dates
from claimpack.core.values.days import in_a_letter
from claimpack.core.values.money import in_money, summed
from claimpack.core.values.numbers_said import how_many


class LateClaim(NamedTuple):
    """A claim that the maker is late with, and what it is asked for; nothing that is contested."""

    chased: Chased
    asked: Matter


def maker_letter(late: Sequence[LateClaim], sender: Sender, today: date) -> Letter:
    """The letter about all of them, for a person to read, check and sign.

    Args:
        late: the claims of one maker, at least one.
        sender: the shop.
        today: the day of the letter.

    Source: common practice, no source; the dates are those of the terms.
    """
    pay, answer = ([one for one in late if one.asked.asks == asks] for asks in ("payment", "answer"))
    has_section = any(_last_day(one) for one in late)
    read_in = " and the section we read them in" if has_section else ""
    return Letter(
        sender=sender,
        on=today,
        to=late[0].chased.maker,
        subject=f"{how_many(len(late), 'warranty claim')}: request for {_what(pay, answer)}",
        facts=(
            ("Claims", str(len(late))),
            *((("Our dealer number", sender.dealer_number),) if sender.dealer_number else ()),
        ),
        rows=tuple((_about(one), _last_day(one), _money(one)) for one in (*pay, *answer)),
        amounts=tuple((label, amount) for label, some in _kinds(pay, answer) for amount in _sums(some)),
        paragraphs=(f"What we wait for is listed below, claim by claim, with its days{read_in}.",),
        ask=" ".join(said for said in (_please_pay(pay), _please_answer(answer)) if said),
        closing=_closing(sender),
        small_print=NO_ADVICE if has_section else NO_SECTION,
    )


def _kinds(pay: Sequence[LateClaim], answer: Sequence[LateClaim]) -> tuple[tuple[str, Sequence[LateClaim]], ...]:
    """What is asked for, by why: what was paid once and taken back stands apart."""
    back = [one for one in pay if one.chased.standing.owed_again]
    due = [one for one in pay if not one.chased.standing.owed_again]
    # of two kinds that are to be paid, the sum that is asked for stands last
    both = (("To be paid in all", pay),) if due and back else ()
    return (
        ("Claimed, to be answered", answer),
        ("To be paid", due),
        ("Charged back, to be paid again", back),
        *both,
    )


def _what(pay: Sequence[LateClaim], answer: Sequence[LateClaim]) -> str:
    asked = ("payment" if pay else "", "an answer" if answer else "")
    return " and ".join(one for one in asked if one)


def _sums(some: Sequence[LateClaim]) -> list[str]:
    owed = [(one.chased.standing.currency, one.chased.standing.outstanding) for one in some]
    return [in_money(amount, code) for code, amount in summed(owed).items()]


def _money(one: LateClaim) -> str:
    owed: Decimal = one.chased.standing.outstanding
    return in_money(owed, one.chased.standing.currency)


def _about(one: LateClaim) -> str:
    """The claim, its numbers, and what happened to it on which days."""
    chased, standing = one.chased, one.chased.standing
    dates = payment_dates(standing, chased.terms)
    # what was paid and taken back is owed by that, whoever accepted it and however
    silent, accepted = (None, None) if dates.owed_again else (dates.accepted_by_silence_on, standing.accepted_on)
    asked = through_the_question(standing, chased.terms)
    said_of_it = "decided" if asked else "answered"
    said = (
        f"{chased.number}, {chased.unit}",
        f"serial {chased.serial}" if chased.serial else "",
        f"your reference {standing.reference}" if standing.reference else "",
        f"filed on {in_a_letter(standing.filed)}" if standing.filed else "",
        f"received on {in_a_letter(standing.received)}" if standing.received else "",
        asked,
        f"{_accepted(standing)} on {in_a_letter(accepted)}" if accepted else "",
        f"not {said_of_it} by {in_a_letter(silent)}, and so accepted" if silent else "",
        f"{_of_claimed(standing.paid, standing)} paid so far" if standing.paid and not dates.owed_again else "",
        f"paid, and charged back on {in_a_letter(dates.owed_again)}" if dates.owed_again else "",
        _why_taken_back(chased) if dates.owed_again else "",
    )
    return "; ".join(part for part in said if part)


def _accepted(standing: Standing) -> str:
    return f"{_of_claimed(standing.owed, standing)} accepted" if standing.owed < standing.claimed else "accepted"


def _of_claimed(amount: Decimal, standing: Standing) -> str:
    """An amount beside what was claimed, so that the rest asked for is understood."""
    return f"{money_said(amount, standing)} of {money_said(standing.claimed, standing)}"


def _why_taken_back(chased: Chased) -> str:
    return reason_noted(chased.taken_back_because).removesuffix(".")


def _last_day(one: LateClaim) -> str:
    """The day that is over, or to come, and the section it comes from; of money taken back the section alone."""
    terms = one.chased.terms
    dates = payment_dates(one.chased.standing, terms)
    if dates.owed_again and terms and terms.is_known:
        return f"owed again (payment terms: {terms.section})"
    due, what = (dates.pay_due, "pay") if one.asked.asks == "payment" else (dates.answer_due, "answer")
    if due is None or terms is None:
        return ""
    counted = ", counted from filing" if what == "answer" and dates.answer_estimated else ""
    return f"last day to {what} {in_a_letter(due)}{counted} ({terms.section})"


def _please_pay(pay: Sequence[LateClaim]) -> str:
    if not pay:
        return ""
    # each by its own day: a later one would give the maker time that its terms do not
    days = sorted({one.asked.by for one in pay})
    on = {by: [one for one in pay if one.asked.by == by] for by in days}
    said = (
        f"{' and '.join(_sums(some))} by {in_a_letter(by)}{f' ({_numbers(some)})' if len(days) > 1 else ''}"
        for by, some in on.items()
    )
    return f"Please pay {', and '.join(said)}, naming our claim {'number' if len(pay) == 1 else 'numbers'}."


def _numbers(some: Sequence[LateClaim]) -> str:
    return ", ".join(one.chased.number for one in some)


def _please_answer(answer: Sequence[LateClaim]) -> str:
    if not answer:
        return ""
    by = max(one.asked.by for one in answer)
    unknown = any(one.chased.standing.received is None for one in answer)
    also = (
        " Please also tell us on which day you received the claims listed without a day of receipt." if unknown else ""
    )
    return f"Please let us know by {in_a_letter(by)} what you have decided on {_numbers(answer)}.{also}"


def _closing(sender: Sender) -> str:
    return (
        "If payments or answers are on their way already, please take this letter as settled for those claims, with "
        f"our thanks. {anything_more(sender, part_held=False)}"
    )
