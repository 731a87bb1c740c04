"""The window of a part that was put in under warranty before."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from claimpack.core import applies
from claimpack.core.claim import Claim, EarlierRepair
from claimpack.core.limits import by_hours, within
from claimpack.core.periods import last_day
from claimpack.core.plan import Plan
from claimpack.core.reasons import Reason, fails, passes, settled, unknown
from claimpack.core.windows import WindowJudgement
from claimpack.core.words import is_among

WINDOW_ID = "replaced"
NAME = "replaced-part cover"


def judge_replaced(
    claim: Claim, plan: Plan, judged: Sequence[WindowJudgement], event: date | None
) -> WindowJudgement | None:
    """The window of a replaced part, or None where the plan has none or the part was not replaced before.

    It starts at the latest earlier repair of the component. It ends after its own period; if the plan keeps what
    remained, no sooner than the window the part was first put in under. The hour limit of that window goes along
    where the part lives on its remaining time alone.

    Source: 13 CCR 2405(c)(1) (the remaining time); a period of its own is the plan's.
    """
    earlier = _latest(claim, event)
    if plan.replaced is None or earlier is None:
        return None
    spell = _Spell(
        earlier=earlier, own_end=_own_end(plan, earlier), first=_put_in_under(plan, judged, earlier.repaired)
    )
    speaks = [passes("component", "replaced.from", component=earlier.component, repaired=earlier.repaired)]
    speaks += applies.exclusions(claim, plan, despite=False)
    opens = _opens(claim, plan, spell, event)
    return WindowJudgement(
        id=WINDOW_ID,
        name=NAME,
        cites=plan.replaced.cites,
        applies=settled(speaks),
        inside=settled(opens),
        starts=earlier.repaired,
        ends=spell.ends,
        hours_limit=spell.hours_limit,
        reasons=tuple(reason.model_copy(update={"window": WINDOW_ID}) for reason in (*speaks, *opens)),
    )


class _Spell(NamedTuple):
    """How long the replaced part is covered: its own period, and the window it was first put in under."""

    earlier: EarlierRepair
    own_end: date | None
    first: WindowJudgement | None

    @property
    def ends(self) -> date | None:
        remaining = self.first.ends if self.first else None
        return max((end for end in (self.own_end, remaining) if end), default=None)

    @property
    def hours_limit(self) -> Decimal | None:
        lives_on_the_rest = self.first and self.first.ends == self.ends and self.own_end != self.ends
        return self.first.hours_limit if self.first and lives_on_the_rest else None


def _own_end(plan: Plan, earlier: EarlierRepair) -> date | None:
    if plan.replaced is None or plan.replaced.period is None:
        return None
    return last_day(earlier.repaired, plan.replaced.period, plan.last_day, plan.month_end)


def _latest(claim: Claim, event: date | None) -> EarlierRepair | None:
    same = [
        earlier
        for earlier in claim.earlier
        if is_among(earlier.component, [claim.component()]) and (event is None or earlier.repaired <= event)
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


def _opens(claim: Claim, plan: Plan, spell: _Spell, event: date | None) -> list[Reason]:
    said: list[Reason] = []
    own = plan.replaced.period if plan.replaced else None
    if spell.own_end and own:
        said.append(passes("replaced", "replaced.own", length_period=own, ends=spell.own_end))
    if spell.first and spell.first.ends:
        said.append(passes("replaced", "replaced.remaining", window=spell.first.title, ends=spell.first.ends))
    if spell.ends is None:
        return [*said, fails("replaced", "replaced.nothing", repaired=spell.earlier.repaired)]
    if event is None:
        return [*said, unknown("age", "", "span.unknown")]
    hours = by_hours(claim.unit, spell.hours_limit)
    return [*said, within(event, spell.earlier.repaired, spell.ends), *([hours] if hours else [])]
