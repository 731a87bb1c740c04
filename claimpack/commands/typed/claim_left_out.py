"""Which word of a command is its CLAIM, and whether it was left out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from claimpack.commands.line.parameters import NEEDED
from claimpack.commands.typed.left_out import number_left_out

if TYPE_CHECKING:
    from claimpack.commands.desk.world import World
    from claimpack.commands.line.parameters import Parameter

_BY_NUMBER = ("write-off", "withdraw", "reopen", "forget")
"""What gives a claim up, or erases from it, wants its number each time."""

_ABOUT_SEVERAL = {"chase": "--maker"}
"""Commands that take an option in place of CLAIM, and are then about several."""


class Positional(NamedTuple):
    """A place for an argument: what it is called, whether it must be filled, and whether many words go into it."""

    name: str
    is_needed: bool
    is_many: bool


def places_of(parameters: Sequence[Parameter]) -> list[Positional]:
    """The places for arguments among the parameters of a command, in order."""
    return [Positional(each.name, each.default is NEEDED, each.many) for each in parameters if each.is_argument]


def may_leave_claim_out(command: str, places: Sequence[Positional], line: Sequence[str]) -> bool:
    """Whether the first word of a command is a CLAIM that may be left out, given its whole line.

    Where CLAIM may be absent, its absence has a meaning of its own: every claim.
    """
    instead = _ABOUT_SEVERAL.get(command)
    several = instead is not None and any(word.partition("=")[0] == instead for word in line)
    is_claim = bool(places) and places[0].name in ("claim", "claims")
    return is_claim and command not in _BY_NUMBER and (places[0].is_needed or (instead is not None and not several))


def with_claim(world: World, places: Sequence[Positional], words: Sequence[str]) -> list[str]:
    """The words of a command, the claim at hand before them where they leave out its CLAIM.

    Raises:
        NotFound: the first word looks like a claim's number, and the book has no such claim.
    """
    most = None if any(place.is_many for place in places) else len(places)
    before_a_part = len(places) > 1 and places[1].name == "part_number"
    number = number_left_out(world, words, most, before_a_part=before_a_part)
    return [number, *words] if number else list(words)
