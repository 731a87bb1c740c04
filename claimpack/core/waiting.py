"""What a claim waits for, in the few words a list has room for."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Protocol

from claimpack.core.digest import Digest
from claimpack.core.money import in_money
from claimpack.core.payment_dates import Filed, payment_dates
from claimpack.core.pending import NOTHING_OWED, next_step
from claimpack.core.silence import FiledRow, as_of, standing_as_of
from claimpack.core.states import PENDING, Standing
from claimpack.core.terms import Terms


class Listed(FiledRow, Protocol):
    """What a list knows of a claim."""

    @property
    def verdict(self) -> str:
        """Covered, not covered or undecided."""

    @property
    def currency(self) -> str:
        """The currency of its amounts."""

    @property
    def outstanding(self) -> Decimal:
        """What is still to come in."""

    @property
    def file_by(self) -> date | None:
        """The last day to file; None while the repair is not done, or where the plan sets none."""

    @property
    def approval_wanted(self) -> bool:
        """Whether the maker's approval was lacking when the claim was last judged."""

    @property
    def approval_until(self) -> date | None:
        """The last day of the maker's approval, while the repair waits."""


def waits_for(claim: Listed, terms: Terms | None, today: date) -> str:
    """What is to happen next with a listed claim; an empty text where it is settled.

    Source: common practice, no source; the dates are those of the plan and the terms.
    """
    if claim.state == "draft":
        ran_out = claim.approval_until is not None and claim.approval_until < today
        return _draft(claim.verdict, claim.file_by, claim.approval_wanted or ran_out, today)
    if claim.state == "paid" and claim.refused_rest:
        return _of_the_rest(claim, claim.currency, terms)
    return _filed(as_of(claim, terms, today), claim.outstanding, terms, today)


def is_late(claim: Listed, today: date) -> bool:
    """Whether a claim waits to be filed, and its last day to file is past.

    Source: the plan's filing limit; the last day counts.
    """
    waits_to_be_filed = claim.state == "draft" and claim.verdict == "covered"
    return waits_to_be_filed and claim.file_by is not None and today > claim.file_by


def standing_waits_for(standing: Standing, digest: Digest, terms: Terms | None, today: date) -> str:
    """What is to happen next with a claim of which everything is known; an empty text where it is settled.

    Source: common practice, no source; the dates are those of the plan and the terms.
    """
    if standing.state == "draft":
        return _draft(digest.verdict, digest.file_by, digest.approval_wanted, today)
    if standing.state == "paid" and standing.refused_rest:
        return _of_the_rest(standing, standing.currency, terms)
    return _filed(standing_as_of(standing, terms, today), standing.outstanding, terms, today)


def _of_the_rest(claim: Filed, currency: str, terms: Terms | None) -> str:
    dates, rest = payment_dates(claim, terms), in_money(claim.refused_rest, currency)
    if dates.answered_late:
        return f"chase {rest}: silence accepted it on {dates.accepted_by_silence_on}"
    return f"contest or write off {rest}"


def _filed(claim: Filed, outstanding: Decimal, terms: Terms | None, today: date) -> str:
    if claim.state == "accepted" and not outstanding:
        return NOTHING_OWED
    return next_step(claim, payment_dates(claim, terms), today) if claim.state in PENDING else ""


def _draft(verdict: str, file_by: date | None, approval_wanted: bool, today: date) -> str:
    if verdict == "undecided":
        return "find out if it is covered"
    if verdict == "not covered":
        return "tell the owner: not covered"
    first = "get the maker's approval, " if approval_wanted else ""
    if file_by is None:
        return f"{first}repair, then file"
    return f"{first}file by {file_by}{' (late)' if today > file_by else ''}"
