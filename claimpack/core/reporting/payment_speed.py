"""How fast claims are paid: overall, and by maker where there are enough claims to say."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Context, Decimal
from typing import NamedTuple

from claimpack.core.reporting.reported import Days, ReportedClaim
from claimpack.core.values.words import folded

_EXACT = Context(prec=40)
_Z_95 = Decimal("1.959963984540054235524594430520551527955")
_SHIFT = 10**40


WAITED_FOR = ("filed", "questioned", "accepted")
"""States of a claim whose payment is waited for."""


class Wait(NamedTuple):
    """Days a claim waited for its payment; not paid means that it still waits."""

    days: int
    paid: bool


class CurveStep(NamedTuple):
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

    steps: tuple[CurveStep, ...]
    quarter: int | None
    median: int | None
    three_quarters: int | None


def wait_of(claim: ReportedClaim, today: date) -> Wait | None:
    """The wait of a filed claim: to its last payment when paid, else to today.

    None of a claim that is refused, withdrawn or written off: nobody waits for its payment.

    Source: common practice, no source.
    """
    if claim.filed is None or claim.filed > today:
        return None
    if claim.state == "paid" and claim.paid_on:
        # money that came before the claim was filed anew counts as on the day
        return Wait(max((claim.paid_on - claim.filed).days, 0), paid=True)
    return Wait((today - claim.filed).days, paid=False) if claim.state in WAITED_FOR else None


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
        steps.append(CurveStep(day, at_risk, paid[day], still_open[day], share, *_band(share, variance)))
        for quarters in (3, 2, 1):
            # in whole numbers: a share of exactly a half would miss its mark by a rounding
            if 4 * above <= quarters * below:
                reached.setdefault(quarters, day)
        # those seen no further leave after the payments of their day: they were still waiting then
        at_risk = left - still_open[day]
    return PaymentCurve(tuple(steps), reached.get(3), reached.get(2), reached.get(1))


def _band(share: Decimal, variance: Decimal) -> tuple[Decimal | None, Decimal | None]:
    if share == 0:
        return None, None
    # nobody paid yet: there is no band about certainty
    if variance == 0:
        return share, share
    log = share.ln(_EXACT)
    width = _EXACT.divide(_EXACT.multiply(_Z_95, variance.sqrt(_EXACT)), log)
    low, high = (_EXACT.power(share, (sign * width).exp(_EXACT)) for sign in (-1, 1))
    return low, high


ENOUGH = 10
"""How many claims a maker must have before its speed is told."""

ENOUGH_PAYMENTS = 5
"""How many payments there must be before a curve is drawn or a median told."""

MARKS = (15, 30, 45, 60, 90, 120, 180, 365)
"""The days since filing that a table shows."""


class MakerSpeed(NamedTuple):
    """How fast one maker pays: the days until a quarter, half and three quarters are paid, None where not that far."""

    maker: str
    paid: int
    still_open: int
    quarter: int | None
    median: int | None
    three_quarters: int | None


class PaymentSpeed(NamedTuple):
    """How fast claims are paid in full: the curve, the makers from fast to slow, and those with too few claims to say.

    `in_part` counts the open claims for which some money came; `left_out` those filed that nobody waits for any more,
    and `left_paid` those of them that had brought money.
    """

    curve: PaymentCurve
    paid: int
    still_open: int
    makers: tuple[MakerSpeed, ...]
    too_few: tuple[str, ...]
    in_part: int = 0
    left_out: int = 0
    left_paid: int = 0

    @property
    def enough(self) -> bool:
        """Whether there are payments enough for a curve."""
        return self.paid >= ENOUGH_PAYMENTS


class PaidWithin(NamedTuple):
    """The share paid within so many days of filing, from 0 to 1, with its band; waiting is known of that many."""

    days: int
    share: Decimal
    low: Decimal | None
    high: Decimal | None
    waiting: int


class PaymentSpeeds:
    """How fast the claims filed within the days are paid in full, as far as accepted; those still open count as open.

    Source: Kaplan and Meier 1958; ten claims as the least is common practice, no source.
    """

    def __init__(self, days: Days, today: date) -> None:
        self._days, self._today = days, today
        self._whole = Counter[Wait]()
        self._by_maker: dict[str, tuple[str, Counter[Wait]]] = {}
        self._in_part = self._left_out = self._left_paid = 0

    def add(self, claim: ReportedClaim) -> None:
        """Count one claim."""
        if not self._days.hold(claim.filed):
            return
        # spellings that differ only in case are one maker, by the first of them
        _, waits = self._by_maker.setdefault(folded(claim.maker), (claim.maker, Counter()))
        wait = wait_of(claim, self._today)
        if wait is None:
            self._left_out += 1
        else:
            waits[wait] += 1
            self._whole[wait] += 1
        self._in_part += claim.state in WAITED_FOR and claim.paid > 0
        self._left_paid += claim.state not in (*WAITED_FOR, "paid") and claim.paid_on is not None

    def told(self) -> PaymentSpeed:
        """What was counted."""
        makers = [both for _, both in sorted(self._by_maker.items())]
        speeds = [_maker_speed(maker, waits) for maker, waits in makers if waits.total() >= ENOUGH]
        too_few = tuple(maker for maker, waits in makers if 0 < waits.total() < ENOUGH)
        ordered = tuple(sorted(speeds, key=lambda speed: (speed.median is None, speed.median or 0, speed.maker)))
        paid, still_open = _counted(self._whole)
        curve, others = payment_curve(self._whole.elements()), (self._in_part, self._left_out, self._left_paid)
        return PaymentSpeed(curve, paid, still_open, ordered, too_few, *others)


def _maker_speed(maker: str, waits: Counter[Wait]) -> MakerSpeed:
    curve = payment_curve(waits.elements())
    return MakerSpeed(maker, *_counted(waits), curve.quarter, curve.median, curve.three_quarters)


def _counted(waits: Counter[Wait]) -> tuple[int, int]:
    """How many were paid, and how many are still open."""
    paid = sum(often for wait, often in waits.items() if wait.paid)
    return paid, waits.total() - paid


def paid_within(curve: PaymentCurve, marks: Sequence[int] = MARKS) -> tuple[PaidWithin, ...]:
    """The share paid at each of the marks that the claims were watched for, in their order."""
    found = []
    for mark in marks:
        before = [step for step in curve.steps if step.day <= mark]
        # beyond the last day that anybody was watched nothing is known
        if not curve.steps or mark > curve.steps[-1].day:
            break
        if not before:
            found.append(PaidWithin(mark, Decimal(0), None, None, curve.steps[0].at_risk))
            continue
        step = before[-1]
        low, high = (None if step.high is None else 1 - step.high), (None if step.low is None else 1 - step.low)
        waiting = step.at_risk - step.paid - step.still_open
        found.append(PaidWithin(mark, 1 - step.unpaid, low, high, waiting))
    return tuple(found)
