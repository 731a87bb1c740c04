"""What is wrong or doubtful in a coverage plan that can be read all the same."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from claimpack.core.clauses.serial_pattern import has_form
from claimpack.core.clauses.serial_ranges import ends_of
from claimpack.core.facts.fields import USES
from claimpack.core.facts.unit import HOURS
from claimpack.core.plans.component_words import ALIKE, names_one_of
from claimpack.core.plans.lint_money import MONEY_RULES
from claimpack.core.plans.lint_ranges import (
    fractions_of_the_whole,
    limits_like_fractions,
    model_years_apart,
    serial_ranges_apart,
)
from claimpack.core.plans.lint_windows import WINDOW_RULES
from claimpack.core.plans.lint_words import operations_for_no_component, words_nearly_alike, words_spelt_two_ways
from claimpack.core.plans.plan import Plan
from claimpack.core.plans.uses import MEANT_USES, uses_known
from claimpack.core.values.words import did_you_mean, folded, is_among, is_said, nearest

LintRule = Callable[[Plan], Iterable[str]]


def unknown_inclusions(plan: Plan) -> Iterable[str]:
    """Operations included by another must be in the schedule.

    Source: a rule of this tool's, no source.
    """
    codes = [operation.code for operation in plan.operation]
    for operation in plan.operation:
        for included in operation.includes:
            if not is_said(included, codes):
                hint = did_you_mean(included, codes)
                yield f"operation {operation.code}: includes {included!r}, which is not in the schedule. {hint}"


def circular_inclusions(plan: Plan) -> Iterable[str]:
    """Operations that include each other, through however many steps, would all be priced at nothing.

    Source: a rule of this tool's, no source.
    """
    for operation in plan.operation:
        if operation.code in plan.included_in(operation.code):
            yield f"operation {operation.code}: includes itself, by way of what it includes, so it would not be paid"


def wear_parts_with_a_window(plan: Plan) -> Iterable[str]:
    """A component both covered by name and excluded is covered by no window it was written for.

    Source: a rule of this tool's, no source.
    """
    for window in plan.window:
        both = [word for word in window.covers if word != "*" and is_among(word, plan.excluded.components)]
        if both and not window.despite_exclusions:
            yield f"window {window.id}: covers {', '.join(both)}, which [excluded] takes away again"


def left_out_in_vain(plan: Plan) -> Iterable[str]:
    """What a window leaves out must be among what it covers, and not all of it; nor a slip for another word.

    Source: a rule of this tool's, no source.
    """
    for window in plan.window:
        # without those it leaves out itself: a word is no slip for itself
        known = [word for word in plan.component_words() if not is_said(word, window.except_)]
        for word in window.except_:
            named = names_one_of(word, window.covers, plan)
            if "*" not in window.covers and not named:
                yield f"window {window.id}: except {word!r} is not among what it covers"
            elif not named and (near := nearest(word, known, ALIKE)):
                yield f"window {window.id}: except {word!r} is written {near!r} elsewhere in the plan"
        if window.except_ and all(names_one_of(word, window.except_, plan) for word in window.covers):
            yield f"window {window.id}: leaves out all that it covers"


def elsewhere_in_vain(plan: Plan) -> Iterable[str]:
    """What another maker covers is left out by windows for every component alone, and has one maker, who is another.

    Source: a rule of this tool's, no source.
    """
    seen: list[str] = []
    everything = any("*" in window.covers for window in plan.window)
    for other in plan.elsewhere:
        if folded(other.maker) in (folded(plan.maker), folded(plan.maker_name)):
            yield f"elsewhere: {other.maker} is the maker of this plan"
        for word in other.components:
            if names_one_of(word, seen, plan):
                yield f"elsewhere: {word!r} is left to more than one maker"
            if not everything:
                yield f"elsewhere: no window covers every component, so {word!r} need not be left to {other.maker}"
        seen += other.components


def limits_in_vain(plan: Plan) -> Iterable[str]:
    """What comes first or last is asked of a period and limits; a limit on a mistyped meter asks for one nobody has.

    Source: a rule of this tool's, no source.
    """
    for window in plan.window:
        if window.whichever == "last" and not window.every_limit():
            yield f"window {window.id}: whichever says nothing without hours or limits"
    kinds = dict.fromkeys((HOURS, *(folded(one.meter) for window in plan.window for one in window.limits)))
    for place, kind in enumerate(kinds):
        if near := nearest(kind, list(kinds)[:place], ALIKE):
            yield f"limits: meter {kind!r} is nearly {near!r}; write both the same where they are one"


def uses_misspelt(plan: Plan) -> Iterable[str]:
    """A use that is nearly another one is most likely that one mistyped.

    Source: a rule of this tool's, no source.
    """
    known = uses_known([plan])
    # the uses every plan knows are no slips of each other
    for use in known[len(USES) :]:
        if near := nearest(use, known[: known.index(use)], ALIKE):
            yield f"uses: {use!r} is nearly {near!r}; if it is another use, let the words differ more"


def uses_said_otherwise(plan: Plan) -> Iterable[str]:
    """A window for a use that is another word for a known one is met by no claim that says the known one.

    Who names the word under `uses` means it.

    Source: a rule of this tool's, no source.
    """
    for window in plan.window:
        for use in window.uses or ():
            meant = MEANT_USES.get(folded(use), "")
            if meant and not is_said(use, plan.uses or ()):
                yield f"window {window.id}: claims say {meant!r} for {use!r}; write that, or name {use!r} under uses"


def windows_beyond_the_plan(plan: Plan) -> Iterable[str]:
    """A window for uses, model years or serial numbers that its plan is not for is met by no claim.

    Source: a rule of this tool's, no source.
    """
    for window in plan.window:
        stray = [use for use in window.uses or () if plan.uses and not is_said(use, plan.uses)]
        if stray and not window.despite_exclusions:
            yield f"window {window.id}: is for {', '.join(stray)} use, which the plan is not for"
        years, all_years = window.model_years, plan.model_years
        # they may overlap in part: only a window none of whose years are the plan's is for nobody
        if years and all_years and (years[1] < all_years[0] or all_years[1] < years[0]):
            yield f"window {window.id}: is for model years that the plan is not for"


def ranges_of_another_form(plan: Plan) -> Iterable[str]:
    """Both ends of a range have the form of the serial numbers that the plan asks for.

    Source: a rule of this tool's, no source.
    """
    forms = plan.requires.serial_patterns.values()
    ranges = [*(plan.serials or ()), *(range_ for window in plan.window for range_ in window.serials or ())]
    for range_ in ranges if forms else ():
        # one form for both ends: a range does not run from one number series into another
        if not any(all(has_form(form, end) for end in ends_of(range_)) for form in forms):
            yield f"serials: {range_!r} has no form that requires.serial_patterns gives"


def renewals_outside(plan: Plan) -> Iterable[str]:
    """A scheduled renewal must be of a component the window covers.

    Source: a rule of this tool's, no source.
    """
    for window in plan.window:
        for renewal in window.scheduled:
            if not is_among(renewal.component, window.covers):
                yield f"window {window.id}: scheduled {renewal.component!r} is not among what it covers"


def reserved_id(plan: Plan) -> Iterable[str]:
    """The id of a window is taken: by the window that replaced parts get, or by a statute's.

    Source: a rule of this tool's, no source.
    """
    if plan.replaced and any(window.id == "replaced" for window in plan.window):
        yield "window replaced: this id is kept for parts put in under warranty; choose another"
    ids = [window.id for window in plan.window]
    for name in sorted({name for name in ids if ids.count(name) > 1}):
        yield f"window {name}: the plan and a statute it takes in both have a window of this id"


def patterns_without_role(plan: Plan) -> Iterable[str]:
    """A serial pattern says nothing about a serial number that may be absent.

    Source: a rule of this tool's, no source.
    """
    for role in plan.requires.serial_patterns:
        if not is_among(role, plan.requires.serial_roles):
            yield f"requires.serial_patterns: {role!r} is not among serial_roles, so it may be absent"


LINT_RULES: tuple[LintRule, ...] = (
    unknown_inclusions,
    circular_inclusions,
    wear_parts_with_a_window,
    renewals_outside,
    left_out_in_vain,
    elsewhere_in_vain,
    limits_in_vain,
    uses_misspelt,
    uses_said_otherwise,
    words_spelt_two_ways,
    words_nearly_alike,
    operations_for_no_component,
    windows_beyond_the_plan,
    model_years_apart,
    serial_ranges_apart,
    fractions_of_the_whole,
    limits_like_fractions,
    ranges_of_another_form,
    reserved_id,
    patterns_without_role,
    *MONEY_RULES,
    *WINDOW_RULES,
)
"""Every rule, in the order it is told."""


def lint(plan: Plan) -> tuple[str, ...]:
    """Everything doubtful in a plan, in the order of the rules."""
    return tuple(doubt for rule in LINT_RULES for doubt in rule(plan))
