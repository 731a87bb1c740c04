"""Whether a window is still open by the hour meter: its own limit, and the renewal of a part."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.window import ScheduledRenewal, Window
from claimpack.core.plans.component_words import component_meant, names_one_of, without
from claimpack.core.plans.plan import Plan
from claimpack.core.values.money import plain
from claimpack.core.windows.reasons import Reason, fails, passes, unknown

_A_DAY = 24


def most_hours(claim: Claim) -> Decimal | None:
    """The hours a unit can have run at most from the day it was built to the day it was brought in.

    Source: a day has 24 hours.
    """
    built = claim.unit.built
    # both days count whole: the first hours may be run on the day it was built, the last on the day it came in
    return None if built is None else Decimal(((claim.dates.presented - built).days + 1) * _A_DAY)


def is_impossible(claim: Claim) -> bool:
    """Whether the reading is more than the unit can have run."""
    most, read = most_hours(claim), claim.unit.hours_run
    return most is not None and read is not None and read > most


def by_hours(claim: Claim, most: Decimal) -> Reason:
    """The hour meter is not over the limit; a reading equal to it is inside.

    Source: whichever comes first, and age alone without a meter: 13 CCR 2425(b)(2), 40 CFR 1039.120(b).
    A reading equal to the limit: common practice, no source.
    """
    unit, limit = claim.unit, plain(most)
    if unit.has_hour_meter is False:
        return passes("hours", "hours.no-meter", limit=limit)
    if unit.hours_run is None:
        # two questions in one: whether there is a meter, and what it reads
        key = "hours.meter-unknown" if unit.has_hour_meter is None else "hours.unknown"
        return unknown("hours", "unit.hours", key, limit=limit)
    facts = {"hours": unit.hours_said, "limit": limit}
    if is_impossible(claim):
        return unknown("hours", "unit.hours", "hours.impossible", **facts)
    if unit.hours_run > most:
        return fails("hours", "hours.outside", over=plain(unit.hours_run - most), **facts)
    if unit.hours_run == most:
        return passes("hours", "hours.at-limit", **facts)
    return passes("hours", "hours.inside", left=plain(most - unit.hours_run), **facts)


def by_schedule(claim: Claim, plan: Plan, window: Window) -> Reason | None:
    """A part with a scheduled renewal is covered up to the first one; a word that may mean such a part is asked about.

    Source: 13 CCR 2405(c)(3).
    """
    component, unit = claim.component(), claim.unit
    renewal = renewal_of(claim, plan, window)
    if renewal is None:
        return _perhaps_renewed(claim, plan, window)
    facts = {"component": component, "limit": plain(renewal.hours)}
    if unit.has_hour_meter is False:
        return passes("schedule", "scheduled.no-meter", **facts)
    if unit.hours_run is None:
        return unknown("schedule", "unit.hours", "scheduled.unknown", **facts)
    facts["hours"] = unit.hours_said
    if is_impossible(claim):
        return unknown("schedule", "unit.hours", "hours.impossible", hours=facts["hours"], limit=facts["limit"])
    if unit.hours_run > renewal.hours:
        return fails("schedule", "scheduled.outside", **facts)
    return passes("schedule", "scheduled.inside", **facts)


def renewal_of(claim: Claim, plan: Plan, window: Window) -> ScheduledRenewal | None:
    """The renewal that cuts a window short for the component that failed, the first where it has several."""
    named = [item for item in window.scheduled if names_one_of(claim.component(), [item.component], plan)]
    # a part named twice in a schedule is renewed first at the lower hours
    return min(named, key=lambda item: item.hours, default=None)


def _perhaps_renewed(claim: Claim, plan: Plan, window: Window) -> Reason | None:
    """The question whether what failed is a part whose renewal is over; None where no reading is over one.

    Where the renewal of all that the window covers is over, there is nothing to ask.
    """
    unit, word = claim.unit, claim.component()
    unread = unit.hours_run is None or is_impossible(claim)
    # a renewal that is not due yet closes nothing, whatever the word means
    over = [item for item in window.scheduled if unit.hours_run is None or unread or unit.hours_run > item.hours]
    if unit.has_hour_meter is False or not over:
        return None
    parts = [item.component for item in over]
    if not unread and not without(_speaks_of(window, plan), parts, plan):
        return fails("schedule", "scheduled.all", near=", ".join(parts))
    near = component_meant(word, plan, parts) if word else ", ".join(parts)
    if near is None:
        return None
    key = "scheduled.near" if word else "scheduled.component"
    return unknown("schedule", "failure.component", key, near=near, **({"component": word} if word else {}))


def _speaks_of(window: Window, plan: Plan) -> Sequence[str]:
    """What a window covers beside what it leaves out and what the plan excludes."""
    # what is never covered needs no renewal to be out of cover
    excluded = () if window.despite_exclusions else plan.excluded.components
    return without(without(window.covers, window.except_, plan), excluded, plan)


def hours_limit(claim: Claim, plan: Plan, window: Window) -> Decimal | None:
    """The reading up to which a window covers what failed: its limit or the part's renewal, whichever comes first.

    None for a unit without an hour meter, whose age alone decides.
    """
    if claim.unit.has_hour_meter is False:
        return None
    renewal = renewal_of(claim, plan, window)
    limits = [most for most in (window.hour_limit, renewal.hours if renewal else None) if most is not None]
    return min(limits, default=None)
