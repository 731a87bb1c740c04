"""Labour entries as they are told: which one, who worked when and how long, and what is claimed of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from claimpack.commands.say import Say
    from claimpack.core.claim import Labour
    from claimpack.core.labour import LabourTime

_DAY = len("2026-03-14")


def tell_entries(say: Say, entries: Sequence[Labour], times: Sequence[LabourTime]) -> None:
    """The entries in columns; where there is little room the schedule, who worked and what is claimed give way."""
    from claimpack.commands.columns import Column, tell_columns

    when = [_when(say, entry) for entry in entries]
    columns = [
        Column("", [str(place) for place in range(1, len(entries) + 1)], right=True),
        Column("operation", [entry.operation for entry in entries], most=say.world.width() // 3 - 2),
        Column("who", [entry.technician for entry in entries], lesser=3, most=12),
        Column("day", [day for day, _ in when]),
        Column("from-to", [span for _, span in when]),
        Column("clocked", [worked_in_words(entry) for entry in entries], right=True),
        Column("schedule", _hours(times, len(entries), "schedule"), right=True, lesser=4),
        Column("claimed", _hours(times, len(entries), "claimed"), right=True, lesser=2),
        Column("pays", ["" if entry.payer == "maker" else entry.payer for entry in entries], lesser=1),
    ]
    tell_columns(say, columns, indent=0)


def _when(say: Say, entry: Labour) -> tuple[str, str]:
    """The day work began, and from when to when as the shop's clocks show it; empty where it is not known."""
    from claimpack.core.clock import shop_time

    if entry.started is None or entry.ended is None:
        return "", ""
    first, last = (shop_time(at, say.world.shown) for at in (entry.started, entry.ended))
    is_one_night = (entry.ended.date() - entry.started.date()).days <= 1
    return first[:_DAY], f"{first[_DAY + 1 :]}-{last[_DAY + 1 :] if is_one_night else last}"


def _hours(times: Sequence[LabourTime], count: int, of: str) -> list[str]:
    from claimpack.core.money import plain

    hours = [getattr(time, of) for time in times] or [None] * count
    return ["-" if each is None else plain(each) for each in hours]


def worked_in_words(entry: Labour) -> str:
    """How long somebody worked: `1.6 h` as stated, `1 h 15 min` by the clock."""
    from claimpack.core.clock import time_between, time_in_words
    from claimpack.core.money import plain

    if entry.hours is not None:
        return f"{plain(entry.hours)} h"
    if entry.started is None or entry.ended is None:
        return "no time"
    return time_in_words(time_between(entry.started, entry.ended))


def span_of_other_days(say: Say, entry: Labour) -> str:
    """From when to when, where that is not all of today; else empty."""
    from claimpack.core.clock import span_in_words

    if entry.started is None or entry.ended is None:
        return ""
    is_today = entry.started.date() == entry.ended.date() == say.world.today()
    return "" if is_today else span_in_words(entry.started, entry.ended, say.world.shown)


def entry_json(place: int, entry: Labour, times: Sequence[LabourTime]) -> dict[str, Any]:
    """An entry as scripts read it, its place counted from 1."""
    from claimpack.core.money import plain, plain_or_none

    told = {"n": place, **entry.model_dump(mode="json")}
    if not times:
        return told
    time = times[place - 1]
    return told | {
        "claimed": plain(time.claimed),
        "schedule": plain_or_none(time.schedule),
        "clocked": plain_or_none(time.clocked),
    }
