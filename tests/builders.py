"""Claims and plans for tests: complete by themselves, changed where a test needs it."""

from __future__ import annotations

import copy
from datetime import date
from typing import Any

from claimpack.core.claims.claim import Claim
from claimpack.core.plans.plan import Plan

TODAY = date(2026, 3, 1)

CLAIM: dict[str, Any] = {
    "number": "26-0001",
    "maker": "halden",
    "unit": {
        "model": "CS-70",
        "kind": "cut-off saw",
        "use": "professional",
        "meter": True,
        "hours": "100",
        "serials": [{"role": "unit", "value": "HC70-1"}, {"role": "engine", "value": "E70-1"}],
    },
    "owner": {"name": "A. Customer", "first_owner": True},
    "dates": {
        "purchased": "2025-03-14",
        "delivered": "2025-03-14",
        "failed": "2026-02-02",
        "presented": "2026-02-05",
        "repaired": "2026-02-24",
    },
    "proof": {"kind": "receipt", "file": "papers/receipt.pdf"},
    "failure": {
        "complaint": "Will not start.",
        "cause": "Piston scored.",
        "correction": "Short block replaced.",
        "component": "short block",
        "defect": "material",
    },
}

PLAN: dict[str, Any] = {
    "id": "halden-test",
    "maker": "halden",
    "currency": "USD",
    "models": ["CS-*"],
    "window": [{"id": "engine", "covers": ["engine", "short block"], "period": "P12M"}],
    "words": {"blade": []},
    "pays": {"labour_rate": "92.00"},
}

CAMPAIGN: dict[str, Any] = {
    "id": "C-1",
    "name": "Guide",
    "plan": "halden-test",
    "serials": ["HC70-1 .. HC70-9"],
    "operation": {"code": "C-1", "hours": "0.4"},
    "opens": "2026-02-01",
    "closes": "2026-02-28",
}


def changed(record: dict[str, Any], changes: dict[str, Any]) -> dict[str, Any]:
    """A copy of keys with some changed; `a__b` names key b of table a; None takes the key away."""
    keys = copy.deepcopy(record)
    for path, value in changes.items():
        *tables, last = path.split("__")
        table = keys
        for step in tables:
            table = table.setdefault(step, {})
        if value is None:
            table.pop(last, None)
        else:
            table[last] = value
    return keys


def a_claim(**changes: Any) -> Claim:
    """A complete claim, changed."""
    return Claim.model_validate(changed(CLAIM, changes))


def a_plan(**changes: Any) -> Plan:
    """A plan with one window of twelve months, changed."""
    return Plan.model_validate(changed(PLAN, changes))


def a_window(**changes: Any) -> dict[str, Any]:
    """The keys of one window, changed."""
    return changed(PLAN["window"][0], changes)
