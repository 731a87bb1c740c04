"""A shelf counted against the book: what is missing, what is there too much, what lies on the wrong shelf."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import NamedTuple, Protocol

from claimpack.core.part_codes import PartCode
from claimpack.core.words import folded

GONE = ("sent", "scrapped")
"""States of a part that is no longer in the shop."""


class Shelved(Protocol):
    """A held part as the book knows it."""

    @property
    def code(self) -> PartCode:
        """The code on its tag."""

    @property
    def shelf(self) -> str:
        """The shelf it was put on."""

    @property
    def state(self) -> str:
        """Where it stands."""

    @property
    def missing(self) -> date | None:
        """The day a count did not find it."""


class Extra(NamedTuple):
    """A code that was counted and should not be in the shop."""

    code: PartCode
    why: str


class Count(NamedTuple):
    """What a count found, each list in the order of shelf or count."""

    shelf: str
    found: tuple[Shelved, ...]
    missing: tuple[Shelved, ...]
    extra: tuple[Extra, ...]
    misplaced: tuple[Shelved, ...]

    @property
    def equal(self) -> bool:
        """Whether the shelf holds what the book says."""
        return not (self.missing or self.extra or self.misplaced)

    @property
    def here_again(self) -> tuple[Shelved, ...]:
        """The parts that an earlier count missed and this one found."""
        return tuple(part for part in (*self.found, *self.misplaced) if part.missing)


def count(shelf: str, codes: Sequence[PartCode], parts: Iterable[Shelved]) -> Count:
    """Compare what was counted on a shelf with the book; a code counted twice counts once.

    Args:
        shelf: the shelf that was walked.
        codes: what was scanned or typed there; letters may be of either case.
        parts: the parts of that shelf and of the claims counted, in any state.

    Source: common practice, no source.
    """
    known = {_key(part.code): part for part in parts}
    counted = list(dict.fromkeys(_named(code, known) for code in codes))
    there = {_key(code) for code in counted}
    here = {key: part for key, part in known.items() if _is_on(shelf, part)}
    seen = [known[_key(code)] for code in counted if _key(code) in known]
    return Count(
        shelf=shelf,
        found=tuple(part for part in seen if _is_on(shelf, part)),
        missing=tuple(part for key, part in here.items() if key not in there),
        extra=tuple(Extra(code, _why_extra(known.get(_key(code)))) for code in counted if _is_extra(code, known)),
        misplaced=tuple(part for part in seen if part.state not in GONE and not _is_on(shelf, part)),
    )


def _key(code: PartCode) -> PartCode:
    return PartCode(code.claim.casefold(), code.nth)


def _named(code: PartCode, known: dict[PartCode, Shelved]) -> PartCode:
    """The code with its index, where a claim's number alone means its only part."""
    of_claim = [part.code for key, part in known.items() if key.claim == code.claim.casefold()]
    if not code.nth and len(of_claim) == 1:
        return of_claim[0]
    exact = known.get(_key(code))
    return exact.code if exact else code


def _is_on(shelf: str, part: Shelved) -> bool:
    return part.state not in GONE and folded(part.shelf) == folded(shelf)


def _is_extra(code: PartCode, known: dict[PartCode, Shelved]) -> bool:
    part = known.get(_key(code))
    return part is None or part.state in GONE


def _why_extra(part: Shelved | None) -> str:
    return f"the book says it was {part.state}" if part else "the book knows no such part"
