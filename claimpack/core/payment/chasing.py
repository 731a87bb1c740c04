"""Whether a maker is to be asked for a late answer or payment, or what it did contested; and by when."""

from __future__ import annotations

from datetime import date
from typing import Literal, NamedTuple

from claimpack.core.events.standing import Standing
from claimpack.core.events.states import told_state
from claimpack.core.payment.late_answers import contested
from claimpack.core.payment.next_step import no_days
from claimpack.core.payment.payment_dates import PaymentDates, payment_dates
from claimpack.core.plans.terms import Terms
from claimpack.core.values.numbers_said import how_many
from claimpack.core.values.periods import Period, moved

DAYS_TO_REACT = 14
"""How long a letter gives the maker to react. Common practice, no source."""


class Chased(NamedTuple):
    """The claim a letter is about; why money was taken back last, where it was noted.

    The part is awaited where the maker pays when it is there, and the shop has not sent it; `part_held` says that the
    shop has one that it can show. A favour was asked for where the shop itself reads the claim as not covered.
    """

    number: str
    maker: str
    unit: str
    serial: str
    standing: Standing
    terms: Terms | None
    taken_back_because: str = ""
    part_awaited: bool = False
    part_held: bool = False
    is_favour: bool = False


class Matter(NamedTuple):
    """What a letter asks for, and by when.

    It may contest a late answer, of what silence had accepted before, or a charge-back after an audit could reach.
    """

    asks: Literal["answer", "payment"]
    by: date
    against: Literal["", "answer", "charge-back"] = ""

    @property
    def contests(self) -> bool:
        """Whether the letter contests something the maker did."""
        return bool(self.against)


def matter(chased: Chased, today: date) -> Matter | None:
    """What the maker may be asked for on a day; None where it is not the maker's turn, or it still has time.

    Source: common practice, no source; the dates are those of the terms.
    """
    standing, dates = chased.standing, payment_dates(chased.standing, chased.terms)
    soon = moved(today, Period(days=DAYS_TO_REACT))
    owed = standing.outstanding > 0
    # first what contests, as a letter that merely asks would grant that the maker may have been right
    if owed and dates.audit_reached_to:
        return Matter("payment", soon, against="charge-back")
    if owed and dates.is_owed_again(today):
        return Matter("payment", soon)
    # a letter grants no more time than the terms do, while they still do
    by = dates.pay_due if dates.pay_due and today <= dates.pay_due else soon
    if contested(standing, dates, part_awaited=chased.part_awaited):
        return Matter("payment", by, against="answer")
    if _waits_for_part(chased, dates, today):
        return None
    # a question that stops no time leaves a claim as silent as none
    unanswered = dates.answered_late is None and owed and dates.silence_has_spoken(today)
    if unanswered or _is_late(standing.state == "accepted" and owed, dates.pay_due, today):
        return Matter("payment", by)
    if _is_late(standing.state == "filed" and dates.accepted_by_silence_on is None, dates.answer_due, today):
        return Matter("answer", soon)
    return None


def is_late(chased: Chased, asked: Matter, today: date) -> bool:
    """Whether what a maker is asked for is late; what silence accepted is not, while there is time to pay it.

    Source: the dates are those of the terms.
    """
    pay_due = payment_dates(chased.standing, chased.terms).pay_due
    return asked.asks == "answer" or pay_due is None or today > pay_due


def _waits_for_part(chased: Chased, dates: PaymentDates, today: date) -> bool:
    accepted = chased.standing.state == "accepted" or dates.silence_has_spoken(today)
    return chased.part_awaited and accepted


def _is_late(waiting: bool, due: date | None, today: date) -> bool:
    return waiting and due is not None and today > due


_DATED = ("filed", "questioned", "refused")


def why_not(chased: Chased, today: date) -> str:
    """Why there is nothing to ask the maker for."""
    standing, dates = chased.standing, payment_dates(chased.standing, chased.terms)
    if dates.refused_by_silence_on and standing.state == "refused":
        return f"silence refused the claim on {dates.refused_by_silence_on}: it is the shop's turn"
    # silence, or a refusal without grounds, may have decided it
    if not dates.terms_known and (standing.state in _DATED or (standing.state == "accepted" and standing.outstanding)):
        return no_days(dates)
    # the order is that of what would have to change first for a letter to make sense
    if standing.state in ("questioned", "refused", "draft"):
        return f"the claim is {told_state(standing.state)}: it is the shop's turn"
    if standing.state == "paid" and standing.refused_rest:
        return "what the maker accepted is paid, and a letter asks for late answers and payments only"
    if standing.state not in ("filed", "accepted"):
        return f"the claim is {standing.state}: nothing is waited for"
    if (standing.state == "accepted" or dates.silence_has_spoken(today)) and not standing.outstanding:
        return "nothing is outstanding"
    if _waits_for_part(chased, dates, today):
        return "by its plan the maker pays when the failed part is there, and it is not sent: claimpack hold send"
    if dates.owed_again:
        return f"it was charged back on {dates.owed_again}, and a letter can be written from the day after"
    due = dates.pay_due if standing.state == "accepted" else dates.answer_due
    if due is None:
        return "no payment terms say by when the maker must act; name them in shop.toml (terms, maker_terms)"
    left = (due - today).days
    what = "pay" if standing.state == "accepted" else "answer"
    return f"the maker has until {due} to {what}, {how_many(left, 'day')} more"
