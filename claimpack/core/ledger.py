"""The ledger: one flat line a claim, for the accountant."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from claimpack.core.claim import Claim, Record
from claimpack.core.digest import Digest
from claimpack.core.money import Number, in_money, plain, rounded
from claimpack.core.states import Standing


class LedgerLine(Record):
    """A claim in one line; amounts are in its currency, days are None where they have not come."""

    number: str
    state: str
    maker: str
    model: str
    serials: str
    owner: str
    component: str
    plan: str
    verdict: str
    purchased: date | None
    failed: date | None
    presented: date
    repaired: date | None
    filed: date | None
    received: date | None
    answered: date | None
    paid_on: date | None
    reference: str
    because: str
    currency: str
    claimed: Number
    accepted: Number | None
    paid: Number
    written_off: Number
    outstanding: Number


def ledger_line(claim: Claim, standing: Standing, digest: Digest) -> LedgerLine:
    """The line of a claim; what a draft claims is what it would claim today."""
    dates = claim.dates
    currency = standing.currency or digest.currency
    claimed = standing.claimed if standing.filed else digest.claimed
    accepted = standing.accepted
    return LedgerLine(
        number=claim.number,
        state=standing.state,
        maker=claim.maker,
        model=claim.unit.model,
        serials="; ".join(f"{serial.role} {serial.value}" for serial in claim.unit.serials),
        owner=claim.owner.name,
        component=claim.component(),
        plan=digest.plan,
        verdict=digest.verdict,
        purchased=dates.purchased,
        failed=dates.failed,
        presented=dates.presented,
        repaired=dates.repaired,
        filed=standing.filed,
        received=standing.received,
        answered=standing.answered,
        paid_on=standing.paid_on,
        reference=standing.reference,
        because=standing.because,
        currency=currency,
        claimed=_coins(claimed, currency),
        accepted=None if accepted is None else _coins(accepted, currency),
        paid=_coins(standing.paid, currency),
        written_off=_coins(standing.written_off, currency),
        outstanding=_coins(standing.outstanding, currency),
    )


def standing_in_words(standing: Standing) -> str:
    """Where a filed claim stands with its money, in one sentence."""
    said = [f"claimed {in_money(standing.claimed, standing.currency)}"]
    if standing.accepted is not None:
        said.append(f"accepted {_coins(standing.accepted, standing.currency)}")
    if standing.payments:
        said.append(f"paid {_coins(standing.paid, standing.currency)}")
    if standing.written_off:
        said.append(f"written off {_coins(standing.written_off, standing.currency)}")
    said.append(f"outstanding {_coins(standing.outstanding, standing.currency)}")
    return ", ".join(said)


def money_facts(number: str, standing: Standing) -> dict[str, str | None]:
    """Where a claim stands with its money, as scripts read it."""
    currency = standing.currency
    return {
        "claim": number,
        "state": standing.state,
        "filed": _iso(standing.filed),
        "answered": _iso(standing.answered),
        "paid_on": _iso(standing.paid_on),
        "currency": currency,
        "claimed": plain(_coins(standing.claimed, currency)),
        "accepted": None if standing.accepted is None else plain(_coins(standing.accepted, currency)),
        "paid": plain(_coins(standing.paid, currency)),
        "written_off": plain(_coins(standing.written_off, currency)),
        "outstanding": plain(_coins(standing.outstanding, currency)),
        "refused_rest": plain(_coins(standing.refused_rest, currency)),
    }


def _iso(day: date | None) -> str | None:
    return day.isoformat() if day else None


def _coins(amount: Decimal, currency: str) -> Decimal:
    """An amount with the decimals of its currency; as it is where none is known."""
    return rounded(amount, currency) if currency else amount
