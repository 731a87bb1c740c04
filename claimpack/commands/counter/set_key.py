"""`claimpack set`: single keys of a claim changed from the command line."""

from __future__ import annotations

from shlex import quote
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Because, ClaimArgument, Json, Today
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.core.claims.claim import Claim
    from claimpack.core.claims.editing.key_paths import Changes, KeyPath


# The keys of a finding that are compared as numbers.
_NUMBERS = ("value", "low", "high")


def set_key(
    context: Context,
    claim: ClaimArgument,
    pairs: Annotated[
        list[str],
        Argument(
            metavar="KEY VALUE...",
            help="As in: unit.hours 112.4 parts[1].unit_cost 96.20; a serial by its role: unit.serials.engine E70-5",
        ),
    ],
    unset: Annotated[bool, Option("--unset", help="Take the named keys away; no values then.")] = False,
    because: Because = "",
    today: Today = "",
    json: Json = False,
) -> int:
    """Change single keys: set 26-0041 unit.hours 112.4."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.gather import is_folder
    from claimpack.commands.desk.options import the_day
    from claimpack.commands.desk.say import Say
    from claimpack.commands.screen.changes import note_begun, tell_changes
    from claimpack.core.claims.days_ahead import refuse_days_ahead, written_days_ahead
    from claimpack.core.claims.editing.changes import differences
    from claimpack.core.claims.measurements import refuse_commas

    say = Say(context.obj)
    changes = _unset(pairs) if unset else _as_meant(context.obj, _changes(pairs), today, claim)
    day = the_day(context.obj, today)
    ahead = written_days_ahead(((str(key), value) for key, value in changes), day)
    refuse_days_ahead(ahead, day, f"claim {claim}")
    measured = [(key, value) for key, value in changes if key.steps[0] == "findings" and key.steps[-1] in _NUMBERS]
    refuse_commas((f"key {key}", value or "") for key, value in measured)
    in_folder = is_folder(context.obj, claim)
    _refuse_files_outside(context.obj, claim, changes, in_folder=in_folder)
    if in_folder:
        before, after = _in_folder(context.obj.path(claim), changes)
    else:
        desk = Desk(context.obj, today)
        before, after = _in_book(desk, say, claim, changes, because)
        if after.dates.repaired and not before.dates.repaired:
            note_begun(say, desk, claim)
    _note_new_roles(say, claim, before, after)
    tell_changes(say, claim, list(differences(before, after)), json=json)
    return 0


# The keys of a claim that hold money.
_MONEY = ("unit_cost", "list_price", "core", "amount", "up_to", "paid")


def _as_meant(world: World, changes: Changes, today: str, claim: str) -> Changes:
    """Values that are days or money, read as people write them; money in the claim's currency."""
    from claimpack.commands.typed.as_written import AMOUNT, DAY, as_meant
    from claimpack.core.claims.claim import Claim
    from claimpack.core.claims.editing.key_paths import is_a_day

    kinds = [AMOUNT if key.steps[-1] in _MONEY else DAY if is_a_day(Claim, key) else "" for key, _ in changes]
    return [
        (key, as_meant(world, kind, f"key {key}", value, today, claim) if kind and value else value)
        for kind, (key, value) in zip(kinds, changes, strict=True)
    ]


def _refuse_files_outside(world: World, claim: str, changes: Changes, *, in_folder: bool) -> None:
    """Refuse a file that lies somewhere else as the name of one of the claim's own, and say what brings it in.

    Raises:
        BadInput: a value names such a file.
    """
    from claimpack.core.facts.fields import names_a_file_inside
    from claimpack.errors import BadInput

    for path, value in changes:
        families = {"proof": ("paper", " --proof receipt"), "papers": ("paper", ""), "photos": ("photo", "")}
        family, option = families.get(str(path.steps[0]), ("", ""))
        if not family or not value or names_a_file_inside(value) or not world.path(value).is_file():
            continue
        name = f"{family}s/{world.path(value).name}"
        copied = f"Copy it into the folder, then: claimpack set {claim} {path} {quote(name)}"
        raise BadInput(
            f"key {path}: {value} is outside the claim",
            "A claim names copies of its own, so that nobody changes them afterwards.",
            copied if in_folder else f"Bring it in: claimpack {family} add {claim} {quote(value)}{option}",
        )


def _note_new_roles(say: Say, claim: str, before: Claim, after: Claim) -> None:
    """Say of a serial's new role that it looks like another one mistyped."""
    from claimpack.core.values.words import is_said, nearest

    known = ["unit", "engine", *(serial.role for serial in before.unit.serials)]
    for serial in after.unit.serials:
        near = None if is_said(serial.role, known) else nearest(serial.role, known)
        if near:
            undone = f"claimpack set {claim} unit.serials.{serial.role.replace(' ', '-')} --unset"
            say.note(f"{serial.role!r} is a new role. If {near!r} was meant: {undone}; then set unit.serials.{near}")


def _changes(pairs: Sequence[str]) -> Changes:
    """The keys and values, two by two.

    Raises:
        BadInput: a key is unknown, or has no value.
    """
    from claimpack.core.claims.claim import Claim
    from claimpack.core.claims.editing.key_paths import key_path
    from claimpack.errors import BadInput

    keys = [key_path(Claim, written) for written in pairs[::2]]
    for key, value in zip(keys, pairs[1::2], strict=False):
        _refuse_never(key, value)
    if len(pairs) % 2:
        raise BadInput(
            f"key {keys[-1]} has no value",
            "Keys and values are given two by two; a value with blanks stands in quotes.",
            f"To take the key away: claimpack set CLAIM {keys[-1]} --unset",
        )
    return list(zip(keys, pairs[1::2], strict=True))


def _refuse_never(key: KeyPath, value: str) -> None:
    """Refuse `never` for a day, and name the key that says so, where there is one."""
    from claimpack.core.claims.claim import Claim
    from claimpack.core.claims.editing.key_paths import is_a_day, key_path
    from claimpack.errors import BadInput

    if value.strip().casefold() != "never" or not is_a_day(Claim, key):
        return
    *above, last = str(key).rpartition(".")
    instead = f"{''.join(above)}never_{last}"
    try:
        key_path(Claim, instead)
    except BadInput:
        return
    raise BadInput(f"key {key}: 'never' is no day", do=f"Say so with: {instead} true")


def _unset(written: Sequence[str]) -> Changes:
    """The keys to take away."""
    from claimpack.core.claims.claim import Claim
    from claimpack.core.claims.editing.key_paths import key_path

    return [(key_path(Claim, name), None) for name in written if name]


def _in_book(desk: Desk, say: Say, number: str, changes: Changes, why: str) -> tuple[Claim, Claim]:
    from claimpack.commands.screen.changes import facts_of, note_verdict
    from claimpack.core.claims.editing.changes import differences
    from claimpack.core.claims.editing.key_values import placed, with_values

    with desk.changing(number) as changing:
        before = changing.claim
        after = with_values(before, placed(before, changes), f"claim {number}")
        if after != before:
            changing.keep(after, why=why, facts=facts_of(list(differences(before, after))))
            note_verdict(say, desk, changing)
    return before, after


def _in_folder(path: Path, changes: Changes) -> tuple[Claim, Claim]:
    """The same in a claim.toml, its comments kept."""
    from claimpack.core.claims.editing.key_values import placed, with_values
    from claimpack.file_contents import read_text
    from claimpack.files import write_atomically
    from claimpack.folder.claim_folder import CLAIM_FILE
    from claimpack.folder.claim_toml import claim_from_toml, with_changes

    file = path if path.name == CLAIM_FILE else path / CLAIM_FILE
    text = read_text(file)
    before = claim_from_toml(text, str(file))
    numbered = placed(before, changes)
    after = with_values(before, numbered, str(file))
    write_atomically(file, with_changes(text, after, numbered).encode())
    return before, after
