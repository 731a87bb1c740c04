"""A key put into a TOML document on the line that is kept for it, or below the other keys of its table."""

from __future__ import annotations

import re
from typing import Any

import tomlkit
from tomlkit import TOMLDocument

from claimpack.errors import BadInput
from claimpack.folder.toml_files import outside_texts, parse_toml

_KEPT_TABLE = re.compile(r"#\s*\[\[?[\w.-]+]]?\s*(?:#.*)?")
_HEADER = re.compile(r"\[\[?\s*(?P<name>[^]]+?)\s*]]?\s*(?:#.*)?")


def put_key(document: TOMLDocument, table: str, key: str, value: Any) -> TOMLDocument:
    """The document with a value under a key; a key that is new takes the place of a commented one of its name.

    Args:
        document: what is changed.
        table: the table the key stands in, made where it is absent; empty for a key above all tables.
        key: the key.
        value: its value as TOML takes it.
    """
    place: Any = document.setdefault(table, tomlkit.table()) if table else document
    before, is_new = tomlkit.dumps(document), key not in place
    place[key] = value
    alone = tomlkit.document()
    alone[key] = value
    text = _with_line(before, table, key, tomlkit.dumps(alone).rstrip("\n")) if is_new else ""
    return tomlkit.parse(text) if text and _tell_the_same(text, tomlkit.dumps(document)) else document


def _tell_the_same(text: str, other: str) -> bool:
    try:
        return parse_toml(text, "") == parse_toml(other, "")
    except BadInput:
        return False


def _with_line(text: str, table: str, key: str, written: str) -> str:
    """The text with a key written into a table; empty where the table has no line of its own."""
    lines = text.split("\n")
    outside = dict(outside_texts(lines))
    headers = {place: found["name"] for place, line in outside.items() if (found := _HEADER.fullmatch(line.strip()))}
    begin = next((place + 1 for place, name in headers.items() if name == table), None) if table else 0
    if begin is None:
        return ""
    beyond = (place for place, line in outside.items() if place in headers or _KEPT_TABLE.fullmatch(line.strip()))
    end = next((place for place in beyond if place >= begin), len(lines))
    kept = re.compile(rf"#\s*{re.escape(key)}\s*=")
    for place in range(begin, end):
        if place in outside and kept.match(outside[place]) and _is_placeholder(outside[place]):
            lines[place] = _in_its_place(outside[place], written)
            return "\n".join(lines)
    while end > begin and not lines[end - 1].strip():
        end -= 1
    return "\n".join([*lines[:end], written, *lines[end:]])


def _in_its_place(kept: str, written: str) -> str:
    """A line written over one that was kept for it, whose own comment stays behind it."""
    ((_key, item),) = tomlkit.parse(_uncommented(kept)).body
    comment = item.trivia.comment
    return f"{written:<{len(kept.rstrip()) - len(comment) - 2}}  {comment}" if comment else written


def _is_placeholder(line: str) -> bool:
    """Whether a commented line is a key and its value, to be taken into use, and no remark of somebody's."""
    try:
        parse_toml(_uncommented(line), "")
    except BadInput:
        return False
    return True


def _uncommented(line: str) -> str:
    return line.removeprefix("#").strip()
