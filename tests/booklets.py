"""A maker's terms as its booklet has them, and a claim under them: both as a user writes them."""

from __future__ import annotations

import copy
import tomllib
from decimal import Decimal
from typing import Any

from builders import CLAIM, PLAN, TODAY

from claimpack.core.claims.claim import Claim
from claimpack.core.judging.assessment import Assessment, Circumstances, assess
from claimpack.core.plans.plan import Plan

BASE: dict[str, Any] = {**PLAN, "window": [{"id": "unit", "name": "whole unit", "covers": ["*"], "period": "P12M"}]}


def _over(base: dict[str, Any], written: str) -> dict[str, Any]:
    keys = copy.deepcopy(base)
    for key, value in tomllib.loads(written, parse_float=Decimal).items():
        keys[key] = {**keys[key], **value} if isinstance(value, dict) and key in keys else value
    return keys


def under(plan: str, claim: str, **circumstances: Any) -> Assessment:
    """A claim assessed under a plan; what the texts leave out is that of a plain claim covered for a year."""
    given = Circumstances.model_validate(circumstances)
    return assess(Claim.model_validate(_over(CLAIM, claim)), [Plan.model_validate(_over(BASE, plan))], TODAY, given)


def told(assessment: Assessment) -> list[tuple[str, str, str, str]]:
    """Every priced line: what it is, its amount, its handling, who pays it."""
    lines = assessment.price.lines if assessment.price else ()
    return [(line.what, f"{line.amount:.2f}", f"{line.handling:.2f}", line.payer) for line in lines]


def notes(assessment: Assessment, place: int = 1) -> list[str]:
    """What a priced line says of itself; places count from 1."""
    return [str(note) for note in assessment.price.lines[place - 1].notes] if assessment.price else []


def totals(assessment: Assessment, *names: str) -> tuple[str, ...]:
    """Totals by name."""
    return tuple(str(getattr(assessment.amounts, name)) for name in names)
