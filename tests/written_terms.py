"""A maker's windows and a claim under them, both as a user writes them; what they do not say is left open."""

from __future__ import annotations

import tomllib
from datetime import date
from decimal import Decimal
from typing import Any

from claimpack.core.claims.claim import Claim
from claimpack.core.judging.assessment import Assessment, assess
from claimpack.core.plans.plan import Plan

TODAY = date(2030, 1, 1)


def _read(written: str) -> dict[str, Any]:
    return tomllib.loads(written, parse_float=Decimal)


def assessed(plan: str, claim: str) -> Assessment:
    """A claim about a unit of one maker, assessed under the one plan of it."""
    keys = {"number": "1", "maker": "halden", "owner": {"first_owner": True}, **_read(claim)}
    keys["unit"] = {"model": "CS-70", "serials": [], **keys.get("unit", {})}
    terms = {"id": "written", "maker": "halden", "currency": "USD", **_read(plan)}
    return assess(Claim.model_validate(keys), [Plan.model_validate(terms)], TODAY)
