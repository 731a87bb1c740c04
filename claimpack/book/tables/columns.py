"""The fields of a listed record as columns: how each is kept, written and read, by what kind of value it is."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from decimal import Decimal
from functools import lru_cache
from typing import Any, get_type_hints

from claimpack.core.values.money import plain

Convert = Callable[[Any], Any]


def iso(day: dt.date | None) -> str | None:
    """A day as a column keeps it."""
    return day.isoformat() if day else None


# a list has the same few days and amounts over and over
@lru_cache(maxsize=10_000)
def day_of(text: str | None) -> dt.date | None:
    """A day from a column."""
    return dt.date.fromisoformat(text) if text else None


def _amount_or_nothing(amount: Decimal) -> str | None:
    return plain(amount) if amount else None


def _yes_or_nothing(answer: bool) -> str | None:
    return "yes" if answer else None


def _text_or_nothing(text: str) -> str | None:
    return text or None


def kinds_of(record: type) -> dict[str, Any]:
    """The kind of value of each field, in the order of the fields."""
    hints = get_type_hints(record)
    return {name: hints[name] for name in record._fields}  # type: ignore[attr-defined]


def writers(record: type, never_empty: frozenset[str]) -> tuple[tuple[int, Convert], ...]:
    """How fields are written by their place among the columns; those that are kept as they are left out.

    One that may be empty is left so where it has nothing to say.
    """
    # amounts as text: a float would not hold them exactly
    always: Mapping[Any, Convert] = {Decimal: plain, bool: int}
    # nothing is kept as nothing, so that an index of what is filled stays small
    sometimes: Mapping[Any, Convert] = {Decimal: _amount_or_nothing, bool: _yes_or_nothing, str: _text_or_nothing}
    found = (
        (place, iso if _is_day(kind) else (always if name in never_empty else sometimes).get(kind))
        for place, (name, kind) in enumerate(kinds_of(record).items())
    )
    return tuple((place, convert) for place, convert in found if convert)


def readers(record: type, never_empty: frozenset[str]) -> tuple[tuple[int, Convert], ...]:
    """How fields are read by their place among the columns; those that are kept as they are left out."""
    always: Mapping[Any, Convert] = {Decimal: _amount, bool: bool}
    found = (
        (place, day_of if _is_day(kind) else (always if name in never_empty else {**always, str: _text}).get(kind))
        for place, (name, kind) in enumerate(kinds_of(record).items())
    )
    return tuple((place, convert) for place, convert in found if convert)


def _text(text: str | None) -> str:
    return text or ""


@lru_cache(maxsize=10_000)
def _amount(text: str | None) -> Decimal:
    return Decimal(text or 0)


def _is_day(kind: Any) -> bool:
    # compared by value: every `date | None` is an object of its own
    return kind is dt.date or kind == dt.date | None
