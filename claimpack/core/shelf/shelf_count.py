"""A shelf counted against the book: what is missing, what is there too much, what lies on the wrong shelf."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from shlex import quote
from types import MappingProxyType
from typing import NamedTuple

from claimpack.core.claims.part_codes import PartCode, part_code
from claimpack.core.events.events import NewEvent
from claimpack.core.steps.listed import ListedPart
from claimpack.core.values.words import folded, nearest, some_of
from claimpack.errors import BadInput

GONE = ("sent", "scrapped")
"""States of a part that is no longer in the shop."""

_MOST_SHELVES = 20


class Surplus(NamedTuple):
    """Something that was counted and should not be in the shop."""

    said: str
    why: str


class Count(NamedTuple):
    """What a count found: what was there in the order it was counted, what is missing in the order of the book."""

    shelf: str
    found: tuple[ListedPart, ...]
    missing: tuple[ListedPart, ...]
    extra: tuple[Surplus, ...]
    misplaced: tuple[ListedPart, ...]

    @property
    def equal(self) -> bool:
        """Whether the shelf holds what the book says."""
        return not (self.missing or self.extra or self.misplaced)


def claims_named(said: Iterable[str]) -> tuple[str, ...]:
    """The claim numbers that codes may mean, whatever the case of their letters."""
    # scanned in upper or lower letters: the book is asked for each way of writing it, as it looks numbers up as they
    # are
    codes = [found for text in said if (found := _code_in(text))]
    return tuple(dict.fromkeys(way for code in codes for way in (code.claim, code.claim.upper(), code.claim.lower())))


_OURS: Mapping[str, str] = MappingProxyType({})


def count(shelf: str, said: Sequence[str], parts: Iterable[ListedPart], whose: Mapping[str, str] = _OURS) -> Count:
    """Compare what was counted on a shelf with the book; a code counted twice counts once.

    Args:
        shelf: the shelf that was walked.
        said: what was scanned or typed there.
        parts: the parts of that shelf and of the claims counted, in any state.
        whose: of claims counted that are another shop's, whose they are, in words.

    Source: common practice, no source.
    """
    known = {_key(part.code): part for part in parts}
    seen: dict[PartCode, ListedPart] = {}
    extra: dict[str, Surplus] = {}
    for text in said:
        part = _named(text, known)
        if part is None or part.state in GONE:
            extra.setdefault(text.casefold(), Surplus(text, _why_extra(text, part, whose)))
        else:
            seen[_key(part.code)] = part
    return Count(
        shelf=shelf,
        found=tuple(part for part in seen.values() if _is_on(shelf, part)),
        missing=tuple(part for key, part in known.items() if _is_on(shelf, part) and key not in seen),
        extra=tuple(extra.values()),
        misplaced=tuple(part for part in seen.values() if not _is_on(shelf, part)),
    )


def refuse_unknown_shelf(shelf: str, known: Iterable[str]) -> None:
    """Refuse a shelf on which nothing ever lay: an empty count of it would say that all is well.

    Args:
        shelf: the shelf that is to be counted.
        known: every shelf that a part lies or lay on.

    Raises:
        BadInput: the shelf is not among them; the message lists them.

    Source: a rule of this tool's, no source.
    """
    by_fold = {folded(other): other for other in known if other}
    if folded(shelf) in by_fold:
        return
    shelves = sorted(by_fold.values())
    near = nearest(shelf, shelves)
    meant = f"Did you mean {near!r}? " if near else ""
    raise BadInput(
        f"SHELF: the book knows no shelf {shelf!r}",
        f"It knows {some_of(shelves, _MOST_SHELVES)}." if shelves else "No part was ever put on any.",
        f"{meant}If parts lie on a new shelf: claimpack hold move CODE {quote(shelf)}",
    )


def _code_in(text: str) -> PartCode | None:
    try:
        return part_code(text)
    except BadInput:
        return None


def _key(code: PartCode) -> PartCode:
    return PartCode(code.claim.casefold(), code.nth)


def _named(text: str, known: dict[PartCode, ListedPart]) -> ListedPart | None:
    """The part a code names; a claim's number alone names its only part."""
    code = _code_in(text)
    if code is None:
        return None
    of_claim = [part for key, part in known.items() if key.claim == code.claim.casefold()]
    # a tag's number alone means the only part its claim holds; of several it would be a guess
    return of_claim[0] if not code.nth and len(of_claim) == 1 else known.get(_key(code))


def _is_on(shelf: str, part: ListedPart) -> bool:
    return part.state not in GONE and folded(part.shelf) == folded(shelf)


def _why_extra(text: str, part: ListedPart | None, whose: Mapping[str, str]) -> str:
    if part:
        return f"the book says it was {part.state}"
    code = _code_in(text)
    if code is None:
        return "it is no code of a held part"
    if code.claim in whose:
        return f"its claim is {whose[code.claim]}"
    return "the book knows no such part" if code.nth else "the book knows no such part, or the claim holds several"


def to_record(counted: Count, on: date) -> dict[str, tuple[NewEvent, ...]]:
    """What is recorded of a count, by claim: parts not found, and parts found that an earlier count missed."""
    # told once: a part missing since an earlier count keeps the day of that one
    told = [(part, "no") for part in counted.missing if part.missing is None]
    told += [(part, "yes") for part in (*counted.found, *counted.misplaced) if part.missing]
    recorded: dict[str, tuple[NewEvent, ...]] = {}
    for part, found in told:
        facts = {"part": str(part.code.nth), "shelf": counted.shelf, "found": found}
        new_event = NewEvent(what="shelf counted", on=on, facts=facts)
        recorded[part.code.claim] = (*recorded.get(part.code.claim, ()), new_event)
    return recorded
