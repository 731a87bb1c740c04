"""Whether a unit was registered in time for a window, and what of that is still open."""

from __future__ import annotations

from datetime import date

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.window import Window
from claimpack.core.values.periods import moved
from claimpack.core.windows.judged_days import JudgedDay, before_the_sale
from claimpack.core.windows.reasons import Reason, fails, passes, unknown


def register_by(claim: Claim, window: Window, start: JudgedDay, starts: date) -> date | None:
    """The last day to register a unit whose cover starts on a day; None while the sale is not known that it runs from.

    Where cover starts with the registration, or may, the time to register runs from the sale, else from that start.

    Source: common practice, no source.
    """
    # a registration cannot be late by a period that runs from the registration itself
    runs_from = (claim.dates.purchased or claim.dates.delivered) if start.from_sale else starts
    return moved(runs_from, window.registered_within) if runs_from and window.registered_within else None


def may_be_in_time(claim: Claim, window: Window, start: JudgedDay, starts: date) -> tuple[bool, ...]:
    """Whether the unit was registered in time if cover starts on a day: one answer, or both while it is open."""
    if window.registered_within is None:
        return (True,)
    if claim.dates.never_registered:
        return (False,)
    # where registration starts cover, the days tried for that start are days of the registration
    registered = starts if start.is_registration else claim.dates.registered
    by = register_by(claim, window, start, starts)
    # a registration before the sale has one wrong day, and until it is known which, it may be in time or not
    if registered is None or by is None or (before_the_sale(claim.dates) and not start.is_registration):
        return (True, False)
    return (registered <= by,)


def fact_of_registration(claim: Claim, start: JudgedDay) -> str:
    """The fact, as a key of the claim, that would say whether the unit was registered in time."""
    sale_is_open = start.from_sale and claim.dates.registered and not before_the_sale(claim.dates)
    return "dates.purchased" if sale_is_open else "dates.registered"


def open_question(claim: Claim, window: Window, start: JudgedDay, ends: date | None = None) -> Reason:
    """The question whether the unit was registered in time; `ends` is where cover would end if it was."""
    by = register_by(claim, window, start, start.on) if start.on else None
    asks, dates = fact_of_registration(claim, start), claim.dates
    if before_the_sale(dates):
        facts = {"registered": dates.registered, "purchased": dates.purchased}
        return unknown("registration", asks, "registered.before-sale", **facts)
    if by is None:
        return unknown("registration", asks, "registered.open", fact_word=asks)
    if ends is None:
        return unknown("registration", asks, "registered.unknown", by=by)
    return unknown("registration", asks, "registered.would-decide", by=by, ends=ends)


def in_time(claim: Claim, window: Window, by: date | None) -> Reason:
    """It was registered in time, and what that adds."""
    facts = {"registered": claim.dates.registered, "by": by}
    if window.registered_adds is None:
        return passes("registration", "registered.in-time", **facts)
    return passes("registration", "registered.adds", adds_period=window.registered_adds, **facts)


def too_late(claim: Claim, by: date | None) -> Reason:
    """It was registered too late, or never."""
    if claim.dates.never_registered:
        return fails("registration", "registered.never", by=by)
    return fails("registration", "registered.late", registered=claim.dates.registered, by=by)
