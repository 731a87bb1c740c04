"""What differs between two states of a record, key by key, in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from decimal import Decimal
from itertools import pairwise, takewhile, zip_longest
from typing import Any, NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.facts.keys import in_a_row, keys_of
from claimpack.core.facts.record import Record
from claimpack.core.facts.unit import Serial
from claimpack.core.values.money import plain


class Difference(NamedTuple):
    """A key and what stood under it before and after; an empty text stands for nothing."""

    key: str
    before: str
    after: str


_CONTEXT = 16


def differences(before: Any, after: Any, key: str = "") -> Iterator[Difference]:
    """Every key whose value differs, in the order of the record; items added to a list or taken from it are one each.

    A serial number is told by its role, as a user names it; other items by their place, one that was taken away by the
    place it had.

    Args:
        before: a record, or a part of one.
        after: the same record later.
        key: the key they stand under.
    """
    if before == after:
        return
    if isinstance(before, Record) and isinstance(after, Record):
        for said, name in keys_of(type(after)).items():
            yield from differences(getattr(before, name), getattr(after, name), f"{key}.{said}" if key else said)
    elif isinstance(before, tuple) and isinstance(after, tuple) and _are_told_by_role(before, after):
        yield from _by_role(before, after, key)
    elif isinstance(before, tuple) and isinstance(after, tuple):
        yield from _by_place(before, after, key)
    else:
        yield Difference(in_a_row(key), in_words(before), in_words(after))


def _by_place(before: tuple[Any, ...], after: tuple[Any, ...], key: str) -> Iterator[Difference]:
    """What differs between the items that are alike at the beginning of both lists and those alike at the end."""
    shorter = min(len(before), len(after))
    first = _alike(before, after)
    # what is alike at both ends is left out, so that an item put in the middle is one difference, not as many as follow
    # it
    last = min(_alike(before[::-1], after[::-1]), shorter - first)
    old_items, new_items = (items[first : len(items) - last] for items in (before, after))
    for number, (old, new) in enumerate(zip_longest(old_items, new_items), start=first + 1):
        yield from differences(old, new, f"{key}[{number}]")


def _alike(one: Sequence[Any], other: Sequence[Any]) -> int:
    """How many items are the same at the beginning of both."""
    return sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(one, other, strict=False)))


def by_revision(versions: Iterable[tuple[int, Claim | None]]) -> dict[int, tuple[Difference, ...]]:
    """What each revision of a claim changed, given the claim at revisions that follow each other; None is not read."""
    return {
        revision: tuple(differences(before, after))
        for (_, before), (revision, after) in pairwise(versions)
        if before is not None and after is not None
    }


def shortened(difference: Difference, longest: int) -> Difference:
    """A difference with values of so many letters at most, in one line; of long ones, what is alike goes first."""
    before, after = (" ".join(value.split()) for value in difference[1:])
    if max(len(before), len(after)) > longest and before and after:
        # both are cut where they begin to differ, a few words before it
        cut = before.rfind(" ", 0, max(_alike(before, after) - _CONTEXT, 0)) + 1
        before, after = (f"…{value[cut:]}" if cut else value for value in (before, after))
    before, after = (
        value if len(value) <= longest else f"{value[: longest - 1].rstrip()}…" for value in (before, after)
    )
    return Difference(difference.key, before, after)


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
    if isinstance(value, Record):
        given = (getattr(value, name) for name in type(value).declared if name in value.model_fields_set)
        return ", ".join(word for word in map(in_words, given) if word)
    if isinstance(value, tuple):
        return "; ".join(map(in_words, value))
    return str(value)
