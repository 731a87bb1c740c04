"""What a claim waits for, in the few words a list has room for."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from claimpack.core.listed import ListedClaim
from claimpack.core.money import in_money
from claimpack.core.payment_dates import payment_dates
from claimpack.core.pending import NOTHING_OWED, next_step
from claimpack.core.silence import as_of
from claimpack.core.states import PENDING
from claimpack.core.terms import Terms


def waits_for(claim: ListedClaim, terms: Terms | None, today: date) -> str:
    """What is to happen next with a listed claim; an empty text where it is settled.

    Source: common practice, no source; the dates are those of the plan and the terms.
    """
    if claim.state == "draft":
        ran_out = claim.approval_until is not None and claim.approval_until < today
        return _draft(claim, claim.approval_wanted or ran_out, today)
    if claim.state == "paid" and claim.refused_rest:
        return _of_the_rest(claim, claim.currency, terms)
    return _filed(as_of(claim, terms, today), claim.outstanding, terms, today)


def is_late(claim: ListedClaim, today: date) -> bool:
    """Whether a claim waits to be filed, and its last day to file is past.

    Source: the plan's filing limit; the last day counts.
    """
    waits_to_be_filed = claim.state == "draft" and (claim.verdict == "covered" or claim.asks_goodwill)
    return waits_to_be_filed and claim.file_by is not None and today > claim.file_by


def _of_the_rest(claim: ListedClaim, currency: str, terms: Terms | None) -> str:
    dates, rest = payment_dates(claim, terms), in_money(claim.refused_rest, currency)
    if dates.answered_late:
        return f"chase {rest}: silence accepted it on {dates.accepted_by_silence_on}"
    return f"contest or write off {rest}"


def _filed(claim: ListedClaim, outstanding: Decimal, terms: Terms | None, today: date) -> str:
    if claim.state == "accepted" and not outstanding:
        return NOTHING_OWED
    return next_step(claim, payment_dates(claim, terms), today) if claim.state in PENDING else ""


def _draft(claim: ListedClaim, approval_wanted: bool, today: date) -> str:
    if claim.verdict == "undecided":
        return "find out if it is covered"
    if claim.verdict == "not covered" and not claim.asks_goodwill:
        return "tell the owner: not covered"
    by = f" by {claim.file_by}{' (late)' if is_late(claim, today) else ''}" if claim.file_by else ""
    if claim.asks_goodwill:
        return f"file the request for goodwill{by}"
    first = "get the maker's approval, " if approval_wanted else ""
    return f"{first}file{by}" if by else f"{first}repair, then file"
