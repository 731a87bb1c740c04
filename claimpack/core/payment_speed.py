"""How fast claims are paid: overall, and by maker where there are enough claims to say."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.reported import Days, ReportedClaim, by_maker
from claimpack.core.survival import WAITED_FOR, PaymentCurve, Wait, payment_curve, waits

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

    `in_part` counts the open claims for which some money came; `left_out` those filed that nobody waits for any more.
    """

    curve: PaymentCurve
    paid: int
    still_open: int
    makers: tuple[MakerSpeed, ...]
    too_few: tuple[str, ...]
    in_part: int = 0
    left_out: int = 0

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


def payment_speed(claims: Sequence[ReportedClaim], days: Days, today: date) -> PaymentSpeed:
    """How fast the claims filed within the days are paid in full, as far as accepted; those still open count as open.

    Source: Kaplan and Meier 1958; ten claims as the least is common practice, no source.
    """
    filed = [claim for claim in claims if days.hold(claim.filed)]
    speeds, too_few = [], []
    for maker, some in by_maker(filed).items():
        waited = waits(some, today)
        if len(waited) >= ENOUGH:
            speeds.append(_maker_speed(maker, waited))
        elif waited:
            too_few.append(maker)
    whole = waits(filed, today)
    paid = sum(wait.paid for wait in whole)
    ordered = sorted(speeds, key=lambda speed: (speed.median is None, speed.median or 0, speed.maker))
    in_part = sum(claim.paid > 0 for claim in filed if claim.state in WAITED_FOR)
    left_out = len(filed) - len(whole)
    curve, still_open = payment_curve(whole), len(whole) - paid
    return PaymentSpeed(curve, paid, still_open, tuple(ordered), tuple(too_few), in_part, left_out)


def _maker_speed(maker: str, waited: Sequence[Wait]) -> MakerSpeed:
    curve = payment_curve(waited)
    paid = sum(wait.paid for wait in waited)
    return MakerSpeed(maker, paid, len(waited) - paid, curve.quarter, curve.median, curve.three_quarters)


def paid_within(curve: PaymentCurve, marks: Sequence[int] = MARKS) -> tuple[PaidWithin, ...]:
    """The share paid at each of the marks that the claims were watched for, in their order."""
    found = []
    for mark in marks:
        before = [step for step in curve.steps if step.day <= mark]
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
