"""The day cover starts on: by the days a claim has, by the day it was built, or by those of a unit in stock."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.starts import StartDay, StartRole, StartRule
from claimpack.core.plans.plan import Plan
from claimpack.core.values.periods import moved
from claimpack.core.windows.judged_days import JudgedDay, before_the_sale, known_day
from claimpack.core.windows.reasons import Reason, fails, passes, unknown

_OF_A_SALE = ("purchased", "delivered", "in_service", "registered")


class _MayBe(NamedTuple):
    """One day of a rule: the day it gives, or between which two it lies while its fact is open."""

    day: StartDay
    on: date | None
    earliest: date
    latest: date

    @property
    def may_follow(self) -> bool:
        return bool(self.day.plus) or self.day.of in ("registered", "invoiced")


def start_of_cover(claim: Claim, plan: Plan, own: StartRule | None = None) -> JudgedDay:
    """The first day of cover, by a window's own rule or its plan's.

    A claim that says it has no proof of purchase starts where the plan says such units do, but never later than the
    first day the unit was seen in use: a unit that failed had been sold. A unit in stock starts by the plan's rule for
    stock; in a window with a rule of its own by that one, in which no day of a sale has come yet.

    Source: 13 CCR 2405(a) (delivery), 13 CCR 2445.1(a) (delivery or first use): which dates count is the plan's.
    """
    if claim.is_stock and own is None:
        return _by_rule(claim, plan.start_stock) if plan.start_stock else _stock_unknown(claim)
    if claim.proof.kind == "none" and plan.start_without_proof and not claim.is_stock:
        return _start_without_proof(claim, plan)
    return _by_rule(claim, own or plan.start)


def _by_rule(claim: Claim, rule: StartRule) -> JudgedDay:
    # a day that will not come is struck before one is picked, else a rule that takes the latest would wait for ever
    days = [day for day in rule.days if not _never(claim, rule, day.of)]
    if not days:
        key = "start.not-sold" if claim.is_stock else "start.never-registered"
        # no day at all: cover is after everything, so that each window comes out closed rather than open
        return JudgedDay(None, fails("start", key), date.max, date.max)
    found = [_may_be(claim, day) for day in days]
    return _first(claim, found) if rule.pick == "first" else _picked(claim, rule, found)


def _never(claim: Claim, rule: StartRule, role: StartRole) -> bool:
    """Whether a day will not come: that of a registration that never was, or of a sale of a unit in stock.

    The day of first use is given where it differs from the sale; where it is not, the sale stands for it.
    """
    dates = claim.dates
    if role == "registered" and dates.never_registered:
        return True
    if role in _OF_A_SALE and claim.is_stock:
        return _given(claim, role) is None
    sold = dates.purchased or dates.delivered
    return role == "in_service" and rule.pick != "first" and bool(sold) and dates.in_service is None


def _first(claim: Claim, found: Sequence[_MayBe]) -> JudgedDay:
    for each in found:
        # given and yet no day to go by: a registration before the sale, of which one day must be wrong
        if each.on is None and _given(claim, each.day.of):
            return _not_known(each, _before_sale(claim))
        if each.on:
            return _known(claim, each, "start.from")
    wanted = "|".join(fact_of(each.day.of) for each in found)
    return _not_known(found[0], unknown("start", fact_of(found[0].day.of), "start.unknown", roles_word=wanted))


def _picked(claim: Claim, rule: StartRule, found: Sequence[_MayBe]) -> JudgedDay:
    """The earliest or the latest of several days; while one is open that may be it, that one is asked for."""
    is_earliest = rule.pick == "earliest"
    pick = min if is_earliest else max
    first, last = pick(each.earliest for each in found), pick(each.latest for each in found)
    # a known day is the one picked only where no open one could still come before it, or after it
    chosen = next((each for each in found if each.on == first == last), None)
    if chosen:
        return _known(claim, chosen, f"start.{rule.pick}")._replace(from_sale=rule.names_registration)
    waiting = [each for each in found if each.on is None]
    # of the days that are open only one that could change the answer is asked for; any other would be asked in vain
    matter = [each for each in waiting if (each.earliest < last if is_earliest else each.latest > first)] or waiting
    asks = fact_of(matter[0].day.of)
    reason = unknown("start", asks, f"start.{rule.pick}-unknown", fact_word=asks)
    if asks == "dates.registered" and claim.dates.registered:
        reason = _before_sale(claim)
    follows = all if is_earliest else any
    may_follow = follows(each.may_follow for each in found)
    return JudgedDay(None, reason, first, last, may_follow, from_sale=rule.names_registration)


def _known(claim: Claim, chosen: _MayBe, key: str) -> JudgedDay:
    given, (role, plus) = _given(claim, chosen.day.of), (chosen.day.of, chosen.day.plus)
    facts: dict[str, object] = {"starts": chosen.on, "role_word": role}
    if plus:
        key, facts = f"{key}-later", {**facts, "plus_period": plus, "given": given}
    on, from_sale = chosen.on or date.max, role == "registered"
    reason = passes("start", key, **facts)
    return JudgedDay(on, reason, on, on, chosen.may_follow, from_sale and not plus, from_sale)


def _not_known(wanted: _MayBe, reason: Reason) -> JudgedDay:
    """A start that is not known, between the days that the claim's other ones leave it."""
    from_sale = wanted.day.of == "registered"
    is_registration = from_sale and not wanted.day.plus
    return JudgedDay(None, reason, wanted.earliest, wanted.latest, wanted.may_follow, is_registration, from_sale)


def _before_sale(claim: Claim) -> Reason:
    facts = {"registered": claim.dates.registered, "purchased": claim.dates.purchased}
    return unknown("start", "dates.registered", "start.before-sale", **facts)


def fact_of(role: StartRole) -> str:
    """The key of a claim under which a day of a rule stands."""
    return f"unit.{role}" if role in ("built", "invoiced") else f"dates.{role}"


def _given(claim: Claim, role: StartRole) -> date | None:
    on: date | None = getattr(claim.unit if role in ("built", "invoiced") else claim.dates, role)
    return on


def _may_be(claim: Claim, day: StartDay) -> _MayBe:
    on = _given(claim, day.of)
    if on and not (day.of == "registered" and before_the_sale(claim.dates)):
        on = _later(on, day)
        return _MayBe(day, on, on, on)
    earliest, latest = _between(claim, day.of)
    return _MayBe(day, None, _later(earliest, day), _later(latest, day))


def _later(on: date, day: StartDay) -> date:
    return moved(on, day.plus) if day.plus else on


def _between(claim: Claim, role: StartRole) -> tuple[date, date]:
    """The first and the last day that one may be which is not given."""
    if role == "built":
        return date.min, _built_by(claim)
    # a unit may be bought, and so registered, before it is built to order; delivered and used it cannot be
    earliest = date.min if role in ("purchased", "registered") else claim.unit.built or date.min
    # A unit may be registered, and its dealer invoiced, when it is already broken: cover would start after the event.
    after = (claim.dates.repaired or claim.dates.presented) + timedelta(days=1)
    if role in ("registered", "invoiced"):
        return earliest, after
    # the first sale is before the second, which bounds a sale that is not given
    resold = claim.dates.resold if role in ("purchased", "delivered") else None
    return earliest, min(_seen_broken(claim), resold or date.max)


def _stock_unknown(claim: Claim) -> JudgedDay:
    """Nobody knows whether a plan covers units in stock that does not say from when."""
    after = (claim.dates.repaired or claim.dates.presented) + timedelta(days=1)
    # from the first day to one after the event, so that no age is certain and every window stays open
    return JudgedDay(None, unknown("start", "start_stock", "start.stock-unknown"), date.min, after, may_follow=True)


def _start_without_proof(claim: Claim, plan: Plan) -> JudgedDay:
    built, seen = claim.unit.built, _seen_in_use(claim)
    after = plan.start_without_proof.after if plan.start_without_proof else None
    if built is None:
        built_by = _built_by(claim)
        latest = min(moved(built_by, after), seen) if after else built_by
        return JudgedDay(None, unknown("start", "unit.built", "start.built-unknown"), date.min, latest)
    if after is None:
        return known_day(built, passes("start", "start.without-proof-at-built", starts=built))
    starts, seen = moved(built, after), max(built, seen)
    if starts > seen:
        facts = {"starts": seen, "after_period": after, "built": built}
        return known_day(seen, passes("start", "start.without-proof-at-event", **facts))
    return known_day(starts, passes("start", "start.without-proof", starts=starts, after_period=after, built=built))


def _built_by(claim: Claim) -> date:
    """The last day a unit can have been built on."""
    later = (claim.dates.delivered, claim.unit.invoiced)
    return min([_seen_in_use(claim), *(day for day in later if day)])


def _seen_broken(claim: Claim) -> date:
    return claim.dates.failed or claim.dates.presented


def _seen_in_use(claim: Claim) -> date:
    """The first day a claim tells of on which the unit was in use."""
    repaired = [earlier.repaired for earlier in claim.earlier]
    return min([_seen_broken(claim), *repaired, *([claim.dates.in_service] if claim.dates.in_service else [])])
