"""The days that judging runs on: where cover starts, and the day a claim is judged on."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import NamedTuple

from claimpack.core.claims.claim import Claim, Dates
from claimpack.core.plans.plan import Plan
from claimpack.core.values.periods import moved
from claimpack.core.windows.reasons import Reason, fails, passes, unknown


class JudgedDay(NamedTuple):
    """A day that judging needs, None while a fact is missing, and the reason.

    Args:
        on: the day.
        reason: where it comes from, or which fact would give it.
        earliest: the first day it may be, itself where it is known.
        latest: the last day it may be.
        registration: the day is the one of the registration, which may lie after the event.
        free: the day may lie before cover starts, as that of an earlier repair may.
    """

    on: date | None
    reason: Reason
    earliest: date
    latest: date
    registration: bool = False
    free: bool = False


def before_the_sale(dates: Dates) -> bool:
    """Whether a unit is said to have been registered before it was bought, so that one of the two days is wrong."""
    return bool(dates.registered and dates.purchased and dates.registered < dates.purchased)


def known_day(on: date, reason: Reason, *, registration: bool = False, free: bool = False) -> JudgedDay:
    """A day that is known."""
    return JudgedDay(on, reason, on, on, registration, free)


def start_of_cover(claim: Claim, plan: Plan, roles: Sequence[str]) -> JudgedDay:
    """The first day of cover: the first of the roles the claim has a date for.

    A claim that says it has no proof of purchase starts where the plan says such units do, but never later than the
    first day the unit was seen in use: a unit that failed had been sold.

    Source: 13 CCR 2405(a) (delivery), 13 CCR 2445.1(a) (delivery or first use): which dates count is the plan's.
    """
    fallback = plan.start_without_proof
    if claim.proof.kind == "none" and fallback:
        return _start_without_proof(claim, plan)
    for role in roles:
        on = getattr(claim.dates, role)
        if on and role == "registered" and before_the_sale(claim.dates):
            facts = {"registered": on, "purchased": claim.dates.purchased}
            return _not_known(claim, role, unknown("start", "dates.registered", "start.before-sale", **facts))
        if on:
            reason = passes("start", "start.from", starts=on, role_word=role)
            return known_day(on, reason, registration=role == "registered")
    open_roles = [role for role in roles if role != "registered" or not claim.dates.never_registered]
    if not open_roles:
        return JudgedDay(None, fails("start", "start.never-registered"), date.max, date.max)
    wanted = "|".join(f"dates.{role}" for role in open_roles)
    missing = unknown("start", f"dates.{open_roles[0]}", "start.unknown", roles_word=wanted)
    return _not_known(claim, open_roles[0], missing)


def _not_known(claim: Claim, role: str, reason: Reason) -> JudgedDay:
    """A start that is not known, between the days that the claim's other ones leave it."""
    registration = role == "registered"
    earliest = date.min if role in ("purchased", "registered") else claim.unit.built or date.min
    # A unit may be registered when it is already broken: cover would start after the event.
    after = (claim.dates.repaired or claim.dates.presented) + timedelta(days=1)
    latest = after if registration else _seen_broken(claim)
    return JudgedDay(None, reason, earliest, latest, registration)


def _start_without_proof(claim: Claim, plan: Plan) -> JudgedDay:
    built, seen = claim.unit.built, _seen_in_use(claim)
    after = plan.start_without_proof.after if plan.start_without_proof else None
    if built is None:
        built_by = min([seen, *([claim.dates.delivered] if claim.dates.delivered else [])])
        latest = min(moved(built_by, after), seen) if after else built_by
        return JudgedDay(None, unknown("start", "unit.built", "start.built-unknown"), date.min, latest)
    if after is None:
        return known_day(built, passes("start", "start.without-proof-at-built", starts=built))
    starts, seen = moved(built, after), max(built, seen)
    if starts > seen:
        facts = {"starts": seen, "after_period": after, "built": built}
        return known_day(seen, passes("start", "start.without-proof-at-event", **facts))
    return known_day(starts, passes("start", "start.without-proof", starts=starts, after_period=after, built=built))


def _seen_broken(claim: Claim) -> date:
    return claim.dates.failed or claim.dates.presented


def _seen_in_use(claim: Claim) -> date:
    """The first day a claim tells of on which the unit was in use."""
    repaired = [earlier.repaired for earlier in claim.earlier]
    return min([_seen_broken(claim), *repaired, *([claim.dates.in_service] if claim.dates.in_service else [])])


def event_day(claim: Claim, plan: Plan) -> JudgedDay:
    """The day a claim is judged on: presented, failed or repaired, as the plan says.

    Source: the day a unit is presented fixes cover: common practice, no source.
    """
    dates, role = claim.dates, plan.judged_on
    on = getattr(dates, role)
    if on is not None:
        return known_day(on, passes("event", "event.on", event=on, role_word=role))
    missing = unknown("event", f"dates.{role}", "event.unknown", role_word=role)
    if role == "repaired":
        return JudgedDay(None, missing, dates.presented, date.max)
    before = (dates.purchased, dates.delivered, dates.in_service, claim.unit.built)
    return JudgedDay(None, missing, max((day for day in before if day), default=date.min), dates.presented)
