"""The days that judging runs on, known or not yet; and the day a claim is judged on."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.facts.dates import Dates
from claimpack.core.plans.plan import Plan
from claimpack.core.windows.reasons import Reason, passes, unknown


class JudgedDay(NamedTuple):
    """A day that judging needs, None while a fact is missing, and the reason.

    Args:
        on: the day.
        reason: where it comes from, or which fact would give it.
        earliest: the first day it may be, itself where it is known.
        latest: the last day it may be.
        may_follow: the day cover starts on, and it may lie after the event.
        is_registration: the day is that of the registration itself.
        from_sale: the time to register runs from the sale, since cover may start with the registration.
        free: the day may lie before cover starts, as that of an earlier repair may.
    """

    on: date | None
    reason: Reason
    earliest: date
    latest: date
    may_follow: bool = False
    is_registration: bool = False
    from_sale: bool = False
    free: bool = False


def before_the_sale(dates: Dates) -> bool:
    """Whether a unit is said to have been registered before it was bought, so that one of the two days is wrong."""
    return bool(dates.registered and dates.purchased and dates.registered < dates.purchased)


def known_day(on: date, reason: Reason, *, free: bool = False) -> JudgedDay:
    """A day that is known."""
    return JudgedDay(on, reason, on, on, free=free)


def event_day(claim: Claim, plan: Plan) -> JudgedDay:
    """The day a claim is judged on: presented, failed or repaired, as the plan says.

    Source: the day a unit is presented fixes cover: common practice, no source.
    """
    dates, role = claim.dates, plan.judged_on
    on = getattr(dates, role)
    if on is not None:
        return known_day(on, passes("event", "event.on", event=on, role_word=role))
    missing = unknown("event", f"dates.{role}", "event.unknown", role_word=role)
    # a repair that is not dated lies between the day it came in and the day it was ready
    if role == "repaired":
        return JudgedDay(None, missing, dates.presented, dates.returned or date.max)
    # what failed had been built and sold, and failed before it was brought in
    before = (dates.purchased, dates.delivered, dates.in_service, claim.unit.built)
    return JudgedDay(None, missing, max((day for day in before if day), default=date.min), dates.presented)
