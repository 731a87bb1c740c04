"""Keys of a record put, taken away and read by their paths, each value checked as the record checks it."""

from __future__ import annotations

from typing import Any

from claimpack.core.claims.editing.key_paths import OF_A_ROLE, ROLE, Changes, ItemRole, KeyPath, as_it_lies, written
from claimpack.core.facts.keys import AnyRecord, keys_of, record_from
from claimpack.core.facts.pictures import IN_SHORT
from claimpack.core.facts.record import Record
from claimpack.core.values.numbers_said import how_many
from claimpack.core.values.words import did_you_mean, folded
from claimpack.errors import BadInput


def placed(record: Record, changes: Changes) -> Changes:
    """The changes with every item that is named by its role named by its number; a value for a new role adds an item.

    Keys taken away come with the last item of a list first, so that the numbers of the others stay true.

    Raises:
        BadInput: several items have the role, or one to be taken away has it not.
    """
    keys = record.model_dump(mode="json")
    given: list[tuple[KeyPath, str | None]] = []
    for path, value in changes:
        for plain in _numbered(keys, path, value):
            given.append(plain)
            if plain[1] is not None:
                put(keys, as_it_lies(keys, plain[0]), plain[1])
    taken = [change for change in given if change[1] is None]
    return [change for change in given if change[1] is not None] + sorted(
        taken, key=lambda change: change[0].steps, reverse=True
    )


def _numbered(keys: Any, path: KeyPath, value: str | None) -> Changes:
    place = next((place for place, step in enumerate(path.steps) if isinstance(step, ItemRole)), None)
    if place is None:
        return [(path, value)]
    above, role, rest = path.steps[:place], str(path.steps[place]), path.steps[place + 1 :]
    items, listed = _items(keys, above), written(above)
    number = _with_role(items, role, listed)
    if value is None:
        if number is None:
            roles = [str(item.get(ROLE, "")) for item in items]
            raise BadInput(f"{listed} has no item of the role {role!r}", do=did_you_mean(role, roles))
        return [(KeyPath((*above, number, *rest), path.is_value), None)]
    inside = rest or (OF_A_ROLE,)
    if number is not None:
        return [(KeyPath((*above, number, *inside), path.is_value), value)]
    new = len(items) + 1
    return [
        (KeyPath((*above, new, ROLE), is_value=True), role),
        (KeyPath((*above, new, *inside), path.is_value), value),
    ]


def _items(keys: Any, above: tuple[str | int, ...]) -> Any:
    for step in above:
        keys = keys.get(step) or {}
    return keys or []


def _with_role(items: Any, role: str, listed: str) -> int | None:
    """The number of the item with a role; None where none has it."""
    found = [number for number, item in enumerate(items, start=1) if folded(item.get(ROLE, "")) == folded(role)]
    if len(found) > 1:
        raise BadInput(
            f"{listed} has {len(found)} items of the role {role!r}",
            "Which of them is meant cannot be told.",
            f"Name it by number: {listed}[{found[0]}].{OF_A_ROLE}, or {listed}[{found[1]}].{OF_A_ROLE}",
        )
    return found[0] if found else None


def with_values(record: AnyRecord, changes: Changes, source: str) -> AnyRecord:
    """A record with some values changed, as texts a user wrote; None takes the key away.

    Raises:
        BadInput: a place or a value has no meaning, or the whole makes none.
    """
    keys = record.model_dump(mode="json", exclude_unset=True)
    for named, value in changes:
        path = as_it_lies(keys, named)
        if value is None:
            take(keys, path)
        else:
            put(keys, path, value)
    return record_from(type(record), keys, source)


def value_under(record: Any, path: KeyPath) -> Any:
    """What a record says under a key; None where a table above it is absent."""
    for step in path.steps:
        if record is None:
            return None
        record = record[step - 1] if isinstance(step, int) else getattr(record, keys_of(type(record))[step])
    return record


def put(keys: Any, path: KeyPath, value: Any) -> None:
    """Write a value under a key, making the tables above it; the place after a list's last item adds one.

    Raises:
        BadInput: the key holds keys of its own, or the list ends before that place.
    """
    if not path.is_value:
        raise BadInput(
            f"key {path} holds more than one value", "A value is set key by key.", "Name one of the keys in it."
        )
    *above, last = path.steps
    place = keys
    for count, step in enumerate(above):
        fresh: Any = [] if isinstance(path.steps[count + 1], int) else {}
        place = _made(place, step, fresh, written(path.steps[: count + 1]))
    if isinstance(last, int) and last <= len(place):
        place[last - 1] = value
    elif isinstance(last, int):
        _append(place, last, value, str(path))
    else:
        place[last] = value


def _made(place: Any, step: str | int, fresh: Any, said: str) -> Any:
    """What stands under one step, made where it is absent."""
    if isinstance(step, int):
        if step > len(place):
            _append(place, step, fresh, said)
        elif isinstance(place[step - 1], str) and isinstance(fresh, dict):
            place[step - 1] = {IN_SHORT: place[step - 1]}
        return place[step - 1]
    if place.get(step) is None:
        place[step] = fresh
    return place[step]


def _append(items: Any, number: int, value: Any, said: str) -> None:
    if number > len(items) + 1:
        raise BadInput(
            f"{said}: the list has {how_many(len(items), 'item')}",
            do=f"The next one is number {len(items) + 1}.",
        )
    items.append(value)


def take(keys: Any, path: KeyPath) -> None:
    """Remove a key, or an item of a list; one that is not there stays so.

    Raises:
        BadInput: the list ends before that item.
    """
    *above, last = path.steps
    place = keys
    for step in above:
        place = _there(place, step, path)
        if place is None:
            return
    if isinstance(last, int):
        if _there(place, last, path) is not None:
            del place[last - 1]
    else:
        place.pop(last, None)


def _there(place: Any, step: str | int, path: KeyPath) -> Any:
    if isinstance(step, str):
        return place.get(step)
    if step > len(place):
        raise BadInput(f"{path}: the list has no item {step}", do=f"Its last item is number {len(place)}.")
    return place[step - 1]
