"""Claims imagined for the units that a plan is tried on, and the plan cut down to what one of them may fall under."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from typing import Any, NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.facts.keys import record_from
from claimpack.core.facts.unit import HOURS
from claimpack.core.plans.component_words import is_known, names_one_of
from claimpack.core.plans.plan import Plan
from claimpack.core.plans.uses import uses_known
from claimpack.core.values.money import plain, plain_or_none
from claimpack.core.values.periods import Period
from claimpack.core.values.words import is_said

ANY_OTHER = "any other part"
"""A component that the plan knows and no window or exclusion names."""

SOMETHING_ELSE = "a part repaired before"
"""A component that no claim tried is about."""

SOMEWHERE = "anywhere else"
"""A place of sale that no window names."""


class Age(NamedTuple):
    """A day to try, by how long after the sale it lies.

    Args:
        day: the day.
        period: the limit it lies at; None for the day of the sale.
        days: how many days after the last day of that period it lies; below 0 for days before it.
    """

    day: date
    period: Period | None = None
    days: int = 0


class ImaginedUnit(NamedTuple):
    """What is imagined of a unit beside its use and what failed.

    Args:
        says: what of it differs from the first one that is tried; empty for that one.
        registered: whether it was registered on the day of the sale, or never.
        repaired: whether something else of it was repaired on that day.
        first_owner: whether the owner is the first one; else it was sold again at once, and the maker told.
        in_stock: whether it is in stock, built and invoiced on the day of the sale, and was never sold.
        sold_in: where it was sold.
        model_year: its model year, where the plan goes by one.
        serial: its serial number.
        readings: what its meters read, by kind; those that the plan has limits for.
    """

    says: str = ""
    registered: bool = True
    repaired: bool = False
    first_owner: bool = True
    in_stock: bool = False
    sold_in: str = SOMEWHERE
    model_year: int | None = None
    serial: str = "0"
    readings: tuple[tuple[str, Decimal], ...] = ()


def knowing(plan: Plan) -> Plan:
    """The plan as one that knows of other parts than those it names."""
    return plan.model_copy(update={"words": {**plan.words, ANY_OTHER: ()}})


def for_component(plan: Plan, component: str) -> Plan:
    """The plan without windows and words for other components: a claim for this one is judged as by the whole plan.

    A component that the plan does not know is judged by the whole plan itself, which asks what is meant.
    """
    whole = knowing(plan)
    # what a word may stand for depends on every word of the plan
    if not is_known(component, whole):
        return whole

    def kept(words: Iterable[str]) -> tuple[str, ...]:
        return tuple(word for word in words if word == "*" or names_one_of(word, [component], plan))

    windows = tuple(
        window.model_copy(
            update={
                "covers": kept(window.covers),
                "except_": kept(window.except_),
                "scheduled": tuple(one for one in window.scheduled if kept([one.component])),
            }
        )
        for window in plan.window
        if kept(window.covers)
    )
    others = tuple(other.model_copy(update={"components": kept(other.components)}) for other in plan.elsewhere)
    excluded = plan.excluded.model_copy(update={"components": kept(plan.excluded.components)})
    few: dict[str, object] = {"window": windows, "elsewhere": others, "excluded": excluded, "operation": ()}
    return plan.model_copy(update={**few, "words": {component: tuple(plan.words.get(component, ()))}})


def for_use(plan: Plan, use: str) -> Plan:
    """The plan without the windows for other uses, which no claim for a unit of this use falls under.

    For a use that the plan does not know it is the whole plan, which asks what is meant.
    """
    if not is_said(use, uses_known([plan])):
        return plan
    kept = tuple(window for window in plan.window if window.uses is None or is_said(use, window.uses))
    return plan.model_copy(update={"window": kept})


def imagined_claim(plan: Plan, sold: date, unit: ImaginedUnit) -> Claim:
    """A claim for a unit sold on a day, without a use and before anything failed."""
    roles = dict.fromkeys(("unit", *plan.requires.serial_roles))
    meters = [{"kind": kind, "value": plain(reading)} for kind, reading in unit.readings]
    keys: dict[str, Any] = {
        "number": "trial",
        "maker": plan.maker,
        "unit": {
            "model": plan.models[0],
            "built": sold,
            "invoiced": sold,
            "sold_in": unit.sold_in,
            "model_year": unit.model_year,
            "serials": [{"role": role, "value": unit.serial if role == "unit" else "0"} for role in roles],
            "meters": meters,
            **({} if any(kind == HOURS for kind, _ in unit.readings) else {"meter": False}),
        },
        "owner": {"first_owner": unit.first_owner},
        "dates": {
            "purchased": sold,
            "delivered": sold,
            "in_service": sold,
            "presented": sold,
            **({"registered": sold} if unit.registered else {"never_registered": True}),
            **({} if unit.first_owner else {"resold": sold, "transferred": sold}),
        },
        "proof": {"kind": "receipt"},
        "earlier": [{"component": SOMETHING_ELSE, "repaired": sold}] if unit.repaired else [],
        "findings": [
            {
                "what": one.what,
                "unit": one.unit,
                "value": plain_or_none(one.bound),
            }
            for one in plan.requires.findings
            if one.decides
        ],
    }
    if unit.in_stock:
        keys |= {"case": "stock", "dates": {"presented": sold}, "proof": {}, "owner": {}}
    return record_from(Claim, keys, "the unit tried")


def at_age(claim: Claim, age: Age, use: str, component: str) -> Claim:
    """The claim as it is when a component of a unit of some use fails, is brought in and repaired on one day."""
    on = {"failed": age.day, "presented": age.day, "repaired": age.day}
    return claim.model_copy(
        update={
            "unit": claim.unit.model_copy(update={"use": use}),
            "dates": claim.dates.model_copy(update=on),
            "failure": claim.failure.model_copy(update={"component": component}),
        }
    )
