"""What is filed and not settled: how old, whose turn, what is due, what to do first."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import Any, Literal, NamedTuple

from claimpack.core.payment.next_step import next_step, nothing_is_owed, waits_for_part
from claimpack.core.payment.payment_dates import PaymentDates, Turn, days_overdue, payment_dates, turn
from claimpack.core.payment.silence import as_of
from claimpack.core.plans.terms import Terms
from claimpack.core.steps.listed import ListedClaim
from claimpack.core.values.ageing import BY_AGE, BY_DUE, age, age_bucket, due_bucket
from claimpack.core.values.money import ZERO, plain, rounded
from claimpack.core.values.words import folded

Ageing = Literal["filed", "first filed", "due"]


class Pending(NamedTuple):
    """One claim that is filed and not settled."""

    claim: str
    maker: str
    state: str
    filed: date
    first_filed: date
    age_days: int
    bucket: str
    currency: str
    claimed: Decimal
    paid: Decimal
    outstanding: Decimal
    turn: Turn
    step: str
    dates: PaymentDates
    days_overdue: int
    terms: str
    cites: str
    part_awaited: bool
    owed_again: bool
    chased_on: date | None
    ask_again: date | None

    @property
    def is_late(self) -> bool:
        """Whether the maker is late with it, or took back what no audit could reach: a letter can be written."""
        return bool(self.days_overdue or self.owed_again or self.dates.audit_reached_to)


def pending(
    claims: Iterable[ListedClaim], terms_of: Mapping[str, Terms], today: date, ageing: Ageing = "filed"
) -> list[Pending]:
    """The claims that are filed and not settled: what is late, what waits for the shop, the rest; most money first.

    Args:
        claims: filed claims.
        terms_of: the payment terms in force, by claim number; a claim without an entry has none.
        today: the day it is.
        ageing: buckets by days since the last filing or the first, or by days past the due date.

    Source: common practice, no source; the dates are those of the terms.
    """
    found = [_pending(claim, terms_of.get(claim.number), today, ageing) for claim in claims if claim.filed]
    # money of two currencies has no order among each other: the currency most claims are in comes first
    often = Counter(item.currency for item in found)
    return sorted(found, key=lambda item: (_whose(item), -often[item.currency], item.currency, *_worth(item, today)))


def _pending(filed_claim: ListedClaim, terms: Terms | None, today: date, ageing: Ageing) -> Pending:
    claim = as_of(filed_claim, terms, today)
    filed = claim.filed or today
    dates = payment_dates(claim, terms)
    # accepted and with nothing left to come in: only the shop can close it
    closed = nothing_is_owed(claim)
    waits = waits_for_part(claim, dates, today)
    overdue = 0 if closed else days_overdue(claim, dates, today)
    due = dates.pay_due or dates.answer_due or dates.owed_again
    since = claim.first_filed or filed if ageing == "first filed" else filed
    bucket = due_bucket((today - due).days if due else 0) if ageing == "due" else age_bucket(age(since, today))
    return Pending(
        claim=claim.number,
        maker=claim.maker,
        state=claim.state,
        filed=filed,
        first_filed=claim.first_filed or filed,
        age_days=age(since, today),
        bucket=bucket,
        currency=claim.currency,
        claimed=claim.claimed,
        paid=claim.paid,
        outstanding=claim.outstanding,
        turn="shop" if closed or waits else turn(claim, dates),
        step=next_step(claim, dates, today),
        dates=dates,
        days_overdue=overdue,
        terms=terms.id if terms and terms.is_known else "",
        cites=terms.cites if terms else "",
        part_awaited=waits,
        owed_again=dates.is_owed_again(today),
        chased_on=claim.chased_on,
        ask_again=claim.ask_again,
    )


def _whose(item: Pending) -> int:
    """What the maker is late with first, then what waits for the shop, then what waits for the maker."""
    if not item.part_awaited and item.is_late:
        return 0
    return 1 if item.turn == "shop" else 2


def _worth(item: Pending, today: date) -> tuple[Decimal, int, str]:
    """Most money first; of the same amount the nearest date, then the oldest."""
    nearest = next_date(item.dates)
    # without any date to come it goes after all that have one
    return -item.outstanding, (nearest - today).days if nearest else 100_000, f"{item.filed}{item.claim}"


def next_date(dates: PaymentDates) -> date | None:
    """The next date somebody must keep."""
    return min((day for day in (dates.answer_due, dates.pay_due, dates.resubmit_by) if day), default=None)


def totals(
    items: Iterable[Pending], ageing: Ageing = "filed"
) -> tuple[dict[str, Decimal], dict[str, dict[str, Decimal]]]:
    """Outstanding by currency, and by bucket and currency; every bucket is there."""
    whole: dict[str, Decimal] = {}
    by_bucket: dict[str, dict[str, Decimal]] = {name: {} for name in (BY_DUE if ageing == "due" else BY_AGE)}
    for item in items:
        whole[item.currency] = whole.get(item.currency, ZERO) + item.outstanding
        bucket = by_bucket[item.bucket]
        bucket[item.currency] = bucket.get(item.currency, ZERO) + item.outstanding
    return whole, by_bucket


def older_than(days: int | None, items: Iterable[Pending]) -> list[Pending]:
    """The claims filed more than so many days ago; all of them where no number is given."""
    return [item for item in items if days is None or item.age_days > days]


def grouped(items: Iterable[Pending], by: str, whose: Callable[[str], str] = lambda _: "") -> dict[str, list[Pending]]:
    """The claims by maker, bucket, turn, terms or shop; each group in the order of the list, buckets young to old.

    Args:
        items: the claims.
        by: the field they are grouped by, or `shop`.
        whose: the shop of a claim, by its number.
    """
    found: dict[str, list[Pending]] = {}
    names: dict[str, str] = {}
    for item in items:
        name = (whose(item.claim) if by == "shop" else str(getattr(item, by))) or f"no {by}"
        # one maker spelt two ways is one group, under the spelling that was met first
        found.setdefault(names.setdefault(folded(name), name) if by == "maker" else name, []).append(item)
    order = {name: place for place, name in enumerate((*BY_DUE, *BY_AGE))} if by == "bucket" else {}
    return dict(sorted(found.items(), key=lambda pair: (order.get(pair[0], 0), pair[0])))


def tally(items: Sequence[Pending], ageing: Ageing = "filed", currency: str = "") -> dict[str, Any]:
    """The totals as scripts read them: decimal texts in one currency; by currency where there are several.

    Args:
        items: the claims.
        ageing: which buckets.
        currency: the shop's, for a list that holds no claim.
    """
    whole, by_bucket = totals(items, ageing)
    sums = {
        code: {
            "outstanding": _amount(whole.get(code, ZERO), code),
            "by_bucket": {name: _amount(amounts.get(code, ZERO), code) for name, amounts in by_bucket.items()},
        }
        for code in (whole or {currency: ZERO})
    }
    # scripts read one sum where there is one currency; a sum over several would be no money at all
    if len(sums) == 1:
        code, only = next(iter(sums.items()))
        return {**only, "currency": code or None}
    return {"outstanding": None, "by_bucket": None, "currency": None, "by_currency": sums}


def tally_of(items: Sequence[Pending]) -> dict[str, Any]:
    """How many claims a group holds, and what is outstanding in each currency."""
    whole, _ = totals(items)
    return {"claims": len(items), "outstanding": {code: _amount(amount, code) for code, amount in whole.items()}}


def _amount(amount: Decimal, currency: str) -> str:
    return plain(rounded(amount, currency) if currency else amount)


def as_json(item: Pending) -> dict[str, Any]:
    """One claim as scripts read it; dates are ISO 8601, money is decimal text."""
    return {
        "claim": item.claim,
        "maker": item.maker,
        "state": item.state,
        "filed": item.filed.isoformat(),
        "first_filed": item.first_filed.isoformat(),
        "age_days": item.age_days,
        "bucket": item.bucket,
        "currency": item.currency,
        "claimed": _amount(item.claimed, item.currency),
        "paid": _amount(item.paid, item.currency),
        "outstanding": _amount(item.outstanding, item.currency),
        "turn": item.turn,
        "step": item.step,
        "part_awaited": item.part_awaited,
        "answer_due": _iso(item.dates.answer_due),
        "answer_estimated": item.dates.answer_estimated,
        "accepted_by_silence_on": _iso(item.dates.accepted_by_silence_on),
        "refused_by_silence_on": _iso(item.dates.refused_by_silence_on),
        "no_grounds_on": _iso(item.dates.no_grounds_on),
        "pay_due": _iso(item.dates.pay_due),
        "owed_again": _iso(item.dates.owed_again),
        "audit_reached_to": _iso(item.dates.audit_reached_to),
        "resubmit_by": _iso(item.dates.resubmit_by),
        "days_overdue": item.days_overdue,
        "chased_on": _iso(item.chased_on),
        "ask_again": _iso(item.ask_again),
        "terms": item.terms or None,
        "terms_unread": item.dates.terms_unread or None,
        "cites": item.cites or None,
    }


def _iso(day: date | None) -> str | None:
    return day.isoformat() if day else None
