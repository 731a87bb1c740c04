"""How much of each kind of line the windows of a plan pay, as they are judged."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date
from functools import partial
from typing import get_args

from claimpack.core.clauses.window import LineKind
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.window_pays import ALL_PAID, BY_SELLER, PaidPart, PaidParts, WindowSpell, paid_by
from claimpack.core.values.periods import last_day
from claimpack.core.values.wording.sentence import Sentence, say
from claimpack.core.verdict.coverage import Judgement
from claimpack.core.windows.judged import WindowJudgement


def paid_parts(plan: Plan, judgement: Judgement) -> PaidParts:
    """How much of each kind of line the open windows pay: of several, the one that pays most, or is cited.

    While the verdict is open it is as if the windows that may hold did; where none holds, as if those for the unit and
    the component were still open. Where a fact is open that does not matter for the verdict, the least of them counts.

    Source: common practice, no source.
    """
    if not any(window.pays or window.shares or window.owed_by == "seller" for window in plan.window):
        return ALL_PAID
    by_id = {window.id: window for window in plan.window}
    open_ones = _open_ones(plan, judgement)
    cited = judgement.window.id if judgement.window else ""
    # of windows that pay alike the one that is cited speaks: `max` and `min` keep the first
    open_ones.sort(key=lambda one: one.id != cited)
    # where it is not known which window it is, no more is claimed than each of them would pay
    best = min if judgement.whatever else max
    found: dict[str, PaidPart] = {}
    for kind in get_args(LineKind):
        parts = [
            paid_by(by_id.get(one.id), plan, kind, _spell(one, judgement.event), _day(one, judgement))
            for one in open_ones
        ]
        paid = best(parts, key=lambda part: part.maker / part.of, default=PaidPart())
        found[kind] = _rest_of_the_seller(paid, parts)
    return found


def _rest_of_the_seller(paid: PaidPart, parts: Iterable[PaidPart]) -> PaidPart:
    """What is paid of a kind, its rest the shop's where any of the windows binds it: the owner owes nothing then."""
    owed = next((part for part in parts if part.why and part.why.key == BY_SELLER), None)
    if owed is None or paid.maker == paid.of:
        return paid
    return paid._replace(rest=owed.rest) if paid.maker else owed


def share_told(plan: Plan, judgement: Judgement) -> Sentence | None:
    """The maker's share of every kind that is paid, on the day judged; None where all is paid, or nothing is covered.

    Source: common practice, no source.
    """
    if judgement.verdict != "covered":
        return None
    parts = paid_parts(plan, judgement)
    by_age = [part.why for part in parts.values() if part.why is None or part.why.key != "price.not-paid"]
    # one share for all kinds is said once
    if all(why == by_age[0] for why in by_age):
        return next(iter(by_age), None)
    if all(part.maker == part.of for part in parts.values()):
        return None
    return say("price.shares", **{kind: part.said() for kind, part in parts.items()})


def _spell(window: WindowJudgement, event: date | None) -> WindowSpell:
    stays, lacking = window.in_repair, window.in_repair.lacking
    moved = partial(stays.lengthened, event=event)
    at_most = partial(stays.lengthened, event=event, most=True)
    asked = (lacking.fact, lacking.key) if lacking else None
    return WindowSpell(window.title, window.starts, moved, at_most, asked, window.ends)


def _open_ones(plan: Plan, judgement: Judgement) -> list[WindowJudgement]:
    windows = judgement.windows
    tiers: Iterable[Callable[[WindowJudgement], bool]] = (
        lambda one: one.holds is True,
        lambda one: one.holds is None,
        lambda one: one.applies is not False,
    )
    # from the most certain down: what is undecided or closed is priced as if it held, so that an amount can be shown
    found = next((some for tier in tiers if (some := [one for one in windows if tier(one)])), list(windows))
    # A replaced part that lives on what was left of a window is paid as that window pays, which is open itself.
    return [one for one in found if not _lives_on_another(one, plan, judgement.event)] or found


def _lives_on_another(one: WindowJudgement, plan: Plan, event: date | None) -> bool:
    if any(window.id == one.id for window in plan.window) or plan.replaced is None or one.starts is None:
        return False
    own = plan.replaced.period
    return own is None or (event is not None and event > last_day(one.starts, own, plan.last_day, plan.month_end))


def _day(window: WindowJudgement, judgement: Judgement) -> date | None:
    """The day that shares go by: that judged on, and the last of cover where it is over."""
    # A window not known to be over may last longer than its last day as known: what it would pay, it pays on the day.
    if window.inside is False and judgement.event and window.ends:
        return min(judgement.event, window.ends)
    return judgement.event
