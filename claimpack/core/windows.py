"""One window, judged."""

from __future__ import annotations

from datetime import date

from claimpack.core.claim import Record
from claimpack.core.money import Number
from claimpack.core.reasons import Reason


class WindowJudgement(Record):
    """One window, judged: does it apply, is it open, from when to when, with every reason; None is not known yet."""

    id: str
    name: str = ""
    cites: str = ""
    applies: bool | None
    inside: bool | None
    starts: date | None
    ends: date | None
    hours_limit: Number | None = None
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
