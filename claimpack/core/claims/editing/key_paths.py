"""Keys as a user names them on one line, as in `unit.hours`, `parts[1].unit_cost` or `unit.serials.engine`."""

from __future__ import annotations

import datetime as dt
import re
import types
from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple, Union, get_args, get_origin

from claimpack.core.facts.keys import in_a_row, keys_of
from claimpack.core.facts.pictures import Paper
from claimpack.core.facts.record import Record
from claimpack.core.values.words import folded, nearest
from claimpack.errors import BadInput

Changes = Sequence[tuple["KeyPath", str | None]]
"""Keys and the values they get, as a user wrote them; None takes a key away."""


_WRITTEN = re.compile(r"\w[\w-]*(?:\[[0-9]+\]|\.\w[\w-]*)*")
_STEP = re.compile(r"\w[\w-]*")
_LIKELIEST_ROLE = "unit"
_MOST_HINTS = 4

ROLE, OF_A_ROLE = "role", "value"
"""The keys of an item that is named by its role: the role itself, and what is said of it."""


class _Node(NamedTuple):
    """What stands under a key: a list of something, a table of keys, or one value where both are absent."""

    listed: bool
    record: type[Record] | None


class ItemRole(str):
    """An item of a list named by its role, as the engine's serial number is."""

    __slots__ = ()


class KeyPath(NamedTuple):
    """A key with every key above it; places in lists count from 1, or are named by role."""

    steps: tuple[str | int, ...]
    is_value: bool

    def __str__(self) -> str:
        """The key as a user writes it."""
        return written(self.steps)


def written(steps: Sequence[str | int]) -> str:
    """A key, or the list or table of others, as a user writes it."""
    text = ""
    for step in steps:
        text += f"[{step}]" if isinstance(step, int) else f".{step}" if text else step
    return in_a_row(text)


def key_path(kind: type[Record], named: str) -> KeyPath:
    """The key of a record that a user named.

    Raises:
        BadInput: it names none; the nearest one is suggested.
    """
    if not _WRITTEN.fullmatch(named):
        raise BadInput(f"{named!r} is not the name of a key", do="As in unit.hours, or parts[1].unit_cost.")
    node = _Node(listed=False, record=kind)
    steps: tuple[str | int, ...] = ()
    for said in _STEP.findall(_from_a_row(named)):
        # a number is a place; a word that is no key of the items is the role of one
        step = int(said) if said.isdecimal() else ItemRole(said) if _names_a_role(node, said) else said
        node = _under(node, step, steps, kind)
        steps = (*steps, step)
    # a paper may be written as its file alone, so that its table takes a value as well
    in_short = not node.listed and node.record in (None, Paper)
    return KeyPath(steps, is_value=isinstance(steps[-1], ItemRole) or in_short)


def is_a_day(kind: type[Record], path: KeyPath) -> bool:
    """Whether a key of a record holds a day."""
    under: Any = kind
    for step in (step for step in path.steps if not isinstance(step, (int, ItemRole))):
        name = keys_of(under).get(step, step)
        annotation = under.model_fields[name].annotation
        under = _node(annotation).record or annotation
    return _is_or_holds(under, dt.date)


def _is_or_holds(annotation: Any, kind: type) -> bool:
    return annotation is kind or any(_is_or_holds(inner, kind) for inner in get_args(annotation))


def _from_a_row(named: str) -> str:
    """A key of one of several failures as the record has it: the first, and those besides it."""
    found = re.match(r"failure\[0*([1-9]\d*)\]", named)
    if found is None:
        return named
    number, rest = int(found[1]), named[found.end() :]
    return f"failure{rest}" if number == 1 else f"failure.also[{number - 1}]{rest}"


def as_it_lies(keys: Any, path: KeyPath) -> KeyPath:
    """A key of one of several failures, where they are written in a row; any other key as it is."""
    if not isinstance(keys.get("failure"), list):
        return path
    # the first failure is the record's own, and those besides it stand under `also`: in a row they are one list
    match path.steps:
        case ("failure", "also", int(number), *rest):
            return path._replace(steps=("failure", number + 1, *rest))
        case ("failure", *rest):
            return path._replace(steps=("failure", 1, *rest))
        case _:
            return path


def _names_a_role(node: _Node, said: str) -> bool:
    return _has_roles(node) and node.record is not None and said not in node.record.declared


def _has_roles(node: _Node) -> bool:
    return node.listed and node.record is not None and {ROLE, OF_A_ROLE} <= node.record.declared.keys()


def _under(node: _Node, step: str | int, steps: tuple[str | int, ...], kind: type[Record]) -> _Node:
    above, wanted = written(steps), written((*steps, step))
    if node.listed:
        if not isinstance(step, ItemRole) and (isinstance(step, str) or step < 1):
            by = "number, the first is 1, or by role" if _has_roles(node) else "number, the first is 1"
            raise BadInput(f"{above} is a list", f"Its items are named by {by}.", f"As in {_item(above, node)}.")
        return _Node(listed=False, record=node.record)
    if node.record is None:
        raise BadInput(f"key {wanted} is not known", f"{above} is one value, without keys of its own.")
    name = keys_of(node.record).get(str(step))
    if name is None:
        raise BadInput(f"key {wanted} is not known", do=_hint(wanted, kind))
    return _node(node.record.model_fields[name].annotation)


def _item(above: str, node: _Node) -> str:
    inner = f".{next(iter(node.record.declared))}" if node.record else ""
    by_role = f" or {above}.engine" if _has_roles(node) else ""
    return f"{above}[1]{inner}{by_role}"


def _hint(wanted: str, kind: type[Record]) -> str:
    """Keys that end as the wanted one does, else the nearest one, else the keys there are."""
    # the keys of a second failure are those of the first, and would stand beside each of them
    known = [key for key in every_key(kind) if not key.startswith("failure[2]")]
    last = folded(re.findall(r"\w+", wanted)[-1])
    listed = [key.removesuffix(f"[1].{ROLE}") for key in known if key.endswith(f"{last}s[1].{ROLE}")]
    if f"{wanted}s" in listed:
        return f"Did you mean {wanted}s.{_LIKELIEST_ROLE}?"
    ending = [key for key in known if folded(re.findall(r"\w+", key)[-1]) == last]
    same = [*(f"{key}.{_LIKELIEST_ROLE}" for key in listed), *ending][:_MOST_HINTS]
    near = nearest(re.sub(r"\[\d+\]|\.\d+", "[1]", wanted), known) or nearest(last, kind.declared)
    if same or near:
        return f"Did you mean {' or '.join(same or [near or ''])}?"
    return f"Known: {', '.join(kind.declared)}."


def every_key(kind: type[Record], above: str = "") -> Iterator[str]:
    """Every key of a record that holds one value, in the order of the record; list items stand as number 1."""
    for said, name in keys_of(kind).items():
        node = _node(kind.model_fields[name].annotation)
        key = f"{above}{said}{'[1]' if node.listed else ''}"
        if node.record:
            yield from every_key(node.record, f"{key}.")
        else:
            yield in_a_row(key)


def _node(annotation: Any) -> _Node:
    if isinstance(annotation, type) and issubclass(annotation, Record):
        return _Node(listed=False, record=annotation)
    if get_origin(annotation) is tuple:
        return _Node(listed=True, record=_node(get_args(annotation)[0]).record)
    if get_origin(annotation) in (Union, types.UnionType):
        found = (_node(inner) for inner in get_args(annotation))
        return next((node for node in found if node.listed or node.record), _Node(listed=False, record=None))
    return _Node(listed=False, record=None)
