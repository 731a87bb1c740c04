"""Keys as a user names them on one line, as in `unit.hours` or `parts[1].unit_cost`, and what stands under them."""

from __future__ import annotations

import re
import types
from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple, TypeVar, Union, get_args, get_origin

from pydantic import BaseModel

from claimpack.core.keys import record_from
from claimpack.core.words import folded, nearest
from claimpack.errors import BadInput

Record = TypeVar("Record", bound=BaseModel)

_WRITTEN = re.compile(r"\w+(?:\[\d+\]|\.\w+)*", re.ASCII)
_MOST_HINTS = 4


class _Node(NamedTuple):
    """What stands under a key: a list of something, a table of keys, or one value where both are absent."""

    listed: bool
    record: type[BaseModel] | None


class KeyPath(NamedTuple):
    """A key with every key above it; places in lists count from 1."""

    steps: tuple[str | int, ...]
    is_value: bool

    def __str__(self) -> str:
        """The key as a user writes it."""
        text = ""
        for step in self.steps:
            text += f"[{step}]" if isinstance(step, int) else f".{step}" if text else step
        return text


def key_path(kind: type[BaseModel], written: str) -> KeyPath:
    """The key of a record that a user named.

    Raises:
        BadInput: it names none; the nearest one is suggested.
    """
    if not _WRITTEN.fullmatch(written):
        raise BadInput(f"{written!r} is not the name of a key", do="As in unit.hours, or parts[1].unit_cost.")
    steps = tuple(int(step) if step.isdecimal() else step for step in re.findall(r"\w+", written))
    node = _Node(listed=False, record=kind)
    for count, step in enumerate(steps):
        node = _under(node, step, KeyPath(steps[:count], is_value=False), kind)
    return KeyPath(steps, is_value=not node.listed and node.record is None)


def _under(node: _Node, step: str | int, above: KeyPath, kind: type[BaseModel]) -> _Node:
    wanted = KeyPath((*above.steps, step), is_value=True)
    if node.listed:
        if isinstance(step, str) or step < 1:
            raise BadInput(
                f"{above} is a list", "Its items are named by number, the first is 1.", f"As in {_item(above, node)}."
            )
        return _Node(listed=False, record=node.record)
    if node.record is None:
        raise BadInput(f"key {wanted} is not known", f"{above} is one value, without keys of its own.")
    field = next((field for name, field in node.record.model_fields.items() if name == step), None)
    if field is None:
        raise BadInput(f"key {wanted} is not known", do=_hint(str(wanted), kind))
    return _node(field.annotation)


def _item(above: KeyPath, node: _Node) -> str:
    inner = f".{next(iter(node.record.model_fields))}" if node.record else ""
    return f"{above}[1]{inner}"


def _hint(wanted: str, kind: type[BaseModel]) -> str:
    """Keys that end as the wanted one does, else the nearest one, else the keys there are."""
    known = list(every_key(kind))
    last = folded(re.findall(r"\w+", wanted)[-1])
    same = [key for key in known if folded(re.findall(r"\w+", key)[-1]) == last][:_MOST_HINTS]
    near = nearest(re.sub(r"\[\d+\]|\.\d+", "[1]", wanted), known) or nearest(last, kind.model_fields)
    if same or near:
        return f"Did you mean {' or '.join(same or [near or ''])}?"
    return f"Known: {', '.join(kind.model_fields)}."


def every_key(kind: type[BaseModel], above: str = "") -> Iterator[str]:
    """Every key of a record that holds one value, in the order of the record; list items stand as number 1."""
    for name, field in kind.model_fields.items():
        node = _node(field.annotation)
        key = f"{above}{name}{'[1]' if node.listed else ''}"
        if node.record:
            yield from every_key(node.record, f"{key}.")
        else:
            yield key


def _node(annotation: Any) -> _Node:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return _Node(listed=False, record=annotation)
    if get_origin(annotation) is tuple:
        return _Node(listed=True, record=_node(get_args(annotation)[0]).record)
    if get_origin(annotation) in (Union, types.UnionType):
        found = (_node(inner) for inner in get_args(annotation))
        return next((node for node in found if node.listed or node.record), _Node(listed=False, record=None))
    return _Node(listed=False, record=None)


def with_values(record: Record, changes: Iterable[tuple[KeyPath, str | None]], source: str) -> Record:
    """A record with some values changed, as texts a user wrote; None takes the key away.

    Raises:
        BadInput: a place or a value has no meaning, or the whole makes none.
    """
    keys = record.model_dump(mode="json", exclude_unset=True)
    for path, value in changes:
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
        record = record[step - 1] if isinstance(step, int) else getattr(record, step)
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
        place = _made(place, step, fresh, KeyPath(path.steps[: count + 1], is_value=False))
    if isinstance(last, int) and last <= len(place):
        place[last - 1] = value
    elif isinstance(last, int):
        _append(place, last, value, path)
    else:
        place[last] = value


def _made(place: Any, step: str | int, fresh: Any, path: KeyPath) -> Any:
    """What stands under one step, made where it is absent."""
    if isinstance(step, int):
        if step > len(place):
            _append(place, step, fresh, path)
        return place[step - 1]
    if place.get(step) is None:
        place[step] = fresh
    return place[step]


def _append(items: Any, number: int, value: Any, path: KeyPath) -> None:
    if number > len(items) + 1:
        raise BadInput(
            f"{path}: the list has {len(items)} item{'' if len(items) == 1 else 's'}",
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
