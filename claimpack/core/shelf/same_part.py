"""A failed part about to be held: whether the claim holds it already."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from shlex import quote

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.part_codes import PartCode
from claimpack.core.events.standing import Standing
from claimpack.core.facts.lines import HeldPart, Part
from claimpack.core.shelf.shelf_count import GONE
from claimpack.core.values.words import folded
from claimpack.errors import BadInput


def must_be_another(claim: Claim, standing: Standing, new: HeldPart, *, another: bool) -> None:
    """Refuse a part that the claim may hold already; one that left the shop does not count.

    Parts are told apart by serial number, then by part number; where one of the two has none, by what they are called.

    Args:
        claim: the claim, without the new part.
        standing: where the claim and its held parts stand.
        new: the part to be held.
        another: the shop says that it is a further part like one that is held.

    Raises:
        BadInput: it may be the same part, and nobody said that it is another; or it has the serial number of one.

    Source: common practice, no source.
    """
    for code, held in _like(claim, standing, new):
        # not even --another helps: two parts do not share a serial number
        if new.serial and _is_same(new.serial, held.serial):
            raise BadInput(
                f"{_told(code, held)} is already held, and has the serial number {held.serial}",
                "A serial number names one part; held twice, it would be looked for twice.",
                f"Correct the serial number; or, if it only lies elsewhere now: claimpack hold move {code} SHELF",
            )
        if not another:
            raise BadInput(
                f"{_told(code, held)} is already held",
                "A part held twice would be looked for twice, and one of the two never found.",
                f"If this is a further one: --another; {_otherwise(code, held, new)}",
            )


def _otherwise(code: PartCode, held: HeldPart, new: HeldPart) -> str:
    """What to do where it is the same part."""
    if new.serial and not held.serial:
        key = f"held[{code.nth}].serial"
        return f"if it is the same, give it its serial number: claimpack set {code.claim} {key} {quote(new.serial)}"
    return f"if it only lies elsewhere now: claimpack hold move {code} SHELF"


def _like(claim: Claim, standing: Standing, new: HeldPart) -> Iterator[tuple[PartCode, HeldPart]]:
    """The parts still in the shop that may be the new one; those with its serial number first."""
    here = [
        (PartCode(claim.number, nth), held)
        for nth, held in enumerate(claim.held, start=1)
        if standing.part(nth).state not in GONE and _may_be_one(new, held)
    ]
    # the one with the same serial number is told of first, whatever else looks alike
    yield from sorted(here, key=lambda each: not _is_same(new.serial, each[1].serial))


def _may_be_one(one: HeldPart, other: HeldPart) -> bool:
    # two serial numbers are two parts, however alike their names and numbers
    if one.serial and other.serial and not _is_same(one.serial, other.serial):
        return False
    # a name is somebody's choice of words, a part number is not
    if one.number and other.number:
        return _is_same(one.number, other.number)
    return _is_same(one.serial, other.serial) or _is_same(one.part, other.part)


def _is_same(one: str, other: str) -> bool:
    return bool(one) and folded(one) == folded(other)


def _told(code: PartCode, held: HeldPart) -> str:
    facts = [f"number {held.number}" if held.number else "", f"shelf {held.shelf}" if held.shelf else ""]
    said = ", ".join(fact for fact in facts if fact)
    return f"{code} {held.part}{f' ({said})' if said else ''}"


def number_twice(claim: str, parts: Sequence[Part]) -> list[str]:
    """What to say of a claim's last part where an earlier one has its number; nothing where none has.

    Source: common practice, no source; an auditor asks about a part number on two lines.
    """
    *earlier, last = parts
    places = [place for place, part in enumerate(earlier, start=1) if _is_one_number(part.number, last.number)]
    if not places:
        return []
    said = f"{last.number} is already on the claim, as part {places[0]}; it was added as part {len(parts)}."
    return [f"{said} If it is the same one: claimpack part remove {claim} {len(parts)}"]


def _is_one_number(one: str, other: str) -> bool:
    return bool(one) and folded(one) == folded(other)
