"""The ledger: one flat line a claim, for the accountant."""

from __future__ import annotations

from datetime import date

from claimpack.core.claims.claim import Claim
from claimpack.core.events.standing import Standing
from claimpack.core.events.states import told_state
from claimpack.core.facts.record import Record
from claimpack.core.judging.claim_summary import ClaimSummary, maker_shown
from claimpack.core.values.money import Number, coins, grouped, in_money, plain


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
    not_accepted: Number
    memos: str


def ledger_line(claim: Claim, standing: Standing, summary: ClaimSummary) -> LedgerLine:
    """The line of a claim; what a draft claims is what it would claim today."""
    dates = claim.dates
    currency = standing.currency or summary.currency
    claimed = standing.claimed if standing.filed else summary.claimed
    accepted = standing.accepted
    return LedgerLine(
        number=claim.number,
        state=standing.state,
        maker=maker_shown(claim, summary),
        model=claim.unit.model,
        serials="; ".join(f"{serial.role} {serial.value}" for serial in claim.unit.serials),
        owner=claim.owner.name,
        component=claim.what_failed(),
        plan=summary.plan,
        verdict=summary.verdict,
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
        claimed=coins(claimed, currency),
        accepted=None if accepted is None else coins(accepted, currency),
        paid=coins(standing.paid, currency),
        written_off=coins(standing.written_off, currency),
        outstanding=coins(standing.outstanding, currency),
        not_accepted=coins(standing.refused_rest, currency),
        memos="; ".join(dict.fromkeys(payment.memo for payment in standing.payments if payment.memo)),
    )


def state_in_words(standing: Standing) -> str:
    """The state of a claim as people say it: one whose rest is refused is accepted in part."""
    return "accepted in part" if standing.state == "accepted" and standing.refused_rest else told_state(standing.state)


def standing_in_words(standing: Standing) -> str:
    """Where a filed claim stands with its money, in one sentence."""
    said = [f"claimed {in_money(standing.claimed, standing.currency)}"]
    if standing.accepted is not None:
        said.append(f"accepted {grouped(coins(standing.accepted, standing.currency))}")
    if standing.payments:
        said.append(f"paid {grouped(coins(standing.paid, standing.currency))}")
    if standing.written_off:
        said.append(f"written off {grouped(coins(standing.written_off, standing.currency))}")
    said.append(f"outstanding {grouped(coins(standing.outstanding, standing.currency))}")
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
        "claimed": plain(coins(standing.claimed, currency)),
        "accepted": None if standing.accepted is None else plain(coins(standing.accepted, currency)),
        "paid": plain(coins(standing.paid, currency)),
        "written_off": plain(coins(standing.written_off, currency)),
        "outstanding": plain(coins(standing.outstanding, currency)),
        "refused_rest": plain(coins(standing.refused_rest, currency)),
    }


def _iso(day: date | None) -> str | None:
    return day.isoformat() if day else None
