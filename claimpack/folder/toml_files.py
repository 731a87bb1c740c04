"""TOML files of the shop: read exactly, every number as it was written."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Iterator
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import Any, TypeVar

from claimpack.core.facts.keys import record_from
from claimpack.core.facts.record import Record
from claimpack.errors import BadInput
from claimpack.file_contents import read_text

Kind = TypeVar("Kind", bound=Record)

_LONGEST = 60
# Text with more lines, or with keys of more parts, would keep the parser busy for minutes.
_MOST_LINES = 100_000
_MOST_PARTS = 64
_QUOTED = re.compile(r""""[^"\\\n]*+(?:\\.[^"\\\n]*+)*+"|'[^'\n]*+'|\#.*""")
_BARE = re.compile(r"[\w. \t-]+")
_START = re.compile(r"""\s*(\[|[\w."' -]+=)""")
_QUOTES = re.compile("\"{3}|'{3}")
_DATE = r"[^=\"'#]+=\s*([0-9]{4}[-/.][0-9]{1,2}[-/.][0-9]{1,2}|[0-9]{1,2}[-/.][0-9]{1,2}[-/.][0-9]{4})(?![0-9])"
_OF_DATES = "Write year, month and day of a day there is, with hyphens and without quotes."
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
    if text.count("\n") > _MOST_LINES or _nests_deeply(text):
        raise _by_nobody(source)
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        place, line = _begins(text)
        why = f"It begins on line {place + 1}: {line if len(line) <= _LONGEST else f'{line[:_LONGEST]}...'}"
        day = _no_day(line)
        if day:
            raise BadInput(f"{source}: {day} is not a date such as 2026-02-05", why, _OF_DATES) from None
        raise BadInput(f"{source}: {error}", why, _ADVICE) from None
    except (RecursionError, ValueError, InvalidOperation):
        raise _by_nobody(source) from None


def _by_nobody(source: str) -> BadInput:
    return BadInput(f"{source} holds a number or a nesting that nobody would write by hand")


def _nests_deeply(text: str) -> bool:
    """Whether a key has so many parts that the reader of TOML, which goes back over all of them, would not end."""
    # hardly a file has a line of so many points, in texts or not
    if all(line.count(".") <= _MOST_PARTS for line in text.splitlines()):
        return False
    bare = _QUOTED.sub("", text)
    return any(key[0].count(".") > _MOST_PARTS for key in _BARE.finditer(bare))


def _begins(text: str) -> tuple[int, str]:
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
    return place, lines[place].strip()


def _no_day(line: str) -> str:
    """The value of a line that was meant as a date and is none; empty where the line has no such value."""
    found = re.match(_DATE, line)
    return found[1] if found and not _is_toml(f"day = {found[1]}") else ""


def _starts(lines: list[str]) -> Iterator[int]:
    """The lines, from 0, that begin a key or a table."""
    return (place for place, line in outside_texts(lines) if _START.match(line))


def outside_texts(lines: Iterable[str]) -> Iterator[tuple[int, str]]:
    """The lines, counted from 0, without those inside a text of several lines."""
    inside = ""
    for place, line in enumerate(lines):
        if not inside:
            yield place, line
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
