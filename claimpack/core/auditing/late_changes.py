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
    """The revision of a claim before those days, else its first, and the changes after it, each with its day."""

    before: int
    changes: tuple[tuple[date, int], ...]


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
            return _compared(changed, event.on - timedelta(days=days))
    return None


def _compared(changed: list[tuple[date, int]], since: date) -> LateChange | None:
    # a day may be told later than others: what came before the first late change counts, whatever follows it
    late = next((place for place, (day, _) in enumerate(changed) if day >= since), None)
    # a claim opened in those very days is compared with how it was opened
    first = max((late or 0) - 1, 0)
    return (
        None
        if late is None or first + 1 >= len(changed)
        else LateChange(changed[first][1], tuple(changed[first + 1 :]))
    )


def replaced(before: Claim, filed: Claim) -> dict[str, tuple[str, str]]:
    """What stood in a claim and stands otherwise in a later revision, by key: before and after."""
    return {each.key: (each.before, each.after) for each in differences(before, filed) if each.before}


def late_edits(before: Claim, changes: Iterable[tuple[date, Claim]]) -> Iterator[Edit]:
    """What stood in a claim and was replaced by changes that follow each other, each with the day of its last one."""
    first, days = before, dict[str, date]()
    for on, after in changes:
        days |= dict.fromkeys((each.key for each in differences(before, after)), on)
        before = after
    for key, (was, now) in replaced(first, before).items():
        yield Edit(days[key], key, was, now)
