"""Whether a window speaks about a claim at all: what it covers and leaves out, whom it reaches, what is excluded."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.operations import Elsewhere
from claimpack.core.clauses.window import Window
from claimpack.core.plans.component_words import is_known, kind_of, names_one_of, slip_for, spoken_of, without
from claimpack.core.plans.plan import Plan
from claimpack.core.windows import reach
from claimpack.core.windows.reasons import Reason, fails, passes, unknown

# more words than this are a list that nobody reads on a packet's page
_SHOWN = 8

WindowRule = Callable[[Claim, Plan, Window], Reason | None]


def component(claim: Claim, plan: Plan, window: Window) -> Reason:
    """The window covers the component that failed; a word that the plan does not know is asked about, never refused.

    Source: common practice, no source; the words are the plan's.
    """
    covers, word = _listed(window.covers), claim.component()
    if "*" in window.covers:
        out = [*window.except_, *_left_elsewhere(plan, window)]
        if out:
            return passes("component", "component.everything-but", components=_listed(out))
        return passes("component", "component.everything")
    if not word:
        return unknown("component", "failure.component", "component.unknown", covers=covers)
    if names_one_of(word, window.covers, plan):
        return passes("component", "component.covered", component=word)
    # a word of the plan's own, and not one this window names: that is an answer, whereas a foreign word is a question
    if is_known(word, plan):
        return fails("component", "component.other", covers=covers, component=word)
    # a slip of the pen is looked for before a wider kind: "carburettor" is nearer to "carburetor" than to "fuel system"
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


def left_out(claim: Claim, plan: Plan, window: Window) -> Reason | None:
    """The window does not leave out what failed; a word that may mean what it leaves out is asked about.

    Source: common practice, no source; the words are the plan's.
    """
    word, out = claim.component(), window.except_
    if not out:
        return None
    # a plan written so that nothing is left is told as such, and not as if the component were to blame
    if all(names_one_of(covered, out, plan) for covered in window.covers):
        return fails("component", "left-out.all")
    if not word:
        listed = _listed(out)
        # a window that names its components has asked for the word already; one for everything has not
        everything = "*" in window.covers
        return unknown("component", "failure.component", "left-out.unknown", components=listed) if everything else None
    if names_one_of(word, out, plan):
        return fails("component", "left-out.component", component=word)
    if near := slip_for(word, plan, out):
        return unknown("component", "failure.component", "left-out.near", near=near, component=word)
    if within := spoken_of(word, plan, out):
        return unknown("component", "failure.component", "left-out.within", near=within, component=word)
    return None


def elsewhere(claim: Claim, plan: Plan, window: Window) -> Reason | None:
    """A window for every component leaves to another maker what the plan says that maker covers.

    A window that names the component keeps it; a word that may mean such a component is asked about.

    Source: common practice, no source; engines, batteries and axles have makers of their own.
    """
    word, left = claim.component(), _left_elsewhere(plan, window)
    if "*" not in window.covers or not left:
        return None
    if not word:
        return unknown("elsewhere", "failure.component", "elsewhere.unknown", components=_listed(left))
    if names_one_of(word, left, plan):
        other = covered_elsewhere(claim, plan)
        facts = {"maker": other.maker, "because": other.because} if other else {}
        return fails("elsewhere", "elsewhere.component", component=word, **facts)
    if near := slip_for(word, plan, left) or spoken_of(word, plan, left):
        return unknown("elsewhere", "failure.component", "elsewhere.near", near=near, component=word)
    return None


def _left_elsewhere(plan: Plan, window: Window) -> list[str]:
    # a window that names the part itself means it, whoever else covers it too
    others = (each for other in plan.elsewhere for each in other.components)
    return [each for each in others if not names_one_of(each, window.covers, plan)]


def covered_elsewhere(claim: Claim, plan: Plan) -> Elsewhere | None:
    """Who else covers what failed, as the plan says; the first where it names several.

    Source: the plan's own word.
    """
    word = claim.component()
    if not word:
        return None
    return next((other for other in plan.elsewhere if names_one_of(word, other.components, plan)), None)


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
        # told even where it does no harm: a maker that reads the list of exclusions will ask
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


WINDOW_RULES: tuple[WindowRule, ...] = (
    component,
    left_out,
    elsewhere,
    reach.use,
    reach.owner,
    reach.transfer,
    reach.transfer_fee,
    reach.model_year,
    reach.serials,
    reach.sold_in,
    reach.seller,
    reach.law,
)
"""The rules that decide whether a window speaks about a claim, in the order they are told."""


def speaks_about(claim: Claim, plan: Plan, window: Window) -> list[Reason]:
    """Every reason for and against the window applying to the claim."""
    said = [reason for rule in WINDOW_RULES if (reason := rule(claim, plan, window))]
    return [*said, *_all_excluded(plan, window), *exclusions(claim, plan, despite=window.despite_exclusions)]


def _all_excluded(plan: Plan, window: Window) -> list[Reason]:
    """That the plan takes away again everything a window covers, or all that the window itself does not leave out."""
    left = without(window.covers, window.except_, plan)
    if window.despite_exclusions or not left or without(left, plan.excluded.components, plan):
        return []
    key = "excluded.all" if len(left) == len(window.covers) else "excluded.rest"
    return [fails("exclusion", key, components=_listed(window.covers))]
