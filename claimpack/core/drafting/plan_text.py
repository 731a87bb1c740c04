"""A plan as a file that a person goes on with: every key below what it means, those that say nothing commented out."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from claimpack.core.drafting.key_list import Key, as_toml, key_list
from claimpack.core.plans.plan import Plan

HEAD = """\
# A coverage plan: what the maker's warranty booklet says, in keys. Lines that start with # are not read.
# What a key means: claimpack plan keys WORD.  Whether the file is right: claimpack plan check FILE.
# What it pays: claimpack plan try FILE.
"""
_WIDTH = 118
_FEW = 2


def plan_text(keys: Mapping[str, Any], *, whole: bool = False) -> str:
    """The text of a plan file.

    Args:
        keys: what the plan says, as its file would.
        whole: whether every key is there that a plan may have, with an example, commented out where it says nothing.
    """
    known = [key for key in key_list(Plan) if key.path.count(".") <= 1]
    own = [key for key in known if not key.table]
    inner = {key.path: [one for one in known if one.path.startswith(f"{key.path}.")] for key in own}
    tables = [key for key in own if _is_table(key, inner[key.path], keys.get(key.path))]
    plain = [key for key in own if key not in tables]
    sections = [_section(table, inner[table.path], keys.get(table.path), whole=whole) for table in tables]
    return "\n".join([HEAD, *_lines(plain, keys, whole=whole), *(line for lines in sections for line in lines)]) + "\n"


def _is_table(key: Key, inner: Iterable[Key], value: Any) -> bool:
    """Whether a key is written as a table of its own; one of a few keys stands on one line."""
    if key.example.startswith("[["):
        return True
    return len(list(inner)) > _FEW and not isinstance(value, (list, tuple, str)) and key.example.startswith("{")


def _section(table: Key, inner: list[Key], value: Any, *, whole: bool) -> Iterator[str]:
    entries = value if isinstance(value, (list, tuple)) else [value] if value else []
    heading = f"[[{table.path}]]" if table.example.startswith("[[") else f"[{table.path}]"
    for place, entry in enumerate(entries):
        yield from ("", *([] if place else _comment(table)), heading)
        yield from _lines(inner, entry, whole=whole and not place, told=not place)
    if whole and not entries:
        yield from ("", *_comment(table), f"# {heading}", *_lines(inner, {}, whole=True))


def _lines(known: Iterable[Key], keys: Mapping[str, Any], *, whole: bool, told: bool = True) -> Iterator[str]:
    for key in known:
        if key.name in keys:
            yield from (*(_comment(key) if told else ()), f"{key.name} = {as_toml(keys[key.name])}")
        elif whole:
            yield from (*_comment(key), f"# {key.name} = {key.example}")


def _comment(key: Key) -> list[str]:
    says = f"{key.means[:1].upper()}{key.means[1:]}."
    choices = f" One of: {', '.join(key.choices)}." if key.choices else ""
    return textwrap.wrap(says + choices, _WIDTH, initial_indent="# ", subsequent_indent="# ")
