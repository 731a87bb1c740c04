"""`claimpack photo add`: pictures put on a claim, each content once."""

from __future__ import annotations

import shlex
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from claimpack.commands.options import BookClaim, Caption, Json, Shot

if TYPE_CHECKING:
    from claimpack.commands.photo_filing import TakenIn
    from claimpack.commands.say import Say
    from claimpack.core.claim import Claim
    from claimpack.core.plan import Plan


def add_photos(
    context: typer.Context,
    claim: BookClaim,
    files: Annotated[list[Path], typer.Argument(metavar="FILE…", help="Pictures; they stay where they are.")],
    shot: Shot = "",
    caption: Caption = "",
    json: Json = False,
) -> int:
    """Add pictures to a claim; the vault keeps them."""
    from claimpack.commands.bench import note_near_shot, number_of, tell_shots
    from claimpack.commands.desk import Desk
    from claimpack.commands.photo_filing import Incoming, alike_in_words, doubts, looked_at, take_in
    from claimpack.commands.say import Say

    desk, say, number = Desk(context.obj), Say(context.obj), number_of(claim)
    desk.must_take_changes(number)
    given = [(str(file), desk.world.path(file)) for file in files]
    options = [*(("--shot", shot) if shot else ()), *(("--caption", caption) if caption else ())]

    def go_on(good: list[str]) -> str:
        return f"To add the others: {shlex.join(['claimpack', 'photo', 'add', number, *good, *options])}"

    with say.progress("Photos", len(given)) as advance:
        seen = looked_at(given, advance, go_on)
    incoming = [Incoming(*named, each, shot, caption) for named, each in zip(given, seen, strict=True)]
    notes = doubts(desk, number, incoming)
    for _, path in given:
        desk.vault.keep(path)
    with desk.changing(number) as changing:
        taken = take_in(changing, incoming, f"photos: {', '.join(file.name for file in files)}"[:200])
    notes += alike_in_words(number, taken)
    plan = desk.plan_of(changing.claim)
    if json:
        say.document(_added_json(changing.claim, taken, notes, plan))
        return 0
    _tell_added(say, number, taken)
    for note in notes:
        say.note(note)
    if taken.added:
        note_near_shot(say, shot, plan)
    tell_shots(say, changing.claim, plan)
    return 0


def _tell_added(say: Say, number: str, taken: TakenIn) -> None:
    count = len(taken.added)
    say.answer(f"{number}: {count} photo{'' if count == 1 else 's'} added")
    say.table([(str(place), photo.file, photo.shot) for place, photo, _ in taken.added], right=(0,))
    for each, file in taken.there:
        say.note(f"{each.file} is on the claim already, as {file}; it was not added again.")


def _added_json(claim: Claim, taken: TakenIn, notes: list[str], plan: Plan | None) -> dict[str, Any]:
    from claimpack.commands.bench import wanted_shots

    return {
        "claim": claim.number,
        "added": [
            {"n": place, "file": photo.file, "shot": photo.shot, "sha256": each.seen.sha256, "from": each.file}
            for place, photo, each in taken.added
        ],
        "there": [{"file": file, "from": each.file} for each, file in taken.there],
        "notes": notes,
        "missing_shots": wanted_shots(claim, plan),
    }
