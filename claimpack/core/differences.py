"""What differs between two states of a record, key by key, in words."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from itertools import zip_longest
from typing import Any, NamedTuple

from pydantic import BaseModel

from claimpack.core.claim import Serial
from claimpack.core.money import plain


class Difference(NamedTuple):
    """A key and what stood under it before and after; an empty text stands for nothing."""

    key: str
    before: str
    after: str


def differences(before: Any, after: Any, key: str = "") -> Iterator[Difference]:
    """Every key whose value differs, in the order of the record; items added to a list or taken from it are one each.

    A serial number is told by its role, as a user names it.

    Args:
        before: a record, or a part of one.
        after: the same record later.
        key: the key they stand under.
    """
    if before == after:
        return
    if isinstance(before, BaseModel) and isinstance(after, BaseModel):
        for name in type(after).model_fields:
            yield from differences(getattr(before, name), getattr(after, name), f"{key}.{name}" if key else name)
    elif isinstance(before, tuple) and isinstance(after, tuple) and _are_told_by_role(before, after):
        yield from _by_role(before, after, key)
    elif isinstance(before, tuple) and isinstance(after, tuple):
        for number, (old, new) in enumerate(zip_longest(before, after), start=1):
            yield from differences(old, new, f"{key}[{number}]")
    else:
        yield Difference(key, in_words(before), in_words(after))


def _are_told_by_role(before: tuple[Any, ...], after: tuple[Any, ...]) -> bool:
    """Whether both lists are of serial numbers, each role once, and those in both stand in one order."""
    old, new = ([item.role for item in items if isinstance(item, Serial)] for items in (before, after))
    if not (before + after) or (len(old), len(new)) != (len(before), len(after)):
        return False
    is_plain = len(set(old)) == len(old) and len(set(new)) == len(new)
    return is_plain and [role for role in old if role in new] == [role for role in new if role in old]


def _by_role(before: tuple[Serial, ...], after: tuple[Serial, ...], key: str) -> Iterator[Difference]:
    old, new = ({serial.role: serial.value for serial in serials} for serials in (before, after))
    for role in dict.fromkeys((*old, *new)):
        if old.get(role) != new.get(role):
            yield Difference(f"{key}.{role.replace(' ', '-')}", old.get(role, ""), new.get(role, ""))


def in_words(value: Any) -> str:
    """A value of a record as a person writes it; a whole item by the values it was given."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Decimal):
        return plain(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, BaseModel):
        given = (getattr(value, name) for name in type(value).model_fields if name in value.model_fields_set)
        return ", ".join(word for word in map(in_words, given) if word)
    if isinstance(value, tuple):
        return "; ".join(map(in_words, value))
    return str(value)
