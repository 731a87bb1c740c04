"""Why the book refuses: a claim that is not there, and a change made from an old look at a claim."""

from __future__ import annotations

import datetime as dt
import json
import re
import shlex
from collections.abc import Iterator
from typing import Any

from claimpack.book.database.connections import Connection
from claimpack.book.database.sql import Sql, begins, condition, ends
from claimpack.book.tables import rows
from claimpack.book.tables.schema import EVERY_EVENT
from claimpack.core.values.words import nearest
from claimpack.errors import AlreadyChanged, BadInput, NotFound, WrongState

# to suggest one number it is no use to read a hundred thousand
_ENOUGH = 200


def no_such_claim(connection: Connection, number: str, shop: str = "") -> NotFound:
    """The refusal of a claim number that is not in the book; the nearest one is suggested, the shop's own first."""
    near = _of_that_count(connection, number, shop) or nearest(number, _alike(connection, number))
    hint = f"Did you mean {near}?" if near else "See: claimpack list"
    return NotFound(f"claim {number} is not in the book, and there is no such folder", do=hint)


def _of_that_count(connection: Connection, number: str, shop: str) -> str | None:
    """The latest claim of the count that was typed alone, as in 41 for 26-0041."""
    if not number.isdigit():
        return None
    numbers = Sql("SELECT number FROM claims").where(ends("number", number))
    own_first = numbers.then("ORDER BY coalesce(shop, '') = ? DESC, number DESC LIMIT ?", shop, _ENOUGH)
    found = connection.column(own_first)
    # 41 ends 26-0141 as well, so the count is compared whole
    return next((each for each in found if re.split(r"\D", each)[-1].lstrip("0") == number.lstrip("0")), None)


def _alike(connection: Connection, number: str) -> Iterator[str]:
    """Numbers that begin or end as a mistyped one does."""
    numbers = Sql("SELECT number FROM claims")
    # the longest beginning first, since typing goes wrong at the end more often
    for kept in (len(number) - 1, len(number) - 2, 4, 2):
        if kept > 0:
            alike = numbers.where(begins("number", number[:kept], in_any_case=True))
            yield from connection.column(alike.then("ORDER BY number LIMIT ?", _ENOUGH))
    alike = numbers.where(ends("number", number[-4:]))
    yield from connection.column(alike.then("ORDER BY number DESC LIMIT ?", _ENOUGH))


def emptied(place: str) -> BadInput:
    """The refusal of a book's file with nothing in it: a new book in its place would hide what is lost."""
    return BadInput(
        f"the book {place} is empty: it has no table",
        "A book has its tables from the start; a damaged disk, a copy that broke off or another program emptied it.",
        "Put the shop back from its backup: claimpack shop restore FILE DIR",
    )


def stale(connection: Connection, number: str, revision: int) -> AlreadyChanged:
    """The refusal of a change made from an old revision; says who did what, when, and which keys differ."""
    query = EVERY_EVENT.where(condition("claim = ? AND revision > ?", number, revision)).then("ORDER BY position")
    since = [rows.event_of(row) for row in connection.execute(query)]
    told = "; ".join(f"{event.who}, {event.at:%Y-%m-%d %H:%M}: {event.what}" for event in since)
    keys = ", ".join(_keys_changed(connection, number, revision))
    return AlreadyChanged(
        f"claim {number} was changed by somebody else meanwhile",
        f"{told or 'It stands at another revision'}{f' (changed: {keys})' if keys else ''}.",
        "Look at it again and repeat your change.",
    )


def of_another_shop(number: str, shop: str, do: str = "", why: str = "") -> WrongState:
    """The refusal to change or print a claim that is not of the shop that would, and what to do instead."""
    if not shop:
        return WrongState(
            f"claim {number} is of no shop of this book yet",
            "It came in before the book held several shops, and nobody said whose it is.",
            "If it is this shop's, as all without a shop are: claimpack shop take",
        )
    return WrongState(
        f"claim {number} is the shop {shop}'s",
        why or "It is judged, priced and printed by the settings of its own shop.",
        do or f"Do it in the folder of {shop}: --shop DIR; statements, answers and payments also with --all-shops.",
    )


def clock_runs(technician: str, number: str, operation: str, started: str) -> BadInput:
    """The refusal of a second running clock."""
    since = f"{dt.datetime.fromisoformat(started):%Y-%m-%d %H:%M}"
    return BadInput(
        f"{technician}'s clock is already running, since {since}: {operation} on claim {number}",
        "A technician works on one thing at a time.",
        f"Stop it first: claimpack labour stop --technician {shlex.quote(technician)}",
    )


def clock_changed(technician: str) -> AlreadyChanged:
    """The refusal to count a clock's time that is no longer running, or was started anew."""
    return AlreadyChanged(
        f"{technician}'s clock was stopped or started anew by somebody else meanwhile",
        "Its time counts once; nothing was added to the claim.",
        "See what runs: claimpack labour running",
    )


def _keys_changed(connection: Connection, number: str, revision: int) -> list[str]:
    # from the revision that was looked at, so that the first document is the one the user saw
    query = "SELECT document FROM revisions WHERE claim = ? AND revision >= ? ORDER BY revision"
    documents = [json.loads(text) for text in connection.column(query, number, revision)]
    return sorted(_differing(documents[0], documents[-1])) if documents else []


def _differing(before: dict[str, Any], after: dict[str, Any], above: str = "") -> Iterator[str]:
    """The keys that differ, as in owner.phone."""
    for key in before.keys() | after.keys():
        old, new = before.get(key), after.get(key)
        if isinstance(old, dict) and isinstance(new, dict):
            yield from _differing(old, new, f"{above}{key}.")
        elif old != new:
            yield f"{above}{key}"
