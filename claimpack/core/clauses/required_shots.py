"""The shots that a plan asks for: of every claim, or where certain components failed."""

from __future__ import annotations

from typing import Annotated, Any

from claimpack.core.facts.record import Record
from claimpack.core.values.marks import BeforeValidator, Field, PlainSerializer
from claimpack.core.values.words import Named
from claimpack.core.values.written import WrittenAs


class RequiredShot(Record):
    """A shot that a claim must have.

    Args:
        shot: what it shows, as in `serial plate`.
        components: what must have failed for it to be asked for; None for whatever failed.
    """

    shot: Named
    components: Annotated[tuple[Named, ...], Field(min_length=1)] | None = None


def _as_shots(said: Any) -> Any:
    """Shots of which nothing more is said may be written as what they show alone."""
    if not isinstance(said, (list, tuple)):
        return said
    return tuple({"shot": shot} if isinstance(shot, str) else shot for shot in said)


def _in_short(shots: tuple[RequiredShot, ...]) -> list[str | dict[str, Any]]:
    # written as short as it was read, so that the plan in a packet reads like the maker's file
    told = (shot.model_dump(mode="json", exclude_defaults=True) for shot in shots)
    return [shot["shot"] if len(shot) == 1 else shot for shot in told]


Shots = Annotated[
    tuple[RequiredShot, ...],
    BeforeValidator(_as_shots),
    PlainSerializer(_in_short),
    WrittenAs(tuple[Named | RequiredShot, ...]),
]
"""Shots; one that is asked for whatever failed may be written as what it shows alone."""
