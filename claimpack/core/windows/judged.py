"""One window, judged."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.clauses.window import Limit
from claimpack.core.windows.in_repair import NONE, InRepair, Lacking
from claimpack.core.windows.reasons import Reason
from claimpack.core.windows.unmended import KEPT_OPEN


class WindowJudgement(NamedTuple):
    """One window, judged: does it apply, is it open, from when to when, with every reason; None is not known yet.

    `limits` are those of other meters than the hour meter. A window that stays open until the last of its period and
    limits has no last day while a meter counts; `at_least` is then the day its period ends. The days in repair lengthen
    it. `rests_on` is what is not given and may make `ends` a later day.
    """

    id: str
    applies: bool | None
    inside: bool | None
    starts: date | None
    ends: date | None
    name: str = ""
    cites: str = ""
    hours_limit: Decimal | None = None
    reasons: tuple[Reason, ...] = ()
    limits: tuple[Limit, ...] = ()
    at_least: date | None = None
    in_repair: InRepair = NONE
    rests_on: Lacking | None = None

    @property
    def holds(self) -> bool | None:
        """Whether the claim is covered under this window; None while a fact that would decide it is missing."""
        if self.applies is False or self.inside is False:
            return False
        return True if self.applies and self.inside else None

    @property
    def is_past_its_last_day(self) -> bool:
        """Whether it is open only for what a repair did not mend: it then has no last day until that is mended."""
        return any(reason.says.key in KEPT_OPEN for reason in self.reasons)

    @property
    def title(self) -> str:
        """The window's name for people, else its id."""
        return self.name or self.id


def facts_that_decide(windows: Sequence[WindowJudgement], common: Iterable[Reason]) -> tuple[str, ...]:
    """The facts, as keys of the claim, that would settle an open verdict; each once, in the order they are met.

    A closed window asks for nothing: no fact would open it. A window that waits says itself whether it waits for the
    start or the day judged on; of what is told once for all, the plan alone is asked for.

    Args:
        windows: every window judged.
        common: the reasons told once for all of them: plan, start, event.
    """
    reasons = [*common, *(reason for window in windows if window.holds is None for reason in window.reasons)]
    asking = [reason for reason in reasons if reason.outcome == "unknown" and reason.rule not in ("start", "event")]
    return tuple(dict.fromkeys(reason.asks for reason in asking if reason.asks))
