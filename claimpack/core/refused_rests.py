"""What makers refused of claims they accepted in part, while nobody has sent it in again or let it go."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from typing import Any, NamedTuple, Protocol

from claimpack.core.money import coins, in_money, plain
from claimpack.core.reported import summed

_MOST_NAMED = 6


class AcceptedInPart(Protocol):
    """A claim, with what the maker refused of it; nothing where it refused nothing, or it was let go."""

    @property
    def number(self) -> str:
        """Its number."""

    @property
    def maker(self) -> str:
        """The maker."""

    @property
    def currency(self) -> str:
        """The currency of its amounts."""

    @property
    def refused_rest(self) -> Decimal:
        """What the maker refused."""


class RefusedRest(NamedTuple):
    """What a maker refused of one claim, to be contested or let go."""

    claim: str
    maker: str
    currency: str
    amount: Decimal


def refused_rests(claims: Iterable[AcceptedInPart]) -> tuple[RefusedRest, ...]:
    """The rests that wait for somebody to decide, by claim number.

    Source: common practice, no source.
    """
    found = [RefusedRest(claim.number, claim.maker, claim.currency, claim.refused_rest) for claim in claims]
    return tuple(sorted(rest for rest in found if rest.amount))


def rests_said(rests: Iterable[RefusedRest]) -> str:
    """How much was refused, and of which claims; empty where nothing was."""
    found = list(rests)
    if not found:
        return ""
    sums = summed((rest.currency, rest.amount) for rest in found).items()
    amounts = " and ".join(in_money(amount, currency) for currency, amount in sums)
    named = [rest.claim for rest in found[:_MOST_NAMED]]
    more = f" and {len(found) - len(named)} more" if len(found) > len(named) else ""
    many = f"{len(found)} claim{'' if len(found) == 1 else 's'} accepted in part"
    return f"{amounts} refused of {many}, to be sent in again or let go: {', '.join(named)}{more}"


def rest_as_json(rest: RefusedRest) -> dict[str, Any]:
    """A rest as scripts read it; money is decimal text."""
    return {**rest._asdict(), "amount": plain(coins(rest.amount, rest.currency))}
