"""The window of a part that was put in under warranty before."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from claimpack.core import applies
from claimpack.core.claim import Claim, EarlierRepair
from claimpack.core.limits import within
from claimpack.core.periods import last_day
from claimpack.core.plan import Plan
from claimpack.core.reasons import Reason, fails, passes, settled, unknown
from claimpack.core.windows import WindowJudgement
from claimpack.core.words import is_said

WINDOW_ID = "replaced"
NAME = "replaced-part warranty"

_GO_ALONG = ("hours", "schedule", "registration")


def judge_replaced(
    claim: Claim, plan: Plan, judged: Sequence[WindowJudgement], event: date | None
) -> WindowJudgement | None:
    """The window of a replaced part, or None where the plan has none or the part was not replaced before.

    It starts at the latest earlier repair of the component. It ends after its own period; if the plan keeps what
    remained, no sooner than the window the part was first put in under. The conditions of that window (hours,
    renewal, registration) go along where the part lives on its remaining time, and not within its own period.

    Source: 13 CCR 2405(c)(1) (the remaining time); a period of its own is the plan's.
    """
    earlier = _latest(claim, event)
    if plan.replaced is None or earlier is None:
        return None
    spell = _spell(plan, judged, earlier, event)
    speaks = [passes("component", "replaced.from", component=earlier.component, repaired=earlier.repaired)]
    speaks += applies.exclusions(claim, plan, despite=False)
    opens = _opens(plan, spell, event)
    return WindowJudgement(
        id=WINDOW_ID,
        name=NAME,
        cites=plan.replaced.cites,
        applies=settled(speaks),
        inside=settled(opens),
        starts=earlier.repaired,
        ends=spell.ends,
        hours_limit=spell.hours_limit,
        reasons=tuple(reason._replace(window=WINDOW_ID) for reason in (*speaks, *opens)),
    )


class _Spell(NamedTuple):
    """How long the replaced part is covered: its own period, and what was left of the window it was put in under."""

    earlier: EarlierRepair
    own_end: date | None
    first: WindowJudgement | None
    unsettled: bool

    @property
    def ends(self) -> date | None:
        return self.first.ends if self.first else self.own_end

    @property
    def hours_limit(self) -> Decimal | None:
        return self.first.hours_limit if self.first else None


def _spell(plan: Plan, judged: Sequence[WindowJudgement], earlier: EarlierRepair, event: date | None) -> _Spell:
    """The part's own period, or the remaining time where that ends later and its conditions do not cut it short."""
    own_end = _own_end(plan, earlier)
    first = _put_in_under(plan, judged, earlier.repaired)
    if first and own_end:
        lasts_longer = first.ends is not None and first.ends > own_end
        within_own = event is not None and event <= own_end
        if not lasts_longer or (within_own and not settled(_conditions(first))):
            first = None
    keeps = plan.replaced is not None and plan.replaced.keeps_remaining
    unsettled = keeps and any(window.holds is None for window in judged)
    return _Spell(earlier, own_end, first, unsettled)


def _conditions(first: WindowJudgement) -> list[Reason]:
    return [reason for reason in first.reasons if reason.rule in _GO_ALONG]


def _own_end(plan: Plan, earlier: EarlierRepair) -> date | None:
    if plan.replaced is None or plan.replaced.period is None:
        return None
    return last_day(earlier.repaired, plan.replaced.period, plan.last_day, plan.month_end)


def _latest(claim: Claim, event: date | None) -> EarlierRepair | None:
    same = [
        earlier
        for earlier in claim.earlier
        if is_said(earlier.component, [claim.component()]) and (event is None or earlier.repaired <= event)
    ]
    return max(same, key=lambda earlier: earlier.repaired, default=None)


def _put_in_under(plan: Plan, judged: Sequence[WindowJudgement], repaired: date) -> WindowJudgement | None:
    if plan.replaced is None or not plan.replaced.keeps_remaining:
        return None
    open_then = [
        window
        for window in judged
        if window.applies and window.starts and window.ends and window.starts <= repaired <= window.ends
    ]
    return max(open_then, key=lambda window: window.ends or date.min, default=None)


def _opens(plan: Plan, spell: _Spell, event: date | None) -> list[Reason]:
    said: list[Reason] = []
    own, repaired = plan.replaced.period if plan.replaced else None, spell.earlier.repaired
    if spell.own_end and own:
        said.append(passes("replaced", "replaced.own", length_period=own, ends=spell.own_end))
    if spell.first and spell.first.ends:
        said.append(passes("replaced", "replaced.remaining", window=spell.first.title, ends=spell.first.ends))
        said += _conditions(spell.first)
    if spell.ends is None and spell.unsettled:
        return [*said, unknown("replaced", "", "replaced.unknown", repaired=repaired)]
    if spell.ends is None:
        return [*said, fails("replaced", "replaced.nothing", repaired=repaired)]
    if event is None:
        return [*said, unknown("age", "", "span.unknown")]
    return [*said, within(event, repaired, spell.ends)]
