"""Whether a window speaks about a claim at all: component, use, owner, place, exclusions."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import get_args

from claimpack.core.claims.claim import Claim, Use
from claimpack.core.plans.component_words import is_known, kind_of, names_one_of, slip_for, spoken_of
from claimpack.core.plans.plan import Plan, Window
from claimpack.core.values.words import is_among
from claimpack.core.windows.reasons import Reason, fails, passes, unknown

_SHOWN = 8

WindowRule = Callable[[Claim, Plan, Window], Reason | None]


def component(claim: Claim, plan: Plan, window: Window) -> Reason:
    """The window covers the component that failed; a word that the plan does not know is asked about, never refused.

    Source: common practice, no source; the words are the plan's.
    """
    covers, word = _listed(window.covers), claim.component()
    if "*" in window.covers:
        return passes("component", "component.everything")
    if not word:
        return unknown("component", "failure.component", "component.unknown", covers=covers)
    if names_one_of(word, window.covers, plan):
        return passes("component", "component.covered", component=word)
    if is_known(word, plan):
        return fails("component", "component.other", covers=covers, component=word)
    near = slip_for(word, plan, window.covers)
    if near:
        return unknown("component", "failure.component", "component.near", near=near, component=word)
    kind = kind_of(word, plan, window.covers)
    if kind:
        return unknown("component", "failure.component", "component.within", near=kind, component=word)
    return unknown("component", "failure.component", "component.unfamiliar", covers=covers, component=word)


def _listed(words: Sequence[str]) -> str:
    """The words in a row, the first few where they are many."""
    return ", ".join(words if len(words) <= _SHOWN else (*words[:_SHOWN], "…"))


def use(claim: Claim, plan: Plan, window: Window) -> Reason | None:
    """The window is for the way the unit is used; one that names no use is for those of its plan.

    A statutory window is for every use, whatever the plan says.

    Source: common practice, no source; the uses are the plan's.
    """
    allowed = window.uses or (None if window.despite_exclusions else plan.uses)
    if not allowed or set(allowed) == set(get_args(Use)):
        return None
    uses = "|".join(allowed)
    if claim.unit.use is None:
        return unknown("use", "unit.use", "use.unknown", uses_word=uses)
    if claim.unit.use in allowed:
        return passes("use", "use.fits", use_word=claim.unit.use)
    return fails("use", "use.other", uses_word=uses, use_word=claim.unit.use)


def owner(claim: Claim, _plan: Plan, window: Window) -> Reason | None:
    """The window is open to this owner.

    Source: limits to the first owner are the plan's; statutory windows reach every owner (13 CCR 2405(b),
    40 CFR 1039.120(a)).
    """
    if not window.first_owner_only:
        return None
    if claim.owner.first_owner is None:
        return unknown("owner", "owner.first_owner", "owner.unknown")
    return passes("owner", "owner.first") if claim.owner.first_owner else fails("owner", "owner.later")


def sold_in(claim: Claim, _plan: Plan, window: Window) -> Reason | None:
    """The window reaches units sold where this one was.

    Source: the reach of the statute that the window cites.
    """
    if window.sold_in is None:
        return None
    places = ", ".join(window.sold_in)
    if not claim.unit.sold_in:
        return unknown("sold in", "unit.sold_in", "sold-in.unknown", places=places)
    if is_among(claim.unit.sold_in, window.sold_in):
        return passes("sold in", "sold-in.fits", place=claim.unit.sold_in)
    return fails("sold in", "sold-in.other", places=places, place=claim.unit.sold_in)


def exclusions(claim: Claim, plan: Plan, *, despite: bool) -> list[Reason]:
    """What the plan's exclusions say: nothing where none of them names the component or the kind of defect.

    Without the component it cannot be said whether one names it; the kind of defect is often found later, on the
    bench, so it is asked for before filing and does not hold the verdict up.

    Args:
        claim: the claim.
        plan: the plan with its exclusions.
        despite: the window stands against the list of wear parts; excluded defects reach it all the same.

    Source: wear parts: common practice, no source. Defects: 15 USC 2304(c) (damage in the owner's hands,
    unreasonable use, lack of maintenance).
    """
    said = []
    names = _listed(plan.excluded.components)
    if not despite:
        said += _maybe_excluded(claim, plan)
    if names and not claim.component() and not despite:
        said.append(unknown("exclusion", "failure.component", "excluded.unknown", components=names))
    if claim.component() and names_one_of(claim.component(), plan.excluded.components, plan):
        speak = passes("exclusion", "excluded.despite", component=claim.component())
        against = fails("exclusion", "excluded.component", component=claim.component())
        said.append(speak if despite else against)
    if claim.failure.defect in plan.excluded.defects:
        said.append(fails("defect", "excluded.defect", defect_word=claim.failure.defect))
    return said


def _maybe_excluded(claim: Claim, plan: Plan) -> list[Reason]:
    """The question whether the component is an excluded one by another word, or one of its kind."""
    word, excluded = claim.component(), plan.excluded.components
    near = slip_for(word, plan, excluded)
    if near:
        return [unknown("exclusion", "failure.component", "excluded.near", near=near, component=word)]
    within = spoken_of(word, plan, excluded)
    if within:
        return [unknown("exclusion", "failure.component", "excluded.within", near=within, component=word)]
    return []


WINDOW_RULES: tuple[WindowRule, ...] = (component, use, owner, sold_in)
"""The rules that decide whether a window speaks about a claim, in the order they are told."""


def speaks_about(claim: Claim, plan: Plan, window: Window) -> list[Reason]:
    """Every reason for and against the window applying to the claim."""
    said = [reason for rule in WINDOW_RULES if (reason := rule(claim, plan, window))]
    return [*said, *_all_excluded(plan, window), *exclusions(claim, plan, despite=window.despite_exclusions)]


def _all_excluded(plan: Plan, window: Window) -> list[Reason]:
    """That the plan takes away again everything a window covers."""
    taken = (names_one_of(word, plan.excluded.components, plan) for word in window.covers)
    if window.despite_exclusions or not all(taken):
        return []
    return [fails("exclusion", "excluded.all", components=_listed(window.covers))]
