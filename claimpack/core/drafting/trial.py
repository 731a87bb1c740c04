"""A plan tried on imagined units: what is paid, and by which window, of every component at every age."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple, get_args

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.window import LineKind
from claimpack.core.drafting.imagined import Axes
from claimpack.core.drafting.imagined_claims import Age, ImaginedUnit, at_age, for_component, for_use, imagined_claim
from claimpack.core.facts.unit import HOURS
from claimpack.core.plans.plan import Plan
from claimpack.core.values.money import ZERO
from claimpack.core.verdict.by_case import judge_case
from claimpack.core.verdict.coverage import Judgement, Verdict
from claimpack.core.verdict.paid_parts import paid_parts
from claimpack.core.verdict.plan_faults import faults

KINDS: tuple[str, ...] = get_args(LineKind)
ONE = Decimal(1)


class Paid(NamedTuple):
    """What is paid of one repair.

    Args:
        verdict: whether it is covered.
        windows: the ids of the windows that pay it: the one cited where that pays as much as any; else those that do.
        shares: how much of parts, of labour and of extras is paid, as fractions.
    """

    verdict: Verdict
    windows: tuple[str, ...] = ()
    shares: tuple[Decimal, ...] = (ZERO,) * len(KINDS)


class TrialRow(NamedTuple):
    """What is paid of some components of units of some uses, at each age; all of them are paid alike.

    None stands where a unit cannot have run so long.
    """

    components: tuple[str, ...]
    uses: tuple[str, ...]
    paid: tuple[Paid | None, ...]


class TrialBlock(NamedTuple):
    """The rows of one imagined unit; beside the first only those that differ from what the first one is paid."""

    unit: ImaginedUnit
    rows: tuple[TrialRow, ...]


class Trial(NamedTuple):
    """A plan and what it pays; the rows of every block have a cell for each age."""

    plan: Plan
    axes: Axes
    blocks: tuple[TrialBlock, ...]


TrialCells = dict[tuple[str, str], tuple[Paid | None, ...]]
"""What is paid at each age, by the first component of a group and the use; None where no unit can have run so long."""


def try_plan(plan: Plan, axes: Axes) -> Trial:
    """What a plan pays of all that is tried; a reading that changes nothing more than the one below is left out."""
    first, *others = axes.units
    base = cells_of(plan, axes, first)
    blocks, before = [TrialBlock(first, rows_of(base, axes))], base
    for unit in others:
        cells = cells_of(plan, axes, unit, base)
        # a reading that pays like the reading below it has nothing to add to the table
        if unit.readings == first.readings or _differ(cells, before) or not _differ(cells, base):
            changed = {place: paid for place, paid in cells.items() if _differ({place: paid}, base)}
            blocks.append(TrialBlock(unit, rows_of(changed, axes)))
        before = base if unit.readings == first.readings else cells
    return Trial(plan, axes, tuple(blocks))


def _differ(cells: TrialCells, others: TrialCells) -> bool:
    return any(
        one and other and one != other
        for place, paid in cells.items()
        for one, other in zip(paid, others[place], strict=True)
    )


def cells_of(plan: Plan, axes: Axes, unit: ImaginedUnit, first: TrialCells | None = None) -> TrialCells:
    """What a plan pays of one imagined unit, at each age.

    Args:
        plan: the plan.
        axes: what is tried.
        unit: the unit.
        first: what it pays of the first unit, where this is another one.
    """
    claim = imagined_claim(plan, axes.sold, unit)
    if unit.repaired:
        # What was repaired before is another part than any that is tried.
        plan = plan.model_copy(update={"replaced": None})
    # a component that no window limits by a meter is paid whatever the meters read, and is not judged again
    is_read = unit.readings != axes.units[0].readings
    found: TrialCells = {}
    for component, *_ in axes.components:
        # a fault of the plan about a component leaves it undecided at every age
        if _is_faulty(plan, at_age(claim, axes.ages[0], axes.uses[0], component)):
            found |= {(component, use): (Paid("undecided"),) * len(axes.ages) for use in axes.uses}
            continue
        own = for_component(plan, component)
        if first is not None and is_read and not any(window.every_limit() or window.scheduled for window in own.window):
            found |= {(component, use): first[component, use] for use in axes.uses}
            continue
        for use in axes.uses:
            used = for_use(own, use)
            found[component, use] = tuple(
                paid(used, at_age(claim, age, use, component)) if _may_have_run(unit, age, axes) else None
                for age in axes.ages
            )
    return found


def _is_faulty(plan: Plan, claim: Claim) -> bool:
    """Whether the plan contradicts itself about what failed, so that nobody can say."""
    return any(fault.of_verdict for fault in faults(claim, plan))


def _may_have_run(unit: ImaginedUnit, age: Age, axes: Axes) -> bool:
    return dict(unit.readings).get(HOURS, ZERO) <= ((age.day - axes.sold).days + 1) * 24


def paid(plan: Plan, claim: Claim, found: Judgement | None = None) -> Paid:
    """What is paid of one repair, as it is judged.

    Args:
        plan: the plan.
        claim: the claim.
        found: the verdict, where it is known.
    """
    found = found or judge_case(claim, plan)
    if found.window is None:
        return Paid(found.verdict)
    shares = _shares(plan, found)
    # the cited window first: where it pays as much as all together, it alone is named
    holding = [found.window, *(window for window in found.windows if window.holds)]
    by_window = {one.id: _shares(plan, found._replace(window=one, windows=(one,))) for one in holding}
    whole = next((name for name, own in by_window.items() if own == shares), None)
    paying = (
        next(name for name, own in by_window.items() if own[place] == share) for place, share in enumerate(shares)
    )
    return Paid("covered", (whole,) if whole else tuple(dict.fromkeys(paying)), shares)


def _shares(plan: Plan, judgement: Judgement) -> tuple[Decimal, ...]:
    """How much of each kind of line is paid, as fractions, in the order of the kinds."""
    parts = paid_parts(plan, judgement)
    return tuple(parts[kind].maker / parts[kind].of if kind in parts else ONE for kind in KINDS)


def rows_of(cells: TrialCells, axes: Axes) -> tuple[TrialRow, ...]:
    """Cells put together: components that are paid alike whatever the use are a row, or one for each group of uses."""
    alike: dict[tuple[tuple[Paid | None, ...] | None, ...], list[str]] = {}
    for group in axes.components:
        by_use = tuple(cells.get((group[0], use)) for use in axes.uses)
        if any(by_use):
            alike.setdefault(by_use, []).extend(group)
    rows: list[TrialRow] = []
    for by_use, components in alike.items():
        uses: dict[tuple[Paid | None, ...], list[str]] = {}
        for use, paid in zip(axes.uses, by_use, strict=True):
            if paid:
                uses.setdefault(paid, []).append(use)
        rows += [TrialRow(tuple(components), tuple(some), paid) for paid, some in uses.items()]
    return tuple(rows)
