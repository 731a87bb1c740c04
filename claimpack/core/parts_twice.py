"""A part about to be used: whether its number stands on the claim already."""

from __future__ import annotations

from collections.abc import Sequence

from claimpack.core.claim import Part
from claimpack.core.words import folded


def number_twice(claim: str, parts: Sequence[Part]) -> list[str]:
    """What to say of a claim's last part where an earlier one has its number; nothing where none has.

    Source: common practice, no source; an auditor asks about a part number on two lines.
    """
    *earlier, last = parts
    places = [place for place, part in enumerate(earlier, start=1) if _is_same(part.number, last.number)]
    if not places:
        return []
    said = f"{last.number} is on the claim already, as part {places[0]}; it was added as part {len(parts)}."
    return [f"{said} If it is the same one: claimpack part remove {claim} {len(parts)}"]


def _is_same(one: str, other: str) -> bool:
    return bool(one) and folded(one) == folded(other)
