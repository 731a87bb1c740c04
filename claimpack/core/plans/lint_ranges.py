"""Ranges of a plan that leave out what lies between them, or hold it twice; and fractions that look like percents."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal
from itertools import pairwise

from claimpack.core.clauses.serial_ranges import numbers_between
from claimpack.core.clauses.window import Window
from claimpack.core.plans.plan import Plan
from claimpack.core.values.money import percent, plain
from claimpack.core.values.words import folded

_FEW = 10


def model_years_apart(plan: Plan) -> Iterable[str]:
    """Windows that differ in their model years alone go on from each other, without a year between or in both.

    Source: a rule of this tool's, no source.
    """
    for group in _alike(plan, "model_years"):
        spans = sorted((window.model_years, window.id) for window in group if window.model_years)
        for ((_, last), one), ((first, _), other) in pairwise(spans):
            if first > last + 1:
                missing = f"{last + 1}" if first == last + 2 else f"{last + 1} to {first - 1}"
                yield f"window {other}: model_years begin in {first}, those of {one} end in {last}; {missing} has none"
            elif first <= last:
                yield f"window {other}: model_years begin in {first}, those of {one} end in {last}; both hold {first}"


def serial_ranges_apart(plan: Plan) -> Iterable[str]:
    """Ranges of serial numbers that hold a number twice, or leave out a few between them, are most likely mistyped.

    Source: a rule of this tool's, no source.
    """
    lists = [("serials", plan.serials or ()), *((f"window {w.id}: serials", w.serials or ()) for w in plan.window)]
    for group in _alike(plan, "serials"):
        ranges = [range_ for window in group for range_ in window.serials or ()]
        lists.append((f"windows {', '.join(window.id for window in group)}: serials", tuple(ranges)))
    told: set[tuple[str, str]] = set()
    for key, ranges_ in lists:
        for one, other in pairwise(sorted(ranges_)):
            between = numbers_between(one, other)
            if between is None or (one, other) in told:
                continue
            told.add((one, other))
            if between < 0:
                yield f"{key}: {one!r} and {other!r} both hold some numbers"
            elif 0 < between < _FEW:
                numbers = "one number" if between == 1 else f"{between} numbers"
                yield f"{key}: {numbers} between {one!r} and {other!r} would be in neither"


def fractions_of_the_whole(plan: Plan) -> Iterable[str]:
    """A rate of 1 adds as much again as the cost; who writes it most likely means one percent.

    Source: a rule of this tool's, no source.
    """
    pays = plan.pays
    rates = [("pays.parts_handling", band.rate) for band in pays.parts_handling]
    rates += [("pays.tax", pays.tax), ("pays.handling_on_supplied", pays.handling_on_supplied or Decimal(0))]
    for key in dict.fromkeys(key for key, rate in rates if rate == 1):
        yield f"{key}: 1 is the whole once more; write 0.01 for 1 %"


def limits_like_fractions(plan: Plan) -> Iterable[str]:
    """A limit in percent that is no more than 1 is most likely a fraction: 0.70 % is not 70 %.

    Source: a rule of this tool's, no source.
    """
    for finding in plan.requires.findings:
        key = "at_most" if finding.at_most is not None else "at_least"
        if finding.unit == "%" and finding.bound is not None and 0 < finding.bound <= 1:
            meant = percent(finding.bound)
            yield f"requires.findings: {finding.what} {key} {plain(finding.bound)} %; write {meant} for {meant} %"


def _alike(plan: Plan, key: str) -> Iterator[list[Window]]:
    """Windows that are alike but for one key, their names and what they cite."""
    groups: dict[str, list[Window]] = {}
    for window in plan.window:
        covers = sorted(folded(word) for word in window.covers)
        rest = window.model_dump(exclude={"id", "name", "cites", "covers", key})
        groups.setdefault(repr((covers, rest)), []).append(window)
    yield from groups.values()
