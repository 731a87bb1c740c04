"""A claim as TOML text, and back: the keys in the order of the record, only those that say something."""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

import tomlkit
from tomlkit.items import Array, InlineTable, String, StringType, Table, Trivia

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.editing.key_paths import Changes, KeyPath, as_it_lies
from claimpack.core.claims.editing.key_values import put, take, value_under
from claimpack.core.facts.failure import Failures
from claimpack.core.facts.keys import keys_of, record_from
from claimpack.core.facts.pictures import Paper
from claimpack.core.facts.record import Record
from claimpack.core.values.money import plain
from claimpack.errors import BadInput
from claimpack.folder.toml_files import parse_toml
from claimpack.folder.toml_lines import put_key

# A key such as unit.hours stands on a line; what lies deeper reads better as a table of its own.
_DEEPEST = 2


def claim_to_toml(claim: Claim) -> str:
    """The claim as a person would write it: values first, then tables, then lists of tables; numbers as text."""
    document = tomlkit.document()
    document["format"] = claim.format
    told = dict(_told(claim))
    for name, value in told.items():
        if not _is_table(value):
            document[name] = toml_value(value)
    for name, value in told.items():
        if isinstance(value, Record):
            document[name] = _table(value)
    for name, value in told.items():
        if isinstance(value, tuple) and _is_table(value):
            tables = tomlkit.aot()
            for item in value:
                tables.append(_table(item))
            document[name] = tables
    return tomlkit.dumps(document)


def claim_from_toml(text: str, source: str) -> Claim:
    """The claim that TOML text tells.

    Raises:
        BadInput: it is no TOML, or has problems; every one is named.
    """
    return record_from(Claim, parse_toml(text, source), source)


def _told(record: Record) -> Iterator[tuple[str, Any]]:
    """The keys that must stand, or differ from what they are without being written, in order."""
    for key, name in keys_of(type(record)).items():
        field, value = type(record).declared[name], getattr(record, name)
        if field.is_required or value != field.absent():
            yield key, _as_written(value)


def _as_written(value: Any) -> Any:
    """Failures in a row where there are several; papers in short."""
    if isinstance(value, Failures) and value.also:
        return (value.model_copy(update={"also": ()}), *value.also)
    return tuple(map(_in_short, value)) if isinstance(value, tuple) else value


def _in_short(item: Any) -> Any:
    """A paper of which nothing more is said as its file."""
    return item.file if isinstance(item, Paper) and item == Paper(file=item.file) else item


def _is_table(value: Any) -> bool:
    if isinstance(value, tuple):
        return bool(value) and all(isinstance(item, Record) for item in value)
    return isinstance(value, Record)


def _table(record: Record) -> Table:
    table = tomlkit.table()
    for name, value in _told(record):
        table[name] = toml_value(value)
    return table


def toml_value(value: Any) -> Any:
    """One value as TOML: exact numbers as text, several lines as several lines, records in braces."""
    value = _in_short(value)
    if isinstance(value, Decimal):
        return plain(value)
    if isinstance(value, str) and "\n" in value:
        return _lines(value)
    if isinstance(value, Record):
        return _inline(value)
    if isinstance(value, tuple):
        return _array(value)
    return value


def _lines(text: str) -> String:
    """Text of several lines, each on its own; only quotes that could be taken for the end are escaped."""
    escaped = re.sub(r'"(?="|\Z)', r"\"", text.replace("\\", r"\\"))
    return String(StringType.MLB, text, "\n" + escaped, Trivia())


def _inline(record: Record) -> InlineTable:
    table = tomlkit.inline_table()
    for name, value in _told(record):
        table[name] = _in_line(value)
    return table


def _in_line(value: Any) -> Any:
    """A value inside braces, where no line may end."""
    return value if isinstance(value, str) else toml_value(value)


def _array(values: tuple[Any, ...]) -> Array:
    array = tomlkit.array()
    for value in values:
        array.append(_in_line(value))
    return array.multiline(multiline=len(values) > 1)


def with_changes(text: str, after: Claim, changes: Changes) -> str:
    """TOML text with some keys changed, everything else as it was written, comments too.

    Args:
        text: the text before.
        after: the claim with the changes made.
        changes: the keys changed; None takes one away.
    """
    document = tomlkit.parse(text)
    for named, value in changes:
        path = as_it_lies(document, named)
        first = str(path.steps[0])
        listed = getattr(after, first)
        if first not in document and isinstance(listed, tuple) and _is_table(_as_written(listed)):
            document[first] = tomlkit.aot()
        if value is None:
            take(document, path)
        elif _is_plain(path):
            table, key = ".".join(map(str, path.steps[:-1])), str(path.steps[-1])
            document = put_key(document, table, key, toml_value(value_under(after, named)))
        else:
            put(document, path, toml_value(value_under(after, named)))
    written = tomlkit.dumps(document)
    return written if _tells(written, after) else claim_to_toml(after)


def _is_plain(path: KeyPath) -> bool:
    """Whether a key stands above all tables, or directly in one."""
    return path.is_value and len(path.steps) <= _DEEPEST and all(isinstance(step, str) for step in path.steps)


def _tells(text: str, claim: Claim) -> bool:
    """Whether text tells exactly this claim; if not, the claim is written anew rather than wrongly."""
    try:
        return claim_from_toml(text, "claim.toml") == claim
    except BadInput:
        return False
