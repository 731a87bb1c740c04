"""A change to one claim of the book: what is kept of it, and what it is called in the history."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Change, Clock
    from claimpack.book.tables.rows import KeptFile
    from claimpack.core.claims.claim import Claim
    from claimpack.core.events.event_kinds import EventName
    from claimpack.core.events.events import NewEvent
    from claimpack.core.events.standing import Standing
    from claimpack.core.judging.claim_summary import ClaimSummary


def change_of(standing: Standing) -> EventName:
    """What a change to a claim is called: edited, or corrected once it was filed."""
    return "edited" if standing.state == "draft" else "corrected"


class Changing:
    """A change to one claim, the lists' facts kept in step with it."""

    def __init__(
        self,
        change: Change,
        day: dt.date,
        judged: Callable[..., ClaimSummary],
        must_be_ours: Callable[[str, str], None] = lambda *_: None,
    ) -> None:
        self._change, self._day, self._judged, self._must_be_ours = change, day, judged, must_be_ours
        self.entry = change.entry
        self.standing = change.entry.standing
        self.claim = change.entry.claim
        self.files = change.entry.files
        self.history = change.history
        self.verdict = change.entry.summary.verdict
        self.is_correction = False

    def stop_clock(self, clock: Clock) -> None:
        """Take a running clock away together with what is kept."""
        self._change.stop_clock(clock)

    def record(self, *new_events: NewEvent) -> None:
        """Keep what happened; the claim is as it was, and is not judged anew.

        Raises:
            WrongState: what happened does not follow from where the claim stands.
        """
        self._change.save(self.claim, self.entry.summary, *new_events)
        self.standing = self._change.standing

    def keep(
        self,
        claim: Claim,
        *new_events: NewEvent,
        files: Sequence[KeptFile] | None = None,
        why: str = "",
        facts: dict[str, str] | None = None,
    ) -> None:
        """Keep the claim as it now is, and what happened; with nothing told it was edited, or corrected once filed.

        Raises:
            WrongState: what happened does not follow from where the claim stands.
        """
        from claimpack.core.events.events import NewEvent

        standing = self.entry.standing
        if files is not None:
            # its own shop's vault is where its packet will look for them
            self._must_be_ours(claim.number, standing.shop)
        told = new_events or (NewEvent(what=change_of(standing), on=self._day, why=why, facts=facts or {}),)
        kept = self.entry.files if files is None else tuple(files)
        summary = self._judged(claim, kept, standing)
        self._change.save(claim, summary, *told, files=kept)
        self.claim, self.files, self.verdict = claim, kept, summary.verdict
        self.standing = self._change.standing
        self.is_correction = any(each.what == "corrected" for each in told)
