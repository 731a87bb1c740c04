"""What is said of a book itself: the head of its history, and its last backup."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from claimpack.core.values.numbers_said import how_many

_OLD_DAYS = 7


class Backup(NamedTuple):
    """A backup that was made and read back: when, by whom, where to, and how many events the book had."""

    at: dt.datetime
    who: str
    place: str
    length: int


def backup_age(last: Backup | None, today: dt.date) -> str:
    """How old the last backup is."""
    if last is None:
        return "none known"
    days = max((today - last.at.date()).days, 0)
    ago = f"{how_many(days, 'day')} ago" if days else "today"
    return f"{last.at:%Y-%m-%d %H:%M}, {ago}"


def head_told(length: int, head: str) -> str:
    """The head of the history, to be noted elsewhere: nothing before it can be changed without another head."""
    events = how_many(length, "event")
    return f"Head of the history ({events}): {head}. To prove it later: claimpack shop verify --head HASH"


def backup_remark(last: Backup | None, length: int, today: dt.date) -> str:
    """A remark where the last backup is old and the book was changed since; empty where there is nothing to say.

    Args:
        last: the last backup, if one was made.
        length: how many events the book has now.
        today: the day it is.

    Source: common practice, no source.
    """
    do = "Make one: claimpack shop backup FILE"
    if last is None:
        return f"No backup of this shop is known. {do}" if length else ""
    days, since = (today - last.at.date()).days, length - last.length
    # a book nobody wrote to since needs no newer backup, however old
    if days <= _OLD_DAYS or since <= 0:
        return ""
    changes = f"{how_many(since, 'change')} to claims since"
    return f"The last backup is {days} days old, with {changes}. {do}"
