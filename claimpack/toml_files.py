"""TOML files of the shop: read exactly, every number as it was written."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel

from claimpack.core.keys import record_from
from claimpack.errors import BadInput
from claimpack.files import read_text

Kind = TypeVar("Kind", bound=BaseModel)

_LONGEST = 60
_START = re.compile(r"""\s*(\[|[\w."' -]+=)""")
_QUOTES = re.compile("\"{3}|'{3}")
_ADVICE = (
    "Look for a key or table that is given twice. Texts stand in quotes, dates and numbers without; "
    "a list stands in [ ]."
)


def read_toml(path: Path) -> dict[str, Any]:
    """The keys of a TOML file; numbers with a point come as exact decimals.

    Raises:
        NotFound: there is no such file.
        BadInput: it cannot be read, is not UTF-8, or is no TOML (a key given twice among other things).
    """
    return parse_toml(read_text(path), str(path))


def parse_toml(text: str, source: str) -> dict[str, Any]:
    """The keys of TOML text.

    Raises:
        BadInput: it is no TOML; the line on which what is wrong begins is named, also where the text ends inside it.
    """
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        raise BadInput(f"{source}: {error}", _begins(text), _ADVICE) from None
    except (RecursionError, ValueError, InvalidOperation):
        raise BadInput(f"{source} holds a number or a nesting that nobody would write by hand") from None


def _begins(text: str) -> str:
    """Where what cannot be read begins: the first line that is wrong, or the key or table that is never closed."""
    lines = text.splitlines()
    starts = [0, *_starts(lines)]
    good, bad = 0, len(starts)
    while bad - good > 1:
        middle = (good + bad) // 2
        if _is_toml("\n".join(lines[: starts[middle]])):
            good = middle
        else:
            bad = middle
    place = starts[good]
    while place + 1 < len(lines) and _is_toml("\n".join(lines[: place + 1])):
        place += 1
    line = lines[place].strip()
    return f"It begins on line {place + 1}: {line if len(line) <= _LONGEST else f'{line[:_LONGEST]}...'}"


def _starts(lines: list[str]) -> Iterator[int]:
    """The lines, from 0, that begin a key or a table; those inside a text of several lines do not."""
    inside = ""
    for place, line in enumerate(lines):
        if not inside and _START.match(line):
            yield place
        for quotes in _QUOTES.findall(line):
            inside = "" if quotes == inside else inside or quotes


def _is_toml(text: str) -> bool:
    try:
        tomllib.loads(text, parse_float=Decimal)
    except (tomllib.TOMLDecodeError, RecursionError, ValueError, InvalidOperation):
        return False
    return True


def read_record(kind: type[Kind], path: Path) -> Kind:
    """A record from a TOML file.

    Raises:
        NotFound: there is no such file.
        BadInput: what `read_toml` or the record's keys refuse.
    """
    return record_from(kind, read_toml(path), str(path))
