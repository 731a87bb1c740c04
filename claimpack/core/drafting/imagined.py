"""Units that a plan is tried on: every use and component, at the ages and readings where the plan's own limits lie."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.serial_ranges import ends_of
from claimpack.core.clauses.window import Window
from claimpack.core.drafting.imagined_claims import ANY_OTHER, Age, ImaginedUnit, at_age, imagined_claim, knowing
from claimpack.core.facts.unit import HOURS
from claimpack.core.plans.component_words import names_one_of
from claimpack.core.plans.plan import Plan
from claimpack.core.plans.uses import uses_known
from claimpack.core.values.money import plain
from claimpack.core.values.periods import Period, last_day
from claimpack.core.values.words import folded
from claimpack.core.verdict.plan_faults import faults
from claimpack.core.windows.applies import speaks_about

_BEYOND = Decimal("0.1")
_ANY_DAY = date(2025, 1, 15)
_OF_COMPONENTS = ("component", "elsewhere", "exclusion")


class TrialAsked(NamedTuple):
    """What somebody wants to see; empty for what the plan itself suggests.

    Args:
        ages: periods at whose ends to look, no others.
        hours: readings of the hour meter to look at, no others.
        uses: uses to look at, no others.
        components: components to look at, no others.
        unit: what every unit that is tried is like, where nothing else is said of it.
    """

    ages: tuple[Period, ...] = ()
    hours: tuple[Decimal, ...] = ()
    uses: tuple[str, ...] = ()
    components: tuple[str, ...] = ()
    unit: ImaginedUnit = ImaginedUnit()


class Axes(NamedTuple):
    """Everything that a plan is tried on; the first unit is the one that the others are compared with.

    Components that every window treats alike are a group, of which the first is tried.
    """

    sold: date
    ages: tuple[Age, ...]
    uses: tuple[str, ...]
    components: tuple[tuple[str, ...], ...]
    units: tuple[ImaginedUnit, ...]


NOTHING_ASKED = TrialAsked()


def axes_of(plans: Sequence[Plan], sold: date, asked: TrialAsked = NOTHING_ASKED) -> Axes:
    """What to try plans on: all that any of them makes a difference by.

    Args:
        plans: the plans; more than one where they are compared.
        sold: the day the units are sold.
        asked: what is wanted alone.
    """
    return Axes(
        sold,
        ages=tuple(_ages(plans, sold, asked.ages)),
        uses=asked.uses or _each_once(use for plan in plans for use in plan.uses or uses_known([plan])),
        components=tuple((word,) for word in asked.components) or groups_of(plans, _components(plans)),
        units=tuple(_units(plans, asked)),
    )


def _each_once(words: Iterable[str]) -> tuple[str, ...]:
    found: dict[str, str] = {}
    for word in words:
        found.setdefault(folded(word), word)
    return tuple(found.values())


def _ages(plans: Sequence[Plan], sold: date, asked: Sequence[Period]) -> Iterator[Age]:
    of_units = ((plan, window) for plan in plans for window in plan.window if not window.of_parts)
    yield from ages_at(sold, ((plan, window, asked or _periods(plan, window)) for plan, window in of_units))


def ages_at(sold: date, ends_at: Iterable[tuple[Plan, Window, Iterable[Period]]]) -> Iterator[Age]:
    """The day of the sale, then the day before the last day of each period, that day and the day after, each once.

    Args:
        sold: the day of the sale.
        ends_at: the periods to look at, each with its window and plan, which say how a last day is counted.
    """
    ends: dict[date, Period] = {}
    for plan, window, periods in ends_at:
        for period in periods:
            ends.setdefault(last_day(sold, period, window.last_day or plan.last_day, plan.month_end), period)
    found = {sold: Age(sold)}
    # the last day, and a day to either side: a plan changes what it pays nowhere else
    for end in sorted(ends):
        for days in (-1, 0, 1):
            day = end + timedelta(days=days)
            # where two limits lie next to each other the last day of one counts, not the day after the other
            if day not in found or not days:
                found[day] = Age(day, ends[end], days)
    yield from (found[day] for day in sorted(found) if day >= sold)


def _periods(plan: Plan, window: Window) -> Iterator[Period]:
    """Every age at which a window may pay something else than before."""
    lengths = [window.period]
    if window.registered_adds:
        lengths.append(_in_years(window.period.plus(window.registered_adds)))
    if window.repair_adds:
        lengths.append(_in_years(window.period.plus(window.repair_adds)))
    if window.owners and window.owners.then:
        lengths.append(window.owners.then)
    # cover may start so much later, and end so much later then
    late = [day.plus for day in (window.start or plan.start).days if day.plus]
    for length in lengths:
        yield from (length, *(after.plus(length) for after in late))
    for share in window.shares:
        yield from (age for age in (share.full_until, share.last) if age)


def _in_years(period: Period) -> Period:
    """The same period with no more than eleven months beside its years."""
    if not period.years:
        return period
    return period._replace(years=period.years + period.months // 12, months=period.months % 12)


def _components(plans: Sequence[Plan]) -> tuple[str, ...]:
    words = [word for plan in plans for word in (*plan.component_words(), *plan.words)]
    found: list[str] = []
    for word in words:
        if not any(_is_one(word, other, plans) for other in found):
            found.append(word)
    return (ANY_OTHER, *found)


def _is_one(word: str, other: str, plans: Sequence[Plan]) -> bool:
    return all(names_one_of(word, [other], plan) for plan in plans)


def groups_of(plans: Sequence[Plan], components: Sequence[str]) -> tuple[tuple[str, ...], ...]:
    """Components put together that every window of the plans treats alike, whatever the unit and its age."""
    found: dict[object, list[str]] = {}
    claims = [imagined_claim(plan, _ANY_DAY, ImaginedUnit()) for plan in plans]
    for word in components:
        # judged once on any day: what a window says of a component does not depend on the unit's age
        marks = tuple(_treatment(knowing(plan), claim, word) for plan, claim in zip(plans, claims, strict=True))
        found.setdefault(marks, []).append(word)
    return tuple(tuple(group) for group in found.values())


def _treatment(plan: Plan, claim: Claim, word: str) -> object:
    failed = at_age(claim, Age(_ANY_DAY), uses_known([plan])[0], word)
    said = [
        [
            (reason.rule, reason.outcome)
            for reason in speaks_about(failed, plan, window)
            if reason.rule in _OF_COMPONENTS
        ]
        for window in plan.window
    ]
    renewed = [
        [renewal.hours for renewal in window.scheduled if names_one_of(word, [renewal.component], plan)]
        for window in plan.window
    ]
    return repr((said, renewed, [fault.of_verdict for fault in faults(failed, plan)]))


def _units(plans: Sequence[Plan], asked: TrialAsked) -> Iterator[ImaginedUnit]:
    windows = [window for plan in plans for window in plan.window]
    scopes: list[Plan | Window] = [*plans, *windows]
    years = [years for scope in scopes if (years := scope.model_years)]
    ranges = [range_ for scope in scopes for range_ in scope.serials or ()]
    hours, limits = asked.hours, _limits(windows, asked.hours)
    first = asked.unit._replace(
        model_year=years[0][0] if years else None,
        serial=ends_of(ranges[0])[0] if ranges else "0",
        readings=tuple((kind, hours[0] if kind == HOURS and hours else Decimal(0)) for kind in limits),
    )
    yield first
    if first.registered and any(
        window.registered_within or _by_registration(plan, window) for plan in plans for window in plan.window
    ):
        yield first._replace(says="not registered", registered=False)
    if first.first_owner and any(window.first_owner_only or window.owners for window in windows):
        yield first._replace(says="sold again at once, and the maker told", first_owner=False)
    if any(window.repair_adds for window in windows):
        yield first._replace(says="repaired once before", repaired=True)
    if any(plan.start_stock for plan in plans):
        yield first._replace(says="in stock, never sold; built and invoiced that day", in_stock=True)
    for place in _each_once(place for window in windows for place in window.sold_in or () if place != first.sold_in):
        yield first._replace(says=f"sold in {place}", sold_in=place)
    for year in dict.fromkeys(begun for begun, _ in years):
        if year != first.model_year:
            yield first._replace(says=f"model year {year}", model_year=year)
    for range_ in dict.fromkeys(ranges[1:]):
        yield first._replace(says=f"serial {ends_of(range_)[0]}", serial=ends_of(range_)[0])
    for kind, readings in limits.items():
        for reading, says in readings.items():
            changed = tuple((one, reading if one == kind else read) for one, read in first.readings)
            yield first._replace(says=says, readings=changed)
    if any(window.whichever == "last" and len(window.every_limit()) > 1 for window in windows):
        beyond = tuple((kind, max(readings)) for kind, readings in limits.items())
        yield first._replace(says=f"more than every limit: {_read(beyond)}", readings=beyond)


def _read(readings: Iterable[tuple[str, Decimal]]) -> str:
    return ", ".join(f"{plain(reading)} {kind}" for kind, reading in readings)


def _by_registration(plan: Plan, window: Window) -> bool:
    return (window.start or plan.start).names_registration


def _limits(windows: Sequence[Window], hours: Sequence[Decimal]) -> dict[str, dict[Decimal, str]]:
    """The readings to try of each kind of meter, with what is said of them: each limit, and just beyond it."""
    found: dict[str, set[Decimal]] = {}
    for window in windows:
        renewals = [(HOURS, renewal.hours) for renewal in window.scheduled]
        for kind, at in (*((folded(limit.meter), limit.at) for limit in window.every_limit()), *renewals):
            found.setdefault(kind, set()).add(at)
    tried = {
        kind: {
            reading: f"{said}{plain(at)} {kind}"
            for at in sorted(limits)
            for reading, said in ((at, ""), (at + _BEYOND, "more than "))
        }
        for kind, limits in found.items()
    }
    return tried | ({HOURS: {reading: f"{plain(reading)} {HOURS}" for reading in hours[1:]}} if hours else {})
