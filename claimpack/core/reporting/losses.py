"""Money that is lost, by cause: what was not filed, not sent in again, not kept, not chased, or given up otherwise."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING, NamedTuple

from claimpack.core.events.part_state import HeldStanding
from claimpack.core.events.standing import Standing
from claimpack.core.payment.payment_dates import payment_dates
from claimpack.core.reporting.reported import CAUSES, Cause, Days, Loss, ReportedClaim
from claimpack.core.values.money import ZERO

if TYPE_CHECKING:
    from claimpack.core.judging.claim_summary import ClaimSummary
    from claimpack.core.plans.terms import Terms


class Whose(NamedTuple):
    """A claim as losses are told of it: its number and maker, its terms, whether a letter about it is noted."""

    number: str
    maker: str
    terms: Terms | None
    is_chased: bool


def losses_of(whose: Whose, standing: Standing, summary: ClaimSummary, today: date) -> Iterator[Loss]:
    """What is lost of one claim. A draft past its last day to file counts, though a maker may still take it late.

    Money taken back counts where the part it hung on was called back and not sent, or was not found; other money that
    is owed again is not lost yet.

    Source: a rule of this tool's, no source; the days are those of the plan and the terms.
    """

    def lost(cause: Cause, amount: Decimal) -> Iterator[Loss]:
        on = standing.first_filed or summary.file_by
        if amount > 0 and on:
            yield Loss(whose.number, whose.maker, cause, amount, standing.currency or summary.currency, on)

    if standing.state == "draft":
        if summary.verdict == "covered" and summary.file_by and today > summary.file_by:
            yield from lost("missed filing", summary.claimed)
        return
    dates = payment_dates(standing, whose.terms)
    too_late = dates.resubmit_by is not None and today > dates.resubmit_by and dates.answered_late is None
    if too_late:
        yield from lost("missed resubmission", standing.outstanding)
    taken = sum((max(-payment.amount, ZERO) for payment in standing.payments), ZERO)
    unkept = min(taken, max(standing.owed - standing.paid, ZERO)) if _is_not_kept(standing.parts, today) else ZERO
    yield from lost("part not kept", unkept)
    yield from lost("refused", standing.rest_written_off)
    # what was not kept may be written off since, and counts once
    given_up = standing.written_off - standing.rest_written_off - unkept
    yield from lost(_why_given_up(standing, summary, taken, is_chased=whose.is_chased), given_up)


def _is_not_kept(parts: Iterable[HeldStanding], today: date) -> bool:
    """Whether a part was called back and is not sent though its day is past, or was not found."""
    return any(
        part.missing is not None
        or (part.called_back and part.sent is None and (part.scrapped or (part.send_by and part.send_by < today)))
        for part in parts
    )


def _why_given_up(standing: Standing, summary: ClaimSummary, taken: Decimal, *, is_chased: bool) -> Cause:
    if taken:
        return "charged back"
    # what the maker paid on was not lost by the day it was filed
    is_late = summary.file_by and standing.first_filed and standing.first_filed > summary.file_by
    if is_late and not standing.payments and standing.accepted_on is None:
        return "missed filing"
    refused = bool(standing.answers) and standing.answers[-1].answer == "refused"
    if refused:
        return "missed resubmission" if standing.refused_for_form else "refused"
    if standing.payments:
        return "short pay, chased in vain" if is_chased else "short pay, no letter noted"
    return "given up unpaid"


class LostByCause(NamedTuple):
    """What is lost for one cause in one currency."""

    cause: Cause
    currency: str
    claims: int
    amount: Decimal


class Losses:
    """What is lost within the days, by cause in their order and by currency."""

    def __init__(self, days: Days) -> None:
        self._days = days
        self._found: dict[tuple[Cause, str], LostByCause] = {}

    def add(self, claim: ReportedClaim) -> None:
        """Count what is lost of one claim."""
        within = [loss for loss in claim.losses if self._days.hold(loss.on)]
        for key in dict.fromkeys((loss.cause, loss.currency) for loss in within):
            sums = self._found.get(key, LostByCause(*key, 0, ZERO))
            amount = sum((loss.amount for loss in within if (loss.cause, loss.currency) == key), sums.amount)
            self._found[key] = sums._replace(claims=sums.claims + 1, amount=amount)

    def told(self) -> tuple[LostByCause, ...]:
        """What was counted."""
        return tuple(sorted(self._found.values(), key=lambda one: (CAUSES.index(one.cause), one.currency)))
