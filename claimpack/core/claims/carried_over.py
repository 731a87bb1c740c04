"""What one claim has in common with the next: one with another maker about the same visit, or one of a unit alike."""

from __future__ import annotations

from datetime import date
from typing import Any

from claimpack.core.claims.claim import Claim
from claimpack.core.facts.keys import record_from


def carried_over(claim: Claim) -> Claim:
    """A claim with the owner, unit, papers and dates of another, and nothing else of it.

    Source: common practice, no source.
    """
    common = {"maker", "unit", "owner", "dates", "proof", "papers", *(["case"] if claim.is_stock else [])}
    kept = claim.model_dump(include=common, exclude_unset=True)
    return Claim.model_validate({"number": "0", **kept})


def told_of(claim: Claim) -> list[str]:
    """What a claim tells that came from another one, in words."""
    unit, dates = claim.unit, claim.dates
    said = {
        f"model {unit.model}": bool(unit.model),
        "the serial numbers": bool(unit.serials),
        "the use": unit.use is not None,
        "the meters": unit.hours is not None or bool(unit.meters),
        "the day it was built": unit.built is not None,
        "the day of sale": bool(dates.purchased or dates.delivered),
        "the registration": bool(dates.registered or dates.never_registered),
        "the days of the repair": bool(dates.repaired or dates.failed),
        "the owner": bool(claim.owner.name),
        "the proof of purchase": claim.proof.kind is not None,
        "the papers": bool(claim.papers),
        f"plan {claim.plan}": bool(claim.plan),
    }
    return [words for words, is_there in said.items() if is_there]


def another_visit(claim: Claim, today: date) -> Claim:
    """A claim about the same unit with the same maker: it comes in anew, and nothing of the repair is carried over.

    What its meters read is left out as well, unless that was read on the same day; so is the owner who has sold it on
    since, and that it was in stock, once it is sold.

    Raises:
        BadInput: it was sold after that day.

    Source: common practice, no source.
    """
    of_that_visit = {"failed", "repaired", "returned"}
    dates = claim.dates.model_dump(exclude=of_that_visit, exclude_unset=True) | {"presented": today}
    left = set[str]() if claim.dates.presented == today else {"hours", "meters"}
    unit = claim.unit.model_dump(exclude=left, exclude_unset=True)
    kept = carried_over(claim).model_dump(exclude=_over_by(claim, today), exclude_unset=True)
    return record_from(Claim, {**kept, "unit": unit, "dates": dates}, f"claim {claim.number}")


def _over_by(claim: Claim, today: date) -> set[str]:
    """What was true of a unit when it came in, and is not any more."""
    dates = claim.dates
    is_sold = any(day and day < today for day in (dates.purchased, dates.delivered))
    has_another_owner = dates.resold is not None and dates.presented < dates.resold <= today
    return {*(["case"] if is_sold else []), *(["owner"] if has_another_owner else [])}


def alike(claim: Claim) -> Claim:
    """A claim about another unit on the same receipt: owner, papers, plan, model and day of sale of the first.

    What is one unit's alone is left out: serial numbers, readings, registration, the day it failed and came in, and
    when one of several in stock was sold.

    Source: common practice, no source.
    """
    whole = ("maker", "plan", "terms", "owner", "proof", "papers", *(["case"] if claim.is_stock else []))
    common: Any = {
        **dict.fromkeys(whole, True),
        "unit": {"model", "kind", "use", "model_year", "sold_in", "invoiced"},
        "dates": set() if claim.is_stock else {"purchased", "delivered"},
    }
    kept = claim.model_dump(include=common, exclude_unset=True)
    nobody: dict[str, Any] = {
        "unit": {"model": claim.unit.model, "serials": []},
        "dates": {"presented": claim.dates.presented},
    }
    return Claim.model_validate({"number": "0", **kept, **{key: {**nobody[key], **kept[key]} for key in nobody}})
