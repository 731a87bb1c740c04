"""What makers refused of claims they accepted in part, while nobody has sent it in again or let it go."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING, Any, NamedTuple

from claimpack.core.payment.payment_dates import payment_dates
from claimpack.core.steps.listed import ListedClaim
from claimpack.core.values.money import coins, plain

if TYPE_CHECKING:
    from claimpack.core.plans.terms import Terms


class RefusedRest(NamedTuple):
    """What a maker refused of one claim, to be contested or let go.

    Where silence had accepted the whole claim before, `accepted_by_silence_on` is the day, and `pay_due` the last day
    to pay it.
    """

    claim: str
    maker: str
    currency: str
    amount: Decimal
    accepted_by_silence_on: date | None = None
    pay_due: date | None = None


def refused_rests(claims: Iterable[ListedClaim], terms_of: Mapping[str, Terms]) -> tuple[RefusedRest, ...]:
    """The rests that wait for somebody to decide, by claim number; terms are those in force, by claim number.

    Source: common practice, no source; what silence accepted, the section the terms cite.
    """
    found = [_rest(claim, terms_of.get(claim.number)) for claim in claims if claim.refused_rest]
    return tuple(sorted(found, key=lambda rest: rest.claim))


def _rest(claim: ListedClaim, terms: Terms | None) -> RefusedRest:
    rest = RefusedRest(claim.number, claim.maker, claim.currency, claim.refused_rest)
    dates = payment_dates(claim, terms)
    if dates.answered_late is None:
        return rest
    return rest._replace(accepted_by_silence_on=dates.accepted_by_silence_on, pay_due=dates.pay_due)


def rest_as_json(rest: RefusedRest) -> dict[str, Any]:
    """A rest as scripts read it; dates are ISO 8601, money is decimal text."""
    silent, pay_due = (day.isoformat() if day else None for day in (rest.accepted_by_silence_on, rest.pay_due))
    amount = plain(coins(rest.amount, rest.currency))
    return {**rest._asdict(), "amount": amount, "accepted_by_silence_on": silent, "pay_due": pay_due}
