"""`claimpack set`: single keys of a claim changed from the command line."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from claimpack.commands.options import Because, ClaimArgument, Json, Today

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from claimpack.commands.desk import Desk
    from claimpack.commands.say import Say
    from claimpack.core.claim import Claim
    from claimpack.core.key_paths import KeyPath

    Changes = Sequence[tuple[KeyPath, str | None]]


def set_key(
    context: typer.Context,
    claim: ClaimArgument,
    pairs: Annotated[
        list[str], typer.Argument(metavar="KEY VALUE...", help="As in: unit.hours 112.4 parts[1].unit_cost 96.20")
    ],
    unset: Annotated[bool, typer.Option("--unset", help="Take the named keys away; no values then.")] = False,
    because: Because = "",
    today: Today = "",
    json: Json = False,
) -> int:
    """Change single keys: set 26-0041 unit.hours 112.4."""
    from claimpack.commands.changes import tell_changes
    from claimpack.commands.desk import Desk
    from claimpack.commands.gather import is_folder
    from claimpack.commands.say import Say
    from claimpack.core.differences import differences

    say = Say(context.obj)
    changes = _unset(pairs) if unset else _changes(pairs)
    if is_folder(context.obj, claim):
        before, after = _in_folder(context.obj.folder / claim, changes)
    else:
        before, after = _in_book(Desk(context.obj, today), say, claim, changes, because)
    tell_changes(say, claim, list(differences(before, after)), json=json)
    return 0


def _changes(pairs: Sequence[str]) -> Changes:
    """The keys and values, two by two.

    Raises:
        BadInput: a key is unknown, or has no value.
    """
    from claimpack.core.claim import Claim
    from claimpack.core.key_paths import key_path
    from claimpack.errors import BadInput

    keys = [key_path(Claim, written) for written in pairs[::2]]
    if len(pairs) % 2:
        raise BadInput(
            f"key {keys[-1]} has no value",
            "Keys and values are given two by two; a value with blanks stands in quotes.",
            f"To take the key away: claimpack set CLAIM {keys[-1]} --unset",
        )
    return list(zip(keys, pairs[1::2], strict=True))


def _unset(written: Sequence[str]) -> Changes:
    """The keys to take away, the last item of a list first, so that the numbers of the others stay true."""
    from claimpack.core.claim import Claim
    from claimpack.core.key_paths import key_path

    keys = [key_path(Claim, name) for name in written if name]
    return [(key, None) for key in sorted(keys, key=lambda key: key.steps, reverse=True)]


def _in_book(desk: Desk, say: Say, number: str, changes: Changes, why: str) -> tuple[Claim, Claim]:
    from claimpack.commands.changes import facts_of, note_filed, note_verdict
    from claimpack.core.differences import differences
    from claimpack.core.key_paths import with_values

    with desk.changing(number) as changing:
        before = changing.claim
        after = with_values(before, changes, f"claim {number}")
        if after != before:
            changing.keep(after, why=why, facts=facts_of(list(differences(before, after))))
            note_filed(say, number, changing.entry.standing.state)
            note_verdict(say, desk, changing)
    return before, after


def _in_folder(path: Path, changes: Changes) -> tuple[Claim, Claim]:
    """The same in a claim.toml, its comments kept."""
    from claimpack.claim_folder import CLAIM_FILE
    from claimpack.claim_toml import claim_from_toml, with_changes
    from claimpack.core.key_paths import with_values
    from claimpack.files import read_text, write_atomically

    file = path if path.name == CLAIM_FILE else path / CLAIM_FILE
    text = read_text(file)
    before = claim_from_toml(text, str(file))
    after = with_values(before, changes, str(file))
    write_atomically(file, with_changes(text, after, changes).encode())
    return before, after
