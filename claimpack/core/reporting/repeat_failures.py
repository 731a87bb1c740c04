"""Failures that come again: one component on several units of a model, and one unit with the same failure twice."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from datetime import date
from typing import NamedTuple

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


def repeat_failures(claims: Iterable[ReportedClaim], days: Days) -> RepeatFailures:
    """The failures of units presented within the days that came again; claims withdrawn are left out.

    A unit is known by its maker and serial number; units without one are taken for different units.

    Source: common practice, no source.
    """
    found: dict[tuple[str, str, str], dict[str, list[ReportedClaim]]] = {}
    for claim in claims:
        if claim.component and claim.state != "withdrawn" and days.hold(claim.presented):
            what = (folded(claim.maker), folded(claim.model), folded(claim.component))
            units = found.setdefault(what, {})
            # without a serial number nobody can say that it was the same unit
            units.setdefault(folded(claim.unit) or f"claim {claim.number}", []).append(claim)
    models = [_model(list(units.values())) for units in found.values() if len(units) > 1]
    again = [_came_back(visits) for units in found.values() for visits in units.values() if len(visits) > 1]
    return RepeatFailures(
        tuple(sorted(models, key=lambda failure: (-failure.units, -failure.claims, failure[:3]))),
        tuple(sorted(again, key=lambda unit: (-unit.last.toordinal(), unit[:4]))),
    )


def _model(units: Sequence[Sequence[ReportedClaim]]) -> ModelFailure:
    claims = [claim for visits in units for claim in visits]
    shown = min(claims, key=lambda claim: (claim.presented, claim.number))
    return ModelFailure(
        maker=shown.maker,
        model=shown.model,
        component=shown.component,
        units=len(units),
        claims=len(claims),
        came_back=sum(len(visits) > 1 for visits in units),
        first=shown.presented,
        last=max(claim.presented for claim in claims),
    )


def _came_back(visits: Sequence[ReportedClaim]) -> CameBack:
    ordered = sorted(visits, key=lambda claim: (claim.presented, claim.number))
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
