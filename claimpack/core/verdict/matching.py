"""Which plan a claim falls under."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import date
from fnmatch import fnmatchcase
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.serial_ranges import is_in_range
from claimpack.core.plans.campaign import with_id
from claimpack.core.plans.makers import is_maker_of
from claimpack.core.plans.plan import Plan
from claimpack.core.values.words import is_said, nearest
from claimpack.core.windows.reach import serial_is_open
from claimpack.core.windows.reasons import Reason, passes, unknown


class PlanMatch(NamedTuple):
    """The plan found, if one was, and the reason."""

    plan: Plan | None
    reason: Reason


def match(claim: Claim, plans: Sequence[Plan]) -> PlanMatch:
    """The one plan that fits a claim: the one it names, else by maker, model, use, day of sale, model year and serial.

    Where several fit, the one whose models say most exactly which unit they mean wins; if that is a tie, none does.

    Source: common practice, no source; plans are the shop's own files.
    """
    if claim.plan:
        return _named(claim, plans)
    if claim.case == "campaign":
        return _of_the_campaign(claim, plans)
    candidates = _of_the_unit(claim, plans)
    fitting = _most_exact([plan for plan in candidates if _falls_under(plan, claim) is True], claim)
    waiting = [plan for plan in candidates if _falls_under(plan, claim) is None]
    if len(fitting) == 1 and not waiting:
        return PlanMatch(
            plan=fitting[0], reason=passes("plan", "plan.found", plan=fitting[0].id, **_facts_of(claim, fitting[0]))
        )
    if len(waiting) == 1 and len(candidates) == 1:
        return PlanMatch(
            plan=waiting[0], reason=passes("plan", "plan.found", plan=waiting[0].id, **_facts_of(claim, waiting[0]))
        )
    if waiting:
        return PlanMatch(plan=None, reason=_waiting(claim, waiting))
    if fitting:
        return PlanMatch(plan=None, reason=_several(claim, fitting))
    return PlanMatch(plan=None, reason=_none(claim, plans))


def may_fall_under(claim: Claim, plans: Sequence[Plan]) -> list[Plan]:
    """The plan of a claim, or while none is found, every plan it may fall under once more is known.

    Source: common practice, no source; plans are the shop's own files.
    """
    found = match(claim, plans).plan
    return [found] if found else [plan for plan in _of_the_unit(claim, plans) if _falls_under(plan, claim) is not False]


def _of_the_unit(claim: Claim, plans: Sequence[Plan]) -> list[Plan]:
    return [plan for plan in plans if _same_maker(plan, claim) and _fits_unit(plan, claim)]


def _of_the_campaign(claim: Claim, plans: Sequence[Plan]) -> PlanMatch:
    """The plan that the campaign of a claim is paid by."""
    facts = {"campaign": claim.campaign} if claim.campaign else {}
    for plan in plans:
        if with_id(plan.campaign, claim.campaign):
            return PlanMatch(plan=plan, reason=passes("plan", "plan.of-campaign", plan=plan.id, **facts))
    key = "plan.campaign-none" if claim.campaign else "plan.campaign-unnamed"
    return PlanMatch(plan=None, reason=unknown("plan", "campaign", key, **facts))


def _named(claim: Claim, plans: Sequence[Plan]) -> PlanMatch:
    for plan in plans:
        if plan.id == claim.plan:
            fits = _same_maker(plan, claim) and _fits_unit(plan, claim) and _falls_under(plan, claim) is not False
            key, facts = ("plan.named", {}) if fits else ("plan.named-other", _facts(claim))
            return PlanMatch(plan=plan, reason=passes("plan", key, plan=plan.id, **facts))
    near = nearest(claim.plan, [plan.id for plan in plans])
    if near:
        return PlanMatch(plan=None, reason=unknown("plan", "plan", "plan.named-none-near", plan=claim.plan, near=near))
    return PlanMatch(plan=None, reason=unknown("plan", "plan", "plan.named-none", plan=claim.plan))


def _waiting(claim: Claim, waiting: Sequence[Plan]) -> Reason:
    """Why several plans wait: for the first fact that is not given and that one of them goes by."""
    asks, key, _ = next(fact for fact in _FACTS if any(fact[2](plan, claim) is None for plan in waiting))
    if claim.is_stock and asks == "dates.purchased":
        asks, key = "unit.invoiced", "plan.invoice-unknown"
    return unknown("plan", asks, key, plans=_ids(waiting))


def _several(claim: Claim, fitting: Sequence[Plan]) -> Reason:
    """Why none of several plans is chosen: the use would tell them apart, or nothing does."""
    if claim.unit.use is None and len({plan.uses for plan in fitting}) > 1:
        return unknown("plan", "unit.use", "plan.use-unknown", plans=_ids(fitting))
    return unknown("plan", "plan", "plan.several", plans=_ids(fitting))


def _none(claim: Claim, plans: Sequence[Plan]) -> Reason:
    others = [plan for plan in plans if _same_maker(plan, claim) and _fits_model(plan, claim)]
    if others:
        by_unit = any(plan.model_years or plan.serials for plan in others)
        key = "plan.none-of-the-unit" if by_unit else "plan.none-sold-then"
        return unknown("plan", "plan", key, plans=_ids(others), **_facts(claim))
    known = [f"{plan.maker} {model}" for plan in plans for model in plan.models]
    near = nearest(f"{claim.maker} {claim.unit.model}", known)
    if near:
        return unknown("plan", "plan", "plan.none-near", near=near, **_facts(claim))
    return unknown("plan", "plan", "plan.none", **_facts(claim))


def _ids(plans: Iterable[Plan]) -> str:
    return ", ".join(plan.id for plan in plans)


def _facts_of(claim: Claim, plan: Plan) -> dict[str, str]:
    """What a plan was found by, the maker by its name."""
    return _facts(claim) | {"maker": plan.maker_name or claim.maker}


def _facts(claim: Claim) -> dict[str, str]:
    sold = _sold(claim)
    told = str(sold or "on an unknown day")
    if claim.is_stock:
        told = f"to the dealer {sold}" if sold else "to nobody yet"
    return {"maker": claim.maker, "model": claim.unit.model, "sold": told}


def _sold(claim: Claim) -> date | None:
    """The day a unit was sold, or the part that the claim is about; one in stock was sold to the dealer alone."""
    if claim.case == "part":
        return claim.part_sold.sold
    return claim.unit.invoiced if claim.is_stock else claim.dates.purchased or claim.dates.delivered


def _same_maker(plan: Plan, claim: Claim) -> bool:
    return is_maker_of(plan, claim.maker)


def _fits_unit(plan: Plan, claim: Claim) -> bool:
    fits_use = plan.uses is None or claim.unit.use is None or is_said(claim.unit.use, plan.uses)
    return fits_use and _fits_model(plan, claim)


def _fits_model(plan: Plan, claim: Claim) -> bool:
    return any(_hits(pattern, claim) for pattern in plan.models)


def _hits(pattern: str, claim: Claim) -> bool:
    return fnmatchcase(claim.unit.model.casefold(), pattern.casefold())


def _sold_under(plan: Plan, claim: Claim) -> bool | None:
    if plan.sold_from is None and plan.sold_until is None:
        return True
    sold = _sold(claim)
    if sold is None:
        return None
    return (plan.sold_from is None or plan.sold_from <= sold) and (plan.sold_until is None or sold <= plan.sold_until)


def _of_model_year(plan: Plan, claim: Claim) -> bool | None:
    if plan.model_years is None:
        return True
    year = claim.unit.model_year
    return None if year is None else plan.model_years[0] <= year <= plan.model_years[1]


def _of_serials(plan: Plan, claim: Claim) -> bool | None:
    if not plan.serials or any(is_in_range(serial.value, plan.serials) for serial in claim.unit.serials):
        return True
    return None if serial_is_open(claim, plan) else False


_FACTS = (
    ("dates.purchased", "plan.sale-unknown", _sold_under),
    ("unit.model_year", "plan.year-unknown", _of_model_year),
    ("unit.serials", "plan.serial-unknown", _of_serials),
)
"""What plans go by beside maker, model and use: the fact, what is said while it is not given, and the rule."""


def _falls_under(plan: Plan, claim: Claim) -> bool | None:
    """Whether a plan is for this unit by sale, model year and serial number; None while one is not given."""
    answers = {rule(plan, claim) for _, _, rule in _FACTS}
    return False if False in answers else None if None in answers else True


def _most_exact(plans: list[Plan], claim: Claim) -> list[Plan]:
    def exactness(plan: Plan) -> tuple[bool, int]:
        return max(_says_exactly(pattern) for pattern in plan.models if _hits(pattern, claim))

    best = max((exactness(plan) for plan in plans), default=None)
    return [plan for plan in plans if exactness(plan) == best]


def _says_exactly(pattern: str) -> tuple[bool, int]:
    """How exactly a pattern says which model it means: one without wildcards most, else by its letters."""
    letters = re.sub(r"\*|\?|\[[^\]]*\]", "", pattern)
    return (letters == pattern, len(letters))


class NearName(NamedTuple):
    """A key of the claim, what it says, and the known name nearest to it."""

    key: str
    said: str
    near: str


def near_names(claim: Claim, plans: Sequence[Plan]) -> tuple[NearName, ...]:
    """The maker and the model where they look mistyped; none where a plan was found.

    Source: common practice, no source.
    """
    if match(claim, plans).plan is not None:
        return ()
    makers = [plan.maker_name for plan in plans if plan.maker_name] + [plan.maker for plan in plans]
    if not is_said(claim.maker, makers):
        maker = nearest(claim.maker, makers)
        return (NearName("maker", claim.maker, maker),) if maker else ()
    of_maker = [plan for plan in plans if is_maker_of(plan, claim.maker)]
    models = [model for plan in of_maker for model in plan.models if "*" not in model]
    model = None if is_said(claim.unit.model, models) else nearest(claim.unit.model, models)
    return (NearName("unit.model", claim.unit.model, model),) if model else ()
