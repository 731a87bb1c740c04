"""Which plan a claim falls under."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fnmatch import fnmatchcase

from claimpack.core.claim import Claim, Record
from claimpack.core.plan import Plan
from claimpack.core.reasons import Reason, passes, unknown
from claimpack.core.words import folded, nearest


class Match(Record):
    """The plan found, if one was, and the reason."""

    plan: Plan | None
    reason: Reason


def match(claim: Claim, plans: Sequence[Plan]) -> Match:
    """The one plan that fits a claim: the one it names, else by maker, model, use and purchase date.

    Where several fit, the one whose models say most exactly which unit they mean wins; if that is a tie, none does.

    Source: common practice, no source; plans are the shop's own files.
    """
    if claim.plan:
        return _named(claim, plans)
    candidates = [plan for plan in plans if _same_maker(plan, claim) and _fits_unit(plan, claim)]
    fitting = _most_exact([plan for plan in candidates if _sold_under(plan, claim) is True], claim)
    waiting = [plan for plan in candidates if _sold_under(plan, claim) is None]
    if len(fitting) == 1 and not waiting:
        return Match(plan=fitting[0], reason=passes("plan", "plan.found", plan=fitting[0].id, **_facts(claim)))
    if not fitting and len(waiting) == 1 and len(candidates) == 1:
        return Match(plan=waiting[0], reason=passes("plan", "plan.found", plan=waiting[0].id, **_facts(claim)))
    if waiting:
        names = ", ".join(plan.id for plan in waiting)
        return Match(plan=None, reason=unknown("plan", "dates.purchased", "plan.sale-unknown", plans=names))
    if fitting:
        names = ", ".join(plan.id for plan in fitting)
        return Match(plan=None, reason=unknown("plan", "plan", "plan.several", plans=names))
    return Match(plan=None, reason=_none(claim, plans))


def _named(claim: Claim, plans: Sequence[Plan]) -> Match:
    for plan in plans:
        if plan.id == claim.plan:
            return Match(plan=plan, reason=passes("plan", "plan.named", plan=plan.id))
    return Match(plan=None, reason=_none(claim, plans))


def _none(claim: Claim, plans: Iterable[Plan]) -> Reason:
    known = [claim.plan] if claim.plan else [f"{plan.maker} {model}" for plan in plans for model in plan.models]
    wanted = claim.plan or f"{claim.maker} {claim.unit.model}"
    near = nearest(wanted, [plan.id for plan in plans] if claim.plan else known)
    if near:
        return unknown("plan", "plan", "plan.none-near", near=near, **_facts(claim))
    return unknown("plan", "plan", "plan.none", **_facts(claim))


def _facts(claim: Claim) -> dict[str, str]:
    sold = claim.dates.purchased or claim.dates.delivered
    return {"maker": claim.maker, "model": claim.unit.model, "sold": str(sold or "on an unknown day")}


def _same_maker(plan: Plan, claim: Claim) -> bool:
    return folded(claim.maker) in (folded(plan.maker), folded(plan.maker_name))


def _fits_unit(plan: Plan, claim: Claim) -> bool:
    model = claim.unit.model.casefold()
    fits_use = plan.uses is None or claim.unit.use is None or claim.unit.use in plan.uses
    return fits_use and any(fnmatchcase(model, pattern.casefold()) for pattern in plan.models)


def _sold_under(plan: Plan, claim: Claim) -> bool | None:
    if plan.sold_from is None and plan.sold_until is None:
        return True
    sold = claim.dates.purchased or claim.dates.delivered
    if sold is None:
        return None
    return (plan.sold_from is None or plan.sold_from <= sold) and (plan.sold_until is None or sold <= plan.sold_until)


def _most_exact(plans: list[Plan], claim: Claim) -> list[Plan]:
    def exactness(plan: Plan) -> int:
        model = claim.unit.model.casefold()
        hits = [pattern for pattern in plan.models if fnmatchcase(model, pattern.casefold())]
        return max((len(pattern.replace("*", "")) + (0 if "*" in pattern else 1000) for pattern in hits), default=0)

    best = max((exactness(plan) for plan in plans), default=0)
    return [plan for plan in plans if exactness(plan) == best]
