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


def late_change(events: Iterable[Event], days: int) -> LateChange | None:
    """Which revisions of a claim to compare, from its events in their order; None where there is nothing to.

    Args:
        events: what happened to the claim.
        days: how many days before its first filing are the last ones.
    """
    changed: list[tuple[date, int]] = []
    for event in events:
        if event.what in ("opened", "imported", "edited"):
            changed.append((event.on, event.revision))
        # the first filing alone: what is changed after a refusal was asked for by the maker
        elif event.what == "filed":
            return _compared(changed, event.on - timedelta(days=days)) if changed else None
    return None


def _compared(changed: list[tuple[date, int]], since: date) -> LateChange | None:
    early = [revision for day, revision in changed if day < since]
    # a claim opened in those very days is compared with how it was opened
    first, (last_on, last) = early[-1] if early else changed[0][1], changed[-1]
    return LateChange(first, last, last_on) if first < last and last_on >= since else None


def late_edits(before: Claim, filed: Claim, on: date) -> Iterator[Edit]:
    """Every key that differs between two revisions of a claim, as edits of a day."""
    for each in differences(before, filed):
        yield Edit(on, each.key, each.before, each.after)
