"""Whether a window is still open by its meters: the limits of every meter, and what `whichever` makes of them."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.window import Limit, Window
from claimpack.core.facts.unit import HOURS
from claimpack.core.values.money import plain
from claimpack.core.values.words import folded
from claimpack.core.windows.limits.hours import by_hours
from claimpack.core.windows.reasons import Reason, fails, passes, settled, unknown


class LimitLeft(NamedTuple):
    """What is left of one limit: the meter, and how much it may still count."""

    meter: str
    left: Decimal


def by_meters(claim: Claim, window: Window) -> list[Reason]:
    """What each meter says of its limit, the hour meter first.

    Source: common practice, no source; the limits are the plan's.
    """
    return [_by_meter(claim, limit) for limit in window.every_limit()]


def _by_meter(claim: Claim, limit: Limit) -> Reason:
    """A meter is not over its limit; a reading equal to it is inside. A unit without that meter goes by age alone.

    Source: whichever comes first, and age alone without a meter: 13 CCR 2425(b)(2), 40 CFR 1039.120(b).
    A reading equal to the limit: common practice, no source.
    """
    if folded(limit.meter) == HOURS:
        return by_hours(claim, limit.at)
    told, facts = claim.unit.meter_of(limit.meter), {"meter": limit.meter, "limit": plain(limit.at)}
    if told is None:
        return unknown("meter", "unit.meters", "meter.unknown", **facts)
    # the claim says that the unit has no such meter, which is an answer; not having said it is a question
    if told.total is None:
        return passes("meter", "meter.none", **facts)
    facts["reading"] = told.said
    if told.total > limit.at:
        return fails("meter", "meter.outside", over=plain(told.total - limit.at), **facts)
    # told apart because makers read "up to 100 hours" both ways, and the shop should know it stands on the line
    if told.total == limit.at:
        return passes("meter", "meter.at-limit", **facts)
    return passes("meter", "meter.inside", left=plain(limit.at - told.total), **facts)


def limits_that_count(claim: Claim, window: Window) -> tuple[Limit, ...]:
    """The limits of a window, but that of the hour meter, whose meters the unit is not said to lack."""
    read = ((limit, claim.unit.meter_of(limit.meter)) for limit in window.other_limits)
    return tuple(limit for limit, told in read if told is None or told.total is not None)


_OVER = {
    "age.outside": "last.age",
    "age.outside-anyway": "last.age-anyway",
    "hours.outside": "last.hours",
    "meter.outside": "last.meter",
}
"""What is said of an end that is past while a later one keeps the window open."""

_NO_METER = ("hours.no-meter", "meter.none")


def counts_a_meter(window: Window, by_meter: Sequence[Reason]) -> bool:
    """Whether the last of several ends closes a window: one without a meter it goes by ends with its period."""
    return window.whichever == "last" and any(reason.says.key not in _NO_METER for reason in by_meter)


def is_past_an_end(reason: Reason) -> bool:
    """Whether a reason says that the period or a limit has been passed."""
    return reason.outcome == "fail" and reason.says.key in _OVER


def until_the_last(
    window: Window, by_age: Sequence[Reason], by_meter: Sequence[Reason], *, may_wait: bool, may_be_over: bool
) -> list[Reason]:
    """What is said of a window that stays open until the last of its period and limits has been passed.

    An end that is past speaks against nothing while another is not, or may not be. A limit without its meter does not
    count.

    Args:
        window: the window.
        by_age: what was said of its period and of its registration.
        by_meter: what was said of its limits.
        may_wait: the event may lie before a start that is not known.
        may_be_over: its period may be over; else no limit can keep open what its period does not.

    Source: common practice, no source; that the last counts is the plan's.
    """
    of_period = [reason for reason in by_age if reason.rule == "age" or window.registered_adds]
    never_open = any(
        reason.outcome == "fail" and not is_past_an_end(reason) for reason in of_period if reason.rule == "age"
    )
    # an event before the start is no end that is past: a later end cannot open what has not begun
    if never_open or not counts_a_meter(window, by_meter):
        return [*by_age, *by_meter]
    age = settled(of_period)
    if age is None and not may_be_over:
        return [*by_age, *(reason for reason in by_meter if reason.outcome == "pass")]
    # where the last end counts, an end that is past matters only if all the others are too
    ends = [age, *(settled([reason]) for reason in by_meter if reason.says.key not in _NO_METER)]
    if True not in ends and None not in ends:
        return [*by_age, *by_meter]
    # a meter that is not over opens nothing while the event may still lie before the first day
    is_open = True in ends and not (age is None and may_wait)
    wanted = ("pass",) if is_open else ("pass", "unknown")
    conditions = [reason for reason in by_age if reason not in of_period]
    return [*conditions, *(_told(reason) for reason in (*of_period, *by_meter) if _told(reason).outcome in wanted)]


def _told(reason: Reason) -> Reason:
    if not is_past_an_end(reason):
        return reason
    return reason._replace(outcome="pass", says=reason.says._replace(key=_OVER[reason.says.key]))


def others_left(claim: Claim, limits: Sequence[Limit]) -> tuple[LimitLeft, ...]:
    """What is left of each limit but that of the hour meter, where its meter is read; below zero where it is passed."""
    read = [(limit, claim.unit.meter_of(limit.meter)) for limit in limits]
    return tuple(
        LimitLeft(limit.meter, limit.at - told.total) for limit, told in read if told and told.total is not None
    )
