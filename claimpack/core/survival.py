"""How long makers take to pay: Kaplan-Meier over the days from filing to payment, open claims counted as open."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from datetime import date
from decimal import Context, Decimal
from typing import NamedTuple

from claimpack.core.reported import ReportedClaim

_EXACT = Context(prec=40)
_Z_95 = Decimal("1.959963984540054235524594430520551527955")
_SHIFT = 10**40


WAITED_FOR = ("filed", "questioned", "accepted")
"""States of a claim whose payment is waited for."""


class Wait(NamedTuple):
    """Days a claim waited for its payment; not paid means that it still waits."""

    days: int
    paid: bool


class Step(NamedTuple):
    """What a day shows: claims still waiting before it, paid on it, seen no further; the share not yet paid after it.

    The band is the 95 % confidence band; it is None once every claim at risk was paid, where it is not defined.
    """

    day: int
    at_risk: int
    paid: int
    still_open: int
    unpaid: Decimal
    low: Decimal | None
    high: Decimal | None


class PaymentCurve(NamedTuple):
    """The share of claims not yet paid, by days since filing.

    Args:
        steps: every day on which a claim was paid or seen for the last time, in order.
        quarter: the first day on which a quarter is paid; None where the curve does not come that far.
        median: the same for one half.
        three_quarters: the same for three quarters.
    """

    steps: tuple[Step, ...]
    quarter: int | None
    median: int | None
    three_quarters: int | None


def waits(claims: Iterable[ReportedClaim], today: date) -> list[Wait]:
    """The wait of every filed claim: to its last payment when paid, else to today.

    Claims refused, withdrawn or written off are left out: nobody waits for their payment.

    Source: common practice, no source.
    """
    found = []
    for claim in claims:
        if claim.filed is None or claim.filed > today:
            continue
        if claim.state == "paid" and claim.paid_on:
            found.append(Wait(max((claim.paid_on - claim.filed).days, 0), paid=True))
        elif claim.state in WAITED_FOR:
            found.append(Wait((today - claim.filed).days, paid=False))
    return found


def payment_curve(waited: Iterable[Wait]) -> PaymentCurve:
    """The Kaplan-Meier estimate of how long claims wait, with Greenwood's variance and a log-log band.

    A claim last seen on a day on which others were paid counts as waiting on that day. The share itself is worked out
    in whole numbers, so that a half is a half.

    Source: Kaplan and Meier 1958; Greenwood 1926; Kalbfleisch and Prentice (log-log band).
    """
    paid, still_open = Counter[int](), Counter[int]()
    for wait in waited:
        (paid if wait.paid else still_open)[wait.days] += 1
    at_risk = paid.total() + still_open.total()
    above, below, variance = 1, 1, Decimal(0)
    steps = []
    reached: dict[int, int] = {}
    for day in sorted(paid.keys() | still_open.keys()):
        left = at_risk - paid[day]
        above, below = above * left, below * at_risk
        if left and paid[day]:
            variance = _EXACT.add(variance, _EXACT.divide(Decimal(paid[day]), Decimal(at_risk * left)))
        share = Decimal(above * _SHIFT // below).scaleb(-40, _EXACT)
        steps.append(Step(day, at_risk, paid[day], still_open[day], share, *_band(share, variance)))
        for quarters in (3, 2, 1):
            if 4 * above <= quarters * below:
                reached.setdefault(quarters, day)
        at_risk = left - still_open[day]
    return PaymentCurve(tuple(steps), reached.get(3), reached.get(2), reached.get(1))


def _band(share: Decimal, variance: Decimal) -> tuple[Decimal | None, Decimal | None]:
    if share == 0:
        return None, None
    if variance == 0:
        return share, share
    log = share.ln(_EXACT)
    width = _EXACT.divide(_EXACT.multiply(_Z_95, variance.sqrt(_EXACT)), log)
    low, high = (_EXACT.power(share, (sign * width).exp(_EXACT)) for sign in (-1, 1))
    return low, high
