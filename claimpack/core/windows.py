"""One window, judged."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.reasons import Reason


class WindowJudgement(NamedTuple):
    """One window, judged: does it apply, is it open, from when to when, with every reason; None is not known yet."""

    id: str
    applies: bool | None
    inside: bool | None
    starts: date | None
    ends: date | None
    name: str = ""
    cites: str = ""
    hours_limit: Decimal | None = None
    reasons: tuple[Reason, ...] = ()

    @property
    def holds(self) -> bool | None:
        """Whether the claim is covered under this window; None while a fact that would decide it is missing."""
        if self.applies is False or self.inside is False:
            return False
        return True if self.applies and self.inside else None

    @property
    def title(self) -> str:
        """The window's name for people, else its id."""
        return self.name or self.id


def facts_that_decide(windows: Sequence[WindowJudgement], common: Iterable[Reason]) -> tuple[str, ...]:
    """The facts, as keys of the claim, that would settle an open verdict; each once, in the order they are met.

    A closed window asks for nothing: no fact would open it. The plan's start is asked for only where an open question
    hangs on it.

    Args:
        windows: every window judged.
        common: the reasons told once for all of them: plan, start, event.
    """
    waiting = [window for window in windows if window.holds is None]
    share_start = any(
        window.starts is None and not any(reason.rule == "start" for reason in window.reasons) for window in waiting
    )
    reasons = [reason for reason in common if reason.rule != "start" or share_start]
    reasons += [reason for window in waiting for reason in window.reasons]
    return tuple(dict.fromkeys(reason.asks for reason in reasons if reason.outcome == "unknown" and reason.asks))
