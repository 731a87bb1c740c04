"""Windows of a plan beside each other: one inside another, one for nobody, shares and starts that change nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date, timedelta
from decimal import Decimal

from claimpack.core.clauses.window import Window
from claimpack.core.plans.component_words import names_one_of
from claimpack.core.plans.plan import Plan
from claimpack.core.values.periods import Period, last_day, moved
from claimpack.core.values.words import folded, is_among

# more than a year of first days, a leap day among them: periods that differ do so on one of them
_STARTS_TRIED = 460
_ANY_START = date(2001, 1, 1)


def starts_in_vain(plan: Plan) -> Iterable[str]:
    """A day counts once in a rule, one of several is picked out of several, and a unit in stock has no day of a sale.

    Source: a rule of this tool's, no source.
    """
    named = {"start": plan.start, "start_stock": plan.start_stock}
    rules = [*named.items(), *((f"window {window.id}: start", window.start) for window in plan.window)]
    for key, rule in rules:
        roles = [day.of for day in rule.days] if rule else []
        for role in sorted({role for role in roles if roles.count(role) > 1}):
            yield f"{key}: names {role} twice, and only one of them can count"
        if rule and rule.pick != "first" and len(roles) == 1:
            yield f"{key}: {rule.pick} of one day says nothing; write a list"
    for day in plan.start_stock.days if plan.start_stock else ():
        if day.of in ("purchased", "delivered", "registered"):
            yield f"start_stock: names {day.of}, a day that a unit in stock has not come to"


def second_owners_better_off(plan: Plan) -> Iterable[str]:
    """A second owner's own period cuts the window short, and one as long as the window never does.

    Source: a rule of this tool's, no source.
    """
    for window in plan.window:
        then = window.owners.then if window.owners else None
        if then and moved(_ANY_START, then) >= moved(_ANY_START, window.period):
            yield f"window {window.id}: owners.then is as long as its period; a second owner has no more than the first"


def repair_time_twice(plan: Plan) -> Iterable[str]:
    """A day in repair counts once, whoever says so.

    Source: a rule of this tool's, no source.
    """
    # a rule for one place or use leaves the others to the windows
    if not any(rule.is_plain for rule in plan.repair_time_extends):
        return
    for window in plan.window:
        if window.repair_time_extends:
            yield f"window {window.id}: repair_time_extends says nothing, since the plan says so of every window"


def windows_for_nobody(plan: Plan) -> Iterable[str]:
    """Two windows that say the same, where the second can never be the one cited.

    Source: a rule of this tool's, no source.
    """
    seen: set[tuple[object, ...]] = set()
    for window in plan.window:
        mark = _mark(window)
        if mark in seen:
            yield f"window {window.id}: says the same as another window"
        seen.add(mark)


def shorter_inside_longer(plan: Plan) -> Iterable[str]:
    """A shorter window inside a longer one never decides: whatever it holds for, the other holds for as well.

    Source: a rule of this tool's, no source.
    """
    for window in plan.window:
        longer = next(
            (one for one in plan.window if _contains(one, window, plan) and _is_longer(one, window, plan)), None
        )
        if longer:
            yield f"window {window.id}: never decides, since window {longer.id} covers the same and lasts longer"


def shares_that_end_early(plan: Plan) -> Iterable[str]:
    """A window that is open when its last share is over pays nothing from then on, whatever made it longer.

    Source: a rule of this tool's, no source.
    """
    for window in plan.window:
        longest = window.period.plus(window.registered_adds or Period()).plus(window.repair_adds or Period())
        if window.shares and moved(_ANY_START, window.shares[-1].last) < moved(_ANY_START, longest):
            last = window.shares[-1].last.in_words()
            added = f", though it may last {longest.in_words()}" if longest != window.period else ""
            yield f"window {window.id}: its shares end after {last}, and it pays nothing from then on{added}"


def _contains(outer: Window, inner: Window, plan: Plan) -> bool:
    """Whether one window holds wherever another does."""
    same = all(getattr(outer, key) == getattr(inner, key) for key in _MUST_BE_THE_SAME)
    return (
        same
        and ("*" in outer.covers or all(names_one_of(word, outer.covers, plan) for word in inner.covers))
        and _reaches(outer.uses, inner.uses)
        and _reaches(outer.sold_in, inner.sold_in)
        and _lasts(outer, inner, plan)
        # where the last end counts, fewer hours may close sooner, and neither contains the other
        and (_hours(outer) >= _hours(inner) if outer.whichever == "first" else outer.hours == inner.hours)
        and (inner.first_owner_only or not outer.first_owner_only)
        and (outer.despite_exclusions or not inner.despite_exclusions)
    )


_COMPARED = {"covers", "uses", "sold_in", "period", "hours", "first_owner_only", "despite_exclusions"}
# a key that is added to windows counts as one that must be the same, until somebody compares it
_MUST_BE_THE_SAME = sorted(set(Window.declared) - _COMPARED - {"id", "name", "cites", "last_day"})


def _hours(window: Window) -> Decimal:
    return window.hours or Decimal("Infinity")


def _reaches(outer: Sequence[str] | None, inner: Sequence[str] | None) -> bool:
    return outer is None or (inner is not None and all(is_among(word, outer) for word in inner))


def _is_longer(outer: Window, inner: Window, plan: Plan) -> bool:
    return outer.hours != inner.hours or any(ends > sooner for ends, sooner in _ends(outer, inner, plan))


def _lasts(outer: Window, inner: Window, plan: Plan) -> bool:
    return all(ends >= sooner for ends, sooner in _ends(outer, inner, plan))


def _ends(outer: Window, inner: Window, plan: Plan) -> list[tuple[date, date]]:
    """The last days of two windows that start together, on every day around a leap day."""
    starts = [date(2023, 12, 1) + timedelta(days=count) for count in range(_STARTS_TRIED)]
    return [(_end(outer, start, plan), _end(inner, start, plan)) for start in starts]


def _end(window: Window, start: date, plan: Plan) -> date:
    return last_day(start, window.period, window.last_day or plan.last_day, plan.month_end)


def shares_of_two_kinds(plan: Plan) -> Iterable[str]:
    """A share goes by its step or by the months left; where it says both, what it pays may not be what was meant.

    Source: a rule of this tool's, no source.
    """
    for window in plan.window:
        for share in window.shares:
            step = [key for key in ("until", "maker") if getattr(share, key) is not None]
            if share.of and step:
                both = f"a share says of beside {' and '.join(step)}"
                yield f"window {window.id}: {both}; write of for the months left, or until and maker for a step"


def _mark(window: Window) -> tuple[object, ...]:
    covers = tuple(sorted(folded(word) for word in window.covers))
    return (covers, repr(window.model_dump(exclude={"id", "name", "cites", "covers"})))


WINDOW_RULES: tuple[Callable[[Plan], Iterable[str]], ...] = (
    windows_for_nobody,
    shorter_inside_longer,
    shares_that_end_early,
    shares_of_two_kinds,
    starts_in_vain,
    second_owners_better_off,
    repair_time_twice,
)
"""Every rule about windows beside each other, in the order it is told."""
