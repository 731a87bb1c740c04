"""Values of a record that cannot all be true, told with its keys or with whatever the user gave them by."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from pydantic_core import PydanticCustomError

CONTRADICTION = "contradiction"
"""How a record's refusal for a contradiction is known."""


class Clash(NamedTuple):
    """A sentence with `{}` where each of the keys is named, as in `{} 2026-02-20 lies before {} 2026-03-14`."""

    says: str
    keys: tuple[str, ...]


def contradiction(clashes: Sequence[Clash]) -> PydanticCustomError:
    """The refusal of a record whose keys contradict each other; it carries the clashes, to be told in other names."""
    told = clashes_in_words(clashes, str)
    return PydanticCustomError(CONTRADICTION, "{told}", {"told": told, "clashes": tuple(clashes)})


def clashes_in_words(clashes: Iterable[Clash], name: Callable[[str], str]) -> str:
    """The sentences, every key called by its name."""
    return "; ".join(clash.says.format(*map(name, clash.keys)) for clash in clashes)
