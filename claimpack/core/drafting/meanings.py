"""What the keys of a record mean, as the docstring of the record tells it."""

from __future__ import annotations

import re
import types
from collections.abc import Iterator
from inspect import cleandoc
from typing import Any, NamedTuple, get_args

from claimpack.core.facts.record import Record

_ENTRY = re.compile(r"^ {4}(\w+): (.*(?:\n {5,}.*)*)", re.MULTILINE)
_EXAMPLE = re.compile(r",? as in `([^`]+)`")


class Meaning(NamedTuple):
    """What a key means, and what may stand there as it is written in a file; the example may be empty."""

    says: str
    example: str


def meanings_of(kind: type[Record]) -> dict[str, Meaning]:
    """What the fields of a record mean, by the name of the field, in the order its docstring has them."""
    found = {}
    for record in reversed(kind.__mro__):
        _, _, entries = cleandoc(record.__doc__ or "").partition("\nArgs:\n")
        for name, text in _ENTRY.findall(entries):
            found[name] = _meaning(" ".join(text.split()))
    return found


def _meaning(text: str) -> Meaning:
    example = _EXAMPLE.search(text)
    return Meaning(_EXAMPLE.sub("", text).rstrip("."), example[1] if example else "")


def records_in(annotation: Any) -> Iterator[type[Record]]:
    """The records that a field holds, alone, in a list or as one of several kinds of value."""
    if isinstance(annotation, type) and not isinstance(annotation, types.GenericAlias):
        if issubclass(annotation, Record):
            yield annotation
        return
    for inner in get_args(annotation):
        yield from records_in(inner)


def every_record(kind: type[Record]) -> tuple[type[Record], ...]:
    """A record and every record that it holds, at any depth, each once."""
    found = {kind: None}
    waiting = [kind]
    while waiting:
        inner = [record for field in waiting.pop().model_fields.values() for record in records_in(field.annotation)]
        waiting += [record for record in inner if record not in found]
        found |= dict.fromkeys(inner)
    return tuple(found)
