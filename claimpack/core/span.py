"""The days that judging runs on: where cover starts, and the day a claim is judged on."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.claim import Claim
from claimpack.core.periods import moved
from claimpack.core.plan import Plan
from claimpack.core.reasons import Reason, passes, unknown


class Day(NamedTuple):
    """A day that judging needs, None while a fact is missing, and the reason."""

    on: date | None
    reason: Reason


def start_of_cover(claim: Claim, plan: Plan, roles: Sequence[str]) -> Day:
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
        if on:
            return Day(on=on, reason=passes("start", "start.from", starts=on, role_word=role))
    wanted = "|".join(f"dates.{role}" for role in roles)
    return Day(on=None, reason=unknown("start", f"dates.{roles[0]}", "start.unknown", roles_word=wanted))


def _start_without_proof(claim: Claim, plan: Plan) -> Day:
    built = claim.unit.built
    if built is None:
        return Day(on=None, reason=unknown("start", "unit.built", "start.built-unknown"))
    after = plan.start_without_proof.after if plan.start_without_proof else None
    if after is None:
        return Day(on=built, reason=passes("start", "start.without-proof-at-built", starts=built))
    starts, seen = moved(built, after), claim.dates.failed or claim.dates.presented
    if starts > seen:
        facts = {"starts": seen, "after_period": after, "built": built}
        return Day(on=seen, reason=passes("start", "start.without-proof-at-event", **facts))
    reason = passes("start", "start.without-proof", starts=starts, after_period=after, built=built)
    return Day(on=starts, reason=reason)


def event_day(claim: Claim, plan: Plan) -> Day:
    """The day a claim is judged on: presented, failed or repaired, as the plan says.

    Source: the day a unit is presented fixes cover: common practice, no source.
    """
    role = plan.judged_on
    on = getattr(claim.dates, role)
    if on is None:
        return Day(on=None, reason=unknown("event", f"dates.{role}", "event.unknown", role_word=role))
    return Day(on=on, reason=passes("event", "event.on", event=on, role_word=role))
