"""What the commands of the bench share: a claim of the book named, its entries numbered from 1."""

from __future__ import annotations

from collections.abc import Sequence
from shlex import quote
from typing import TYPE_CHECKING, Any, TypeVar

from claimpack.core.values.numbers_said import how_many
from claimpack.errors import BadInput, NotFound

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.core.claims.claim import Claim
    from claimpack.core.plans.plan import Plan

_Entry = TypeVar("_Entry")


def number_of(claim: str) -> str:
    """The number of a claim in the book.

    Raises:
        BadInput: it is the path of a claim folder.
    """
    if "/" in claim or claim in (".", ".."):
        raise BadInput(
            f"{claim} is a claim folder, and this command works on claims in the book",
            "The book remembers who changed what, and a folder does not.",
            f"Bring it into the book: claimpack import {claim}; or edit its claim.toml.",
        )
    return claim


def at_place(entries: Sequence[_Entry], place: int, what: str, claim: Claim) -> _Entry:
    """An entry by its number in the claim, from 1.

    Raises:
        NotFound: there is none of that number.
    """
    if 1 <= place <= len(entries):
        return entries[place - 1]
    plural = f"{what}s".replace("entrys", "entries")
    count = how_many(len(entries), what, plural)
    raise NotFound(
        f"claim {claim.number} has {count}, so there is no {what} {place}",
        "Entries are counted from 1, in the order of the claim.",
        f"See them: claimpack {_FAMILIES.get(what, what)} list {claim.number}",
    )


_FAMILIES = {"labour entry": "labour"}


def without(entries: Sequence[_Entry], place: int) -> tuple[_Entry, ...]:
    """The entries without the one of that number, from 1."""
    return (*entries[: place - 1], *entries[place:])


def must_have_failure(claim: Claim, number: int) -> None:
    """Refuse a line for a failure that a claim has not.

    Raises:
        BadInput: it has fewer.
    """
    from claimpack.core.values.numbers_said import how_many
    from claimpack.errors import BadInput

    count = len(claim.failures)
    if number > count:
        raise BadInput(
            f"--failure {number}: claim {claim.number} has {how_many(count, 'failure')}",
            "A line is paid by the verdict on the failure it is for.",
            f"Write the failure down first: claimpack set {claim.number} 'failure[{count + 1}].component' WORD",
        )


def take_off(world: World, claim: str, place: int, entries: str, name: str) -> Any:
    """Take one of a claim's numbered entries off, and return it.

    Args:
        world: where the command runs.
        claim: the claim's number.
        place: the entry's number, from 1.
        entries: the claim's field, as in `parts`.
        name: the entry's field that names it for the history.

    Raises:
        NotFound: there is no such claim or entry.
    """
    from claimpack.commands.desk.desk import Desk

    what = _ENTRIES[entries]
    with Desk(world).changing(number_of(claim)) as changing:
        listed = getattr(changing.claim, entries)
        entry = at_place(listed, place, what, changing.claim)
        left = changing.claim.model_copy(update={entries: without(listed, place)})
        changing.keep(left, why=f"{what} {getattr(entry, name)} removed")
    return entry


_ENTRIES = {"findings": "finding", "parts": "part", "labour": "labour entry", "extras": "extra"}


def wanted_shots(claim: Claim, plan: Plan | None) -> list[str]:
    """The shots that the plan asks for and the claim has not."""
    from claimpack.core.judging.conditions.evidence_asked import missing_shots

    return missing_shots(claim, plan) if plan else []


def tell_shots(say: Say, claim: Claim, plan: Plan | None) -> None:
    """Say which shots are missing, and how to name one; without any picture, how to add one."""
    wanted = wanted_shots(claim, plan)
    if wanted and not claim.photos:
        added = f"Add one: claimpack photo add {claim.number} FILE --shot {quote(wanted[0])}"
        say.note(f"The plan asks for shots: {', '.join(wanted)}. {added}")
    elif wanted:
        named = f"Say what a picture shows: claimpack photo shot {claim.number} N TEXT"
        say.note(f"The plan asks for more shots: {', '.join(wanted)}. {named}")


def shot_meant(say: Say, shot: str, plan: Plan | None) -> str:
    """The shot of the plan that a word of it means, which is told; else the shot as it was said.

    Raises:
        BadInput: it may be one of several.
    """
    from claimpack.core.values.typed.choices import meant_by

    meant = meant_by(shot, plan.requires.shot_words() if plan else ())
    if len(meant) > 1:
        raise BadInput(
            f"{shot!r} may be the shot {' or '.join(map(repr, meant))}",
            "A shot under the wrong name counts as missing.",
            "Say which, with one word more.",
        )
    if meant and meant[0] != shot:
        say.note(f"{shot!r} is taken for the shot {meant[0]!r}.")
    return meant[0] if meant else shot


def note_near_shot(say: Say, shot: str, plan: Plan | None) -> None:
    """Say of a shot that it looks like one the plan asks for, mistyped."""
    from claimpack.core.values.words import is_said, nearest

    wanted = plan.requires.shot_words() if plan else ()
    near = None if not shot or is_said(shot, wanted) else nearest(shot, wanted)
    if near:
        say.note(f"The plan asks for a shot {near!r}; {shot!r} is another word, and does not count as it.")
