"""Two plans compared: the keys that differ, what is paid otherwise, and the claims that would be judged otherwise."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from decimal import Decimal
from itertools import groupby
from typing import Any, NamedTuple

from claimpack.core.drafting.imagined import Axes
from claimpack.core.drafting.imagined_claims import Age, ImaginedUnit
from claimpack.core.drafting.trial import Paid, TrialCells, cells_of
from claimpack.core.judging.assessment import Assessment
from claimpack.core.plans.plan import Plan

_NOT_OF_COVER = {"id", "name", "maker_name", "note", "pays", "operation", "filing", "hold"}
_NAMES = ("id", "code", "kind", "component", "what", "class", "level")


class KeyChange(NamedTuple):
    """A key that the plans say differently, each as it is written; empty where a plan does not say it."""

    key: str
    before: str
    after: str


def changed_keys(old: Plan, new: Plan) -> tuple[KeyChange, ...]:
    """The keys that two plans say differently, in the order of the file; entries of lists go by their own names."""
    renamed = renamed_windows(old, new)
    before, after = (
        dict(_flat(plan.model_dump(mode="json", exclude_defaults=True, exclude={"id"})))
        for plan in (old, with_names_of(old, new))
    )
    keys = dict.fromkeys((*before, *after))
    return tuple(KeyChange(f"window[{was}].id", was, name) for name, was in renamed.items()) + tuple(
        KeyChange(key, _told(key, before), _told(key, after)) for key in keys if before.get(key) != after.get(key)
    )


def _told(key: str, said: Mapping[str, str]) -> str:
    """What a plan says under a key; a word without others that mean it is said all the same, nothing is empty."""
    return said.get(key, "") or ("said" if key in said else "")


def renamed_windows(old: Plan, new: Plan) -> dict[str, str]:
    """What windows were called before that only have another id now, by that id."""
    ids = {window.id for window in old.window}, {window.id for window in new.window}
    gone = [window for window in old.window if window.id not in ids[1]]
    renamed: dict[str, str] = {}
    for window in new.window:
        # another id alone makes no other window: nobody is paid otherwise by it
        was = next((one for one in gone if window.model_copy(update={"id": one.id}) == one), None)
        if was and window.id not in ids[0]:
            gone.remove(was)
            renamed[window.id] = was.id
    return renamed


def with_names_of(old: Plan, new: Plan) -> Plan:
    """The second plan, with windows that only have another id called as the first one calls them."""
    renamed = renamed_windows(old, new)
    windows = (window.model_copy(update={"id": renamed.get(window.id, window.id)}) for window in new.window)
    return new.model_copy(update={"window": tuple(windows)}) if renamed else new


def _flat(value: Any, path: str = "") -> Iterator[tuple[str, str]]:
    if isinstance(value, Mapping):
        for key, inner in value.items():
            yield from _flat(inner, f"{path}.{key}" if path else key)
    elif isinstance(value, (list, tuple)) and any(isinstance(one, Mapping) for one in value):
        for place, entry in enumerate(value, start=1):
            named = next((str(entry[name]) for name in _NAMES if isinstance(entry, Mapping) and entry.get(name)), place)
            yield from _flat(entry, f"{path}[{named}]")
    else:
        yield path, ", ".join(map(_written, value)) if isinstance(value, (list, tuple)) else _written(value)


def _written(value: Any) -> str:
    return str(value).lower() if isinstance(value, bool) else str(value)


class PaidChange(NamedTuple):
    """What is paid otherwise of some components of units of some uses, from one age that was tried to another."""

    unit: ImaginedUnit
    components: tuple[str, ...]
    uses: tuple[str, ...]
    first: Age
    last: Age
    before: Paid
    after: Paid


_Run = tuple[int, int, Paid, Paid]


def changed_pay(old: Plan, new: Plan, axes: Axes) -> tuple[PaidChange, ...]:
    """What the second plan pays otherwise; of units beside the first only what is not so of the first as well.

    A window that only has another id now goes by the one it had.
    """
    new = with_names_of(old, new)
    # prices, filing and holding change amounts and days, not who is covered; these are told key by key
    if _cover_of(old) == _cover_of(new):
        return ()
    first, *others = axes.units
    cells = cells_of(old, axes, first), cells_of(new, axes, first)
    of_first = dict(_runs(*cells))
    found, told = list(_put_together(first, of_first, axes)), of_first
    for unit in others:
        runs = dict(_runs(cells_of(old, axes, unit, cells[0]), cells_of(new, axes, unit, cells[1])))
        # A reading between two limits says again what the one below it said.
        said = told if unit.readings != first.readings else of_first
        new_ones = {
            place: [run for run in each if run not in of_first[place] and run not in said[place]]
            for place, each in runs.items()
        }
        found += _put_together(unit, new_ones, axes)
        told = runs
    return tuple(found)


def _cover_of(plan: Plan) -> dict[str, Any]:
    """What a plan says of cover, without names, rates, schedule and days to keep."""
    return {name: getattr(plan, name) for name in Plan.declared if name not in _NOT_OF_COVER}


def _runs(before: TrialCells, after: TrialCells) -> Iterator[tuple[tuple[str, str], list[_Run]]]:
    """By component and use, the places of ages after each other that differ in the same way."""
    for place, cells in before.items():
        told = list(zip(cells, after[place], strict=True))
        runs = []
        for (one, other), group in groupby(range(len(told)), key=lambda age, told=told: told[age]):  # type: ignore[misc]
            ages = list(group)
            if one and other and one != other:
                runs.append((ages[0], ages[-1], one, other))
        yield place, runs


def _put_together(unit: ImaginedUnit, runs: Mapping[tuple[str, str], list[_Run]], axes: Axes) -> Iterator[PaidChange]:
    uses: dict[tuple[_Run, tuple[str, ...]], list[str]] = {}
    by_group = {group[0]: group for group in axes.components}
    for (component, use), each in runs.items():
        for run in each:
            uses.setdefault((run, by_group[component]), []).append(use)
    alike: dict[tuple[_Run, tuple[str, ...]], list[str]] = {}
    for (run, group), some in uses.items():
        alike.setdefault((run, tuple(some)), []).extend(group)
    for ((first, last, before, after), some_uses), components in alike.items():
        yield PaidChange(unit, tuple(components), some_uses, axes.ages[first], axes.ages[last], before, after)


class ClaimOutcome(NamedTuple):
    """What a claim comes to under a plan; the last day of cover and the amount are None where there are none."""

    verdict: str
    window: str
    last_day: date | None
    claimed: Decimal | None


class ClaimChange(NamedTuple):
    """A claim of the book that would be judged otherwise, and where it stands."""

    number: str
    state: str
    before: ClaimOutcome
    after: ClaimOutcome

    def differing(self) -> tuple[str, ...]:
        """What of it would be otherwise: verdict, window, last_day, claimed."""
        return tuple(name for name in ClaimOutcome._fields if getattr(self.before, name) != getattr(self.after, name))


def outcome_of(assessment: Assessment) -> ClaimOutcome:
    """What a claim comes to, as it is assessed."""
    window, amounts = assessment.window, assessment.amounts
    return ClaimOutcome(
        assessment.verdict,
        window.id if window else "",
        window.ends if window else None,
        amounts.claimed if amounts else None,
    )


def changed_claims(pairs: Iterable[tuple[str, str, Assessment, Assessment]]) -> tuple[ClaimChange, ...]:
    """The claims that come to something else, of number, state and the assessment under either plan."""
    changes = (ClaimChange(number, state, outcome_of(one), outcome_of(two)) for number, state, one, two in pairs)
    return tuple(change for change in changes if change.differing())
