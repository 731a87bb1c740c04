"""A claim's TOML document while it is filled in: what stands under a dotted key, and how a value goes there."""

from __future__ import annotations

from typing import Any

import tomlkit
from tomlkit import TOMLDocument

from claimpack.core.values.words import folded
from claimpack.folder.claim_toml import toml_value
from claimpack.folder.toml_lines import put_key


def value_in(document: TOMLDocument, key: str) -> Any:
    """What stands under a dotted key, `@role` meaning the serial number of that role; None where nothing does."""
    found: Any = document
    for step in key.split("."):
        if step.startswith("@"):
            return next((item["value"] for item in found if folded(item["role"]) == step[1:]), None)
        found = found.get(step) if hasattr(found, "get") else None
        if found is None:
            return None
    return found


def put_in(document: TOMLDocument, key: str, value: Any) -> TOMLDocument:
    """The document with a value under a dotted key; None takes it away, a table of values goes in key by key."""
    *tables, last = key.split(".")
    if last.startswith("@"):
        return _with_serial(document, last[1:], value)
    if isinstance(value, dict):
        for inner, item in value.items():
            document = put_in(document, ".".join([*tables, inner]), item)
        return document
    table = ".".join(tables)
    if value is not None:
        return put_key(document, table, last, toml_value(value))
    if value_in(document, key) is not None:
        (document[table] if table else document).pop(last)
    return document


def _with_serial(document: TOMLDocument, role: str, value: str) -> TOMLDocument:
    listed = value_in(document, "unit.serials") or ()
    there = {serial["role"]: serial["value"] for serial in listed if folded(serial["role"]) != role}
    serials = tomlkit.array()
    for each, number in {**there, role: value}.items():
        entry = tomlkit.inline_table()
        entry.update({"role": each, "value": number})
        serials.append(entry)
    return put_key(document, "unit", "serials", serials)
