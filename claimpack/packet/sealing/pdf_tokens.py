"""A PDF read as words: where an object ends, what it refers to, and what stands in it that no reader reads."""

from __future__ import annotations

import re
from collections.abc import Iterator

from claimpack.errors import BadInput

_BLANK = rb"[\x00\t\n\f\r ]"
_WORD = re.compile(
    _BLANK + rb"++|%[^\r\n]*+|<<|>>|<(?:[0-9A-Fa-f]|" + _BLANK + rb")*+>|[\[\]{}]|/[^\x00\t\n\f\r ()<>\[\]{}/%]*+"
    rb"|[^\x00\t\n\f\r ()<>\[\]{}/%]++|\("
)
# a backslash takes the next byte with it, so that an escaped parenthesis closes nothing
_IN_STRING = re.compile(rb"\\.|[()]", re.DOTALL)
_REFERENCE = re.compile(_BLANK + rb"*+\d++" + _BLANK + rb"++\d++" + _BLANK + rb"++R\b")
_OPENS, _CLOSES = (b"<<", b"["), (b">>", b"]")

SPREAD_OUT = re.compile(
    rb"%QDF-1\.0|%QDF: ignore_newline|%% Page \d+|%% Contents for page \d+|%% Original object ID: \d+ \d+"
    rb"|%% Object stream: object \d+, index \d+(?:; original object ID: \d+(?: \d+)?)?"
)
"""The comments of a file that was spread out to be read by people; no others are a program's own."""


class NotWhole(BadInput):
    """The bytes end, or go wrong, before the object does."""

    def __init__(self) -> None:
        super().__init__("an object of the PDF breaks off or is written wrongly")


def words(data: bytes, at: int = 0) -> Iterator[tuple[bytes, int]]:
    """Every word from a place on, comments among them, with the place after it; strings are one word each.

    Source: ISO 32000-1:2008 7.2 (lexical conventions).
    """
    while at < len(data):
        found = _WORD.match(data, at)
        if found is None:
            raise NotWhole
        word, at = found[0], found.end()
        if word == b"(":
            start, at = found.start(), _string_end(data, at)
            word = data[start:at]
        if word.strip(b"\x00\t\n\f\r "):
            yield word, at


def _string_end(data: bytes, at: int) -> int:
    depth = 1
    for found in _IN_STRING.finditer(data, at):
        depth += {b"(": 1, b")": -1}.get(found[0], 0)
        if not depth:
            return found.end()
    raise NotWhole


def is_odd_comment(word: bytes) -> bool:
    """Whether a word is a comment that somebody wrote."""
    return word.startswith(b"%") and not SPREAD_OUT.fullmatch(word)


def value_end(data: bytes, at: int) -> int:
    """The place after the one value that begins at a place; a comment in it counts as somebody's."""
    depth = 0
    for word, end in words(data, at):
        if is_odd_comment(word):
            raise NotWhole
        depth += (word in _OPENS) - (word in _CLOSES)
        if not depth and not word.startswith(b"%"):
            return end
    raise NotWhole


def references(written: bytes) -> Iterator[tuple[int, int]]:
    """The objects that a written value refers to."""
    before = [b"", b""]
    for word, _ in words(written):
        if word == b"R" and before[0].isdigit() and before[1].isdigit():
            yield int(before[0]), int(before[1])
        before = [before[1], word]


def entries_of(written: bytes) -> dict[str, bytes]:
    """The entries of a written dictionary, each value as it is written.

    Raises:
        NotWhole: it is no dictionary, or names a key twice.
    """
    found: dict[str, bytes] = {}
    begins = written.find(b"<<") + 2
    at = begins
    for word, end in words(written, begins):
        if end <= at:
            continue
        if word == b">>":
            return found
        key = word.decode("latin-1")
        # of a key named twice one reader takes the first and another the last
        if not key.startswith("/") or key in found:
            raise NotWhole
        at = value_end(written, end)
        if word_after := _REFERENCE.match(written, end):
            at = word_after.end()
        found[key] = written[end:at].strip()
    raise NotWhole
