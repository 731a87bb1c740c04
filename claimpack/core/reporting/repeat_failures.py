"""Failures that come again: one component on several units of a model, and one unit with the same failure twice."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.auditing.report.traces import Traces
from claimpack.core.reporting.reported import Days, ReportedClaim
from claimpack.core.values.words import folded


class ModelFailure(NamedTuple):
    """A component that failed on several units of a model; came_back counts the units on which it failed again."""

    maker: str
    model: str
    component: str
    units: int
    claims: int
    came_back: int
    first: date
    last: date


class CameBack(NamedTuple):
    """A unit on which the same component failed again; days is the shortest time between two of its claims."""

    maker: str
    model: str
    unit: str
    component: str
    claims: tuple[str, ...]
    days: int
    last: date


class RepeatFailures(NamedTuple):
    """What came again: by model, most units first; by unit, the latest first."""

    models: tuple[ModelFailure, ...]
    units: tuple[CameBack, ...]


class Visit(NamedTuple):
    """A unit in the shop for a component, as one claim tells it."""

    maker: str
    model: str
    component: str
    unit: str
    presented: date
    number: str

    @property
    def what(self) -> tuple[str, str, str]:
        """What failed, for comparing."""
        return folded(self.maker), folded(self.model), folded(self.component)


class Repeats:
    """The failures of units presented within the days that came again; claims withdrawn are left out.

    A unit is known by its maker and serial number; units without one are taken for different units. The visits are
    laid among traces until all are there, since those of a million units need not fit into memory.

    Source: common practice, no source.
    """

    def __init__(self, days: Days, kept: Traces) -> None:
        self._days, self._kept = days, kept

    def add(self, claim: ReportedClaim) -> None:
        """Keep what one claim tells."""
        if claim.component and claim.state != "withdrawn" and self._days.hold(claim.presented):
            visit = Visit(claim.maker, claim.model, claim.component, claim.unit, claim.presented, claim.number)
            # without a serial number nobody can say that it was the same unit
            self._kept.put(0, (visit.what, folded(claim.unit) or f"claim {claim.number}"), visit)

    def told(self) -> RepeatFailures:
        """What came again."""
        models: dict[tuple[str, str, str], ModelFailure] = {}
        shown: dict[tuple[str, str, str], Visit] = {}
        again = []
        for _, visits in self._kept.groups():
            what = visits[0].what
            first = min(visits, key=_in_order)
            shown[what] = min(first, shown.get(what, first), key=_in_order)
            models[what] = _more(models.get(what), shown[what], visits)
            if len(visits) > 1:
                again.append(_came_back(visits))
        several = (model for model in models.values() if model.units > 1)
        return RepeatFailures(
            tuple(sorted(several, key=lambda failure: (-failure.units, -failure.claims, failure[:3]))),
            tuple(sorted(again, key=lambda unit: (-unit.last.toordinal(), unit[:4]))),
        )


def _in_order(visit: Visit) -> tuple[date, str]:
    return visit.presented, visit.number


def _more(sums: ModelFailure | None, shown: Visit, visits: Sequence[Visit]) -> ModelFailure:
    """A model with the visits of one more unit, told as the first of all visits tells it."""
    before = sums or ModelFailure(*shown.what, 0, 0, 0, date.min, date.min)
    return ModelFailure(
        maker=shown.maker,
        model=shown.model,
        component=shown.component,
        units=before.units + 1,
        claims=before.claims + len(visits),
        came_back=before.came_back + (len(visits) > 1),
        first=shown.presented,
        last=max(before.last, *(visit.presented for visit in visits)),
    )


def _came_back(visits: Sequence[Visit]) -> CameBack:
    ordered = sorted(visits, key=_in_order)
    first, last = ordered[0], ordered[-1]
    return CameBack(
        maker=first.maker,
        model=first.model,
        unit=first.unit,
        component=first.component,
        claims=tuple(claim.number for claim in ordered),
        days=min((later.presented - earlier.presented).days for earlier, later in itertools.pairwise(ordered)),
        last=last.presented,
    )
