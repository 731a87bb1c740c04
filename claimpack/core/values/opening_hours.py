"""When a shop is open, as its settings write it: a span of hours for each weekday."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import time

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def opening(said: Mapping[str, str]) -> dict[int, tuple[time, time]]:
    """Opening hours by weekday, Monday 0, of texts as in `08:00-17:30`.

    Raises:
        ValueError: a weekday or a time is none, or a day ends before it begins.
    """
    found = {}
    for day, span in said.items():
        if day not in WEEKDAYS:
            raise ValueError(f"opening_hours.{day} is no weekday; write {', '.join(WEEKDAYS)}")
        begins, _, ends = span.partition("-")
        try:
            opens, shuts = time.fromisoformat(begins.strip()), time.fromisoformat(ends.strip())
        except ValueError as error:
            raise ValueError(f"opening_hours.{day} is {span!r}; write it as in 08:00-17:30") from error
        if shuts <= opens:
            raise ValueError(f"opening_hours.{day} ends at {shuts:%H:%M}, before it begins at {opens:%H:%M}")
        found[WEEKDAYS.index(day)] = (opens, shuts)
    return found
