"""The dates payment terms give a filed claim: answer, silence, payment, sending in again, inspection, audit."""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING, Literal, NamedTuple, TypeAlias

from claimpack.core.values.periods import Period, moved

if TYPE_CHECKING:
    from claimpack.core.events.standing import Standing
    from claimpack.core.plans.terms import Terms
    from claimpack.core.steps.listed import ListedClaim

CHECK = "Check the current text and the dealer agreement; not legal advice."
"""What is said wherever a law is named."""

CHECK_TEXT = "check the current text; not legal advice"
"""What is said beside a section that dates come from."""

Turn = Literal["maker", "shop", "nobody"]


DatedFrom: TypeAlias = "Standing | ListedClaim"
"""What the dates are counted from: all that is known of where a claim stands, or what lists know of it."""


class PaymentDates(NamedTuple):
    """The dates of one claim under its terms; None where the terms give none or their start is not known.

    Where all was paid and some was taken back, `owed_again` is the day it was, and there is none to pay by: the time to
    pay a claim ran before the payment, and terms set none for money taken back.

    `answer_estimated` says that the day of receipt is not noted, so that the answer is counted from filing; silence
    then has no effect that could be relied on.

    Silence refuses where the terms say so, at the end of the same day; the claim is then the shop's to send in again.

    `audit_reached_to` is the last day an audit could have reached to, where the maker took money back after it.

    `no_grounds_on` is the day of a refusal that gave no grounds, where the terms count that as acceptance: the time to
    pay runs from it.

    Where not `terms_known`, nobody here knows its days: its shop's folder is not named, or its terms, `terms_unread`,
    are named and cannot be read.

    `answered_late` is the day the maker was first heard of, where silence had accepted the claim before; the time to
    pay then runs from the day of silence, whatever the answer said, and is kept while a refused rest is left of it.
    """

    answer_due: date | None = None
    answer_estimated: bool = False
    accepted_by_silence_on: date | None = None
    refused_by_silence_on: date | None = None
    answered_late: date | None = None
    no_grounds_on: date | None = None
    pay_due: date | None = None
    owed_again: date | None = None
    resubmit_by: date | None = None
    inspect_by: date | None = None
    audit_until: date | None = None
    audit_reached_to: date | None = None
    terms_known: bool = True
    terms_unread: str = ""

    def silence_has_spoken(self, today: date) -> bool:
        """Whether the claim counts as accepted because the last day to answer is over."""
        return self.accepted_by_silence_on is not None and today > self.accepted_by_silence_on

    def is_owed_again(self, today: date) -> bool:
        """Whether money that was taken back is late: from the day after, as the day of an event is left out."""
        return self.owed_again is not None and today > self.owed_again


def payment_dates(claim: DatedFrom, terms: Terms | None) -> PaymentDates:
    """The dates that payment terms give a claim. The day of an event is left out, the last day counts.

    Silence takes effect at the end of the last day to answer; the time to pay runs from that day. A question is no
    silence, unless the terms let the time run on through it: then only what decides the claim ends it. An answer that
    comes later does not undo what silence has done: the earlier of the two days counts.

    Source: the section the terms cite; counting as in Tex. Bus. & Com. Code 57.253 ("by the 45th day after") and
    RCW 19.98.170 (time to pay counted from the end of the answer period).
    """
    if terms is not None and not terms.is_known:
        return PaymentDates(owed_again=claim.owed_again, terms_known=False, terms_unread=terms.unread)
    if terms is None or claim.filed is None:
        return PaymentDates(owed_again=claim.owed_again)
    filed, received = clock_starts(claim, terms)
    start = received if terms.answer_from == "received" else filed
    # nobody noted when the maker received it: the answer is expected by filing, and silence says nothing
    estimated = start is None
    answer_due = _after(start or filed, terms.answer_within)
    spoken = None if estimated else answer_due
    # an estimated day is good enough to ask by, and not to tell a maker that it has accepted
    accepts = spoken if terms.silence == "accepted" else None
    refused_by_silence = _refused_by_silence(claim, spoken) if terms.silence == "refused" else None
    can_be_sent_again = claim.state == "refused" and (claim.refused_for_form or refused_by_silence)
    waits = claim.state == "filed" or (claim.state == "questioned" and terms.runs_on)
    heard = claim.decided if terms.runs_on else claim.heard
    # an answer on the last day is in time; only one after it meets a claim that silence had accepted
    late = heard if accepts and heard and heard > accepts and claim.state in _ANSWERED else None
    by_silence = accepts if waits or late else None
    # what silence had accepted before is not argued with anew
    is_bare = terms.without_grounds == "accepted" and claim.gave_no_grounds and not late
    no_grounds_on = claim.answered if is_bare else None
    # whichever came first binds the maker, and the time to pay runs from it
    accepted = min((day for day in (claim.accepted_on, by_silence, no_grounds_on) if day), default=None)
    silence_is_held_against = late and (claim.state in _UNDECIDED or claim.refused_rest)
    waits_to_be_paid = waits or claim.state == "accepted" or silence_is_held_against or no_grounds_on
    return PaymentDates(
        answer_due=answer_due if waits else None,
        answer_estimated=estimated and waits and answer_due is not None,
        accepted_by_silence_on=by_silence,
        refused_by_silence_on=refused_by_silence,
        answered_late=late,
        no_grounds_on=no_grounds_on,
        # money that was paid once and taken back has no time to pay by: that time ran before the payment
        pay_due=_after(accepted, terms.pay_within) if waits_to_be_paid and not claim.owed_again else None,
        owed_again=claim.owed_again,
        resubmit_by=_after(claim.answered, terms.resubmit_within) if can_be_sent_again else None,
        inspect_by=inspect_by(claim.filed, claim.received, terms),
        audit_until=_after(claim.paid_on, terms.audit_reach) if claim.state == "paid" else None,
        audit_reached_to=_passed_by_charge_back(claim, terms) if claim.state == "accepted" else None,
    )


def clock_starts(claim: DatedFrom, terms: Terms) -> tuple[date | None, date | None]:
    """The days a claim was filed and received on that its time to answer is counted from.

    Where a question does not stop that time they are those of the filing that was asked about, whatever was sent since.
    """
    if terms.runs_on and claim.asked_filed:
        return claim.asked_filed, claim.asked_received
    return claim.filed, claim.received


_UNDECIDED = ("questioned", "refused")
_ANSWERED = (*_UNDECIDED, "accepted", "paid")


def _refused_by_silence(claim: DatedFrom, last: date | None) -> date | None:
    """The day silence refuses a claim, or has; a claim the maker was heard of was not refused by silence."""
    if claim.state == "filed":
        return last
    # a refusal that is recorded though the maker was never heard of is that of silence
    return claim.answered if claim.state == "refused" and claim.heard is None else None


def _passed_by_charge_back(claim: DatedFrom, terms: Terms) -> date | None:
    reached_to = audit_reached_to(claim.charged_from, terms)
    return reached_to if reached_to and claim.charged_back_on and claim.charged_back_on > reached_to else None


def audit_reached_to(paid_on: date | None, terms: Terms | None) -> date | None:
    """The last day an audit reaches to after a payment; None where the terms set none.

    Source: the section the terms cite, as Tex. Bus. & Com. Code 57.257 (the first anniversary of the payment).
    """
    return _after(paid_on, terms.audit_reach) if terms else None


def inspect_by(filed: date | None, received: date | None, terms: Terms | None) -> date | None:
    """The maker's last day to inspect the held parts of a claim; None where the terms set none.

    Source: the section the terms cite, as S.C. Code 39-59-100 (60 days of filing).
    """
    if terms is None:
        return None
    return _after(received if terms.inspect_from == "received" else filed, terms.inspect_within)


# a list of thousands of claims asks for the same few days again and again
@lru_cache(maxsize=20_000)
def _after(start: date | None, length: Period | None) -> date | None:
    return moved(start, length) if start and length else None


def turn(claim: DatedFrom, dates: PaymentDates) -> Turn:
    """Whose turn it is.

    Source: common practice, no source; of a refusal without grounds, the section the terms cite.
    """
    if claim.state in ("filed", "accepted") or dates.no_grounds_on:
        return "maker"
    return "shop" if claim.state in ("draft", "questioned", "refused") else "nobody"


def days_overdue(claim: DatedFrom, dates: PaymentDates, today: date) -> int:
    """Days since the date the maker should have kept: to pay, else to answer; 0 while it is not missed.

    A claim with an open question is late once silence has accepted it all the same, and it is not paid in time.
    """
    due = dates.pay_due or dates.answer_due
    if claim.state == "questioned" and dates.answered_late is None:
        due = dates.pay_due if dates.accepted_by_silence_on else None
    elif claim.state not in ("filed", "accepted") and not dates.no_grounds_on:
        return 0
    if due is None:
        return 0
    return max((today - due).days, 0)
