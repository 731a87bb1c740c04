"""The code on a held part's tag: claim number, a slash, the part's index from 1."""

from __future__ import annotations

import re
from typing import NamedTuple

from claimpack.errors import BadInput

_CODE = re.compile(r"([A-Za-z0-9][A-Za-z0-9-]{0,23})(?:/(\d{1,3}))?", re.ASCII)


class PartCode(NamedTuple):
    """A held part of a claim; nth 0 stands for the only one."""

    claim: str
    nth: int = 0

    def __str__(self) -> str:
        return f"{self.claim}/{self.nth}" if self.nth else self.claim


def part_code(text: str) -> PartCode:
    """The part a code names, as typed or scanned.

    Raises:
        BadInput: it is no such code.
    """
    match = _CODE.fullmatch(text.strip())
    if match is None or match[2] == "0":
        raise BadInput(
            f"{text.strip()!r} is no code of a held part",
            "A tag carries the claim's number, a slash and the part's place in the claim.",
            "Scan the tag, or type it as in 26-0041/1.",
        )
    return PartCode(match[1], int(match[2] or 0))
