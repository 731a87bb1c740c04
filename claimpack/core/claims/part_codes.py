"""The code on a held part's tag: claim number, a slash, the part's index from 1."""

from __future__ import annotations

import re
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from claimpack.errors import BadInput

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from claimpack.core.facts.lines import HeldPart

_CODE = re.compile(r"([A-Za-z0-9][A-Za-z0-9-]{0,23})(?:/(?!0+\Z)(\d{1,3}))?", re.ASCII)

NO_STATES: Mapping[int, str] = MappingProxyType({})
"""Every part is held, and nothing more."""


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
    if match is None:
        raise BadInput(
            f"{text.strip()!r} is no code of a held part",
            "A tag carries the claim's number, a slash and the part's place in the claim.",
            "Scan the tag, or type it as in 26-0041/1.",
        )
    return PartCode(match[1], int(match[2] or 0))


def refuse_moved_codes(
    claim: str, before: Sequence[HeldPart], after: Sequence[HeldPart], states: Mapping[int, str] = NO_STATES
) -> None:
    """Refuse a held part taken off from before others, or put elsewhere among them: tags carry their codes.

    The last one may be taken off, which moves none; a new one is put at the end.

    Args:
        claim: the claim's number.
        before: the held parts as the book has them.
        after: the same as they would be.
        states: the states of those that are no longer only held, by their place from 1.

    Raises:
        BadInput: a part would answer to a code that is on the tag of another, or that the history tells of another.

    Source: a rule of this tool's, no source.
    """
    moved = _moved(before, after)
    if moved is None and len(after) >= len(before) - 1:
        _refuse_reused(claim, before, after, states)
        return
    if len(after) >= len(before):
        code = PartCode(claim, (moved or 0) + 1)
        raise BadInput(
            f"{code} {before[code.nth - 1].part} would get another code",
            "Printed tags carry the codes, and a held part keeps the one on its tag.",
            "Leave the held parts in the order they are in; a new one is put at the end.",
        )
    gone = next((at for at, held in enumerate(before) if at >= len(after) or held != after[at]), 0)
    code = PartCode(claim, gone + 1)
    raise BadInput(
        f"{code} {before[gone].part} cannot be taken off claim {claim}: only its last held part can",
        "Printed tags carry the codes; those behind it would get codes that are on the tags of others.",
        f"Let it go instead: claimpack hold release {code} --because TEXT, then: claimpack hold scrap {code}",
    )


def _refuse_reused(
    claim: str, before: Sequence[HeldPart], after: Sequence[HeldPart], states: Mapping[int, str]
) -> None:
    """The next part held would get the code of the last one, and what was recorded of it with the code."""
    code = PartCode(claim, len(before))
    if len(after) < len(before) and code.nth in states:
        raise BadInput(
            f"{code} {before[-1].part} is {states[code.nth]} and cannot be taken off claim {claim}",
            "The history tells that of its code, and the next part held would be taken for it.",
            f"Leave it on the claim; see: claimpack history {claim}",
        )


def _moved(before: Sequence[HeldPart], after: Sequence[HeldPart]) -> int | None:
    """The place of the first part that is elsewhere now; one that only was put right where it is has not moved."""
    changed = [held for at, held in enumerate(after) if at >= len(before) or held != before[at]]
    for at, held in enumerate(before):
        stayed = at < len(after) and _is_one(held, after[at])
        if not stayed and any(_is_one(held, other) for other in changed):
            return at
    return None


def _is_one(one: HeldPart, other: HeldPart) -> bool:
    return (one.part, one.number, one.serial) == (other.part, other.number, other.serial)
