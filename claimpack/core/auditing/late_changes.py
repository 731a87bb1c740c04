"""What decides cover and was changed in the last days before a claim was filed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from typing import NamedTuple

from claimpack.core.auditing.audited import Edit
from claimpack.core.claims.claim import Claim
from claimpack.core.claims.editing.changes import differences
from claimpack.core.events.events import Event


class LateChange(NamedTuple):
    """The revisions of a claim to compare: the last before those days, else the first, and the one filed."""

    before: int
    filed: int
    on: date


class LateChanges:
    """Which claims were changed in the last days before they were first filed, from events in their order.

    Only drafts that are changed are remembered, and of a claim that was filed two numbers.
    """

    def __init__(self, days: int) -> None:
        self._days = timedelta(days=days)
        self._drafts: dict[str, list[tuple[date, int]]] = {}
        self._late: dict[str, LateChange] = {}

    def add(self, event: Event) -> None:
        """Take in one event."""
        claim = event.claim
        if event.what in ("opened", "imported", "edited"):
            self._drafts.setdefault(claim, []).append((event.on, event.revision))
        elif event.what == "filed" and claim in self._drafts:
            self._file(claim, event.on, self._drafts.pop(claim))

    def _file(self, claim: str, on: date, changed: list[tuple[date, int]]) -> None:
        early = [revision for day, revision in changed if day < on - self._days]
        first, (last_on, last) = early[-1] if early else changed[0][1], changed[-1]
        if first < last and last_on >= on - self._days:
            self._late[claim] = LateChange(first, last, last_on)

    def of(self, claim: str) -> LateChange | None:
        """The revisions of a claim to compare; None where it was not changed in those days."""
        return self._late.get(claim)


def late_edits(before: Claim, filed: Claim, on: date) -> Iterator[Edit]:
    """Every key that differs between two revisions of a claim, as edits of a day."""
    for each in differences(before, filed):
        yield Edit(on, each.key, each.before, each.after)


def events_into(changes: LateChanges, events: Iterable[Event]) -> Iterator[Event]:
    """Events as they pass, each taken in."""
    for event in events:
        changes.add(event)
        yield event
