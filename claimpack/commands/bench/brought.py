"""Files brought to a claim: every one is looked at first, and all are taken or none."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple, TypeVar

from claimpack.errors import BadInput, ClaimpackError

_Seen = TypeVar("_Seen")


class Refusing(NamedTuple):
    """How files are spoken of where some cannot be used: what they are, and how to go on with those that can."""

    what: str
    go_on: Callable[[list[str]], str]


def all_looked_at(
    files: Sequence[tuple[str, Path]],
    look: Callable[[Path, str], _Seen],
    advance: Callable[[], None],
    refusing: Refusing,
) -> list[_Seen]:
    """Every file looked at, all or none.

    Args:
        files: each as the user calls it, and where it lies.
        look: looks at one; refuses it where it cannot be used.
        advance: called after each.
        refusing: what is said where one is refused.

    Raises:
        ClaimpackError: a file cannot be used; every one that cannot is named.
    """
    seen: list[_Seen] = []
    good: list[str] = []
    wrong: list[ClaimpackError] = []
    for file, path in files:
        try:
            seen.append(look(path, file))
            good.append(file)
        except ClaimpackError as error:
            wrong.append(error)
        advance()
    # of one file its own refusal says all there is to say
    if len(files) == len(wrong) == 1:
        raise wrong[0]
    if wrong:
        raise _none_added(wrong, len(files), good, refusing)
    return seen


def _none_added(wrong: Sequence[ClaimpackError], count: int, good: list[str], refusing: Refusing) -> BadInput:
    """The refusal of every file because of some: those named, and how to go on without them."""
    first, *others = wrong
    none = f"None of the {count} {refusing.what} was added, so that none is overlooked."
    return BadInput(
        first.what,
        f"{first.why} {first.do}".strip(),
        f"{none} {refusing.go_on(good)}" if good else none,
        tuple(error.what for error in others),
    )
