"""`claimpack photo add`: pictures put on a claim, named after the shots that its plan asks for."""

from __future__ import annotations

import shlex
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import BookClaim, Caption, Json, Shot, Today
from claimpack.commands.line.declared import Argument, Context, Option
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from collections.abc import Sequence

    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.pictures.photo_filing import TakenIn
    from claimpack.core.claims.claim import Claim
    from claimpack.core.plans.plan import Plan


def add_photos(
    context: Context,
    claim: BookClaim,
    files: Annotated[list[Path], Argument(metavar="FILE…", help="Pictures; they stay where they are.")],
    shot: Shot = "",
    shots: Annotated[
        bool, Option("--shots", help="Name them, in order, after the shots the plan still asks for.")
    ] = False,
    caption: Caption = "",
    today: Today = "",
    json: Json = False,
) -> int:
    """Add pictures to a claim; the vault keeps them."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.named_files import read_from
    from claimpack.commands.desk.one_claim import note_near_shot, number_of, tell_shots
    from claimpack.commands.desk.say import Say
    from claimpack.commands.pictures.photo_filing import Incoming, alike_in_words, doubts, looked_at, take_in

    desk, say, number = Desk(context.obj, today), Say(context.obj), number_of(claim)
    desk.must_take_changes(number)
    given = [(str(file), read_from(desk.world, file, "photo")) for file in files]
    named = _shots_of(desk, say, number, [str(file) for file in files], shot, in_order=shots)
    options = [
        *(("--shots",) if shots else ()),
        *(("--shot", shot) if shot else ()),
        *(("--caption", caption) if caption else ()),
        *(("--today", today) if today else ()),
    ]

    def go_on(good: list[str]) -> str:
        return f"To add the others: {shlex.join(['claimpack', 'photo', 'add', number, *good, *options])}"

    with say.progress("Photos", len(given)) as advance:
        seen = looked_at(given, advance, go_on)
    incoming = [Incoming(*file, each, shown, caption) for file, each, shown in zip(given, seen, named, strict=True)]
    notes = doubts(desk, number, incoming)
    desk.keep_all([path for _, path in given], [each.sha256 for each in seen])
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
        note_near_shot(say, named[0], plan)
    tell_shots(say, changing.claim, plan)
    return 0


def _shots_of(desk: Desk, say: Say, number: str, files: Sequence[str], shot: str, *, in_order: bool) -> list[str]:
    """What each picture shows: the same, or the shots that the plan still asks for, in order.

    Raises:
        BadInput: both were asked for; there are more pictures than shots; a word may mean several shots.
    """
    from claimpack.commands.desk.one_claim import shot_meant, wanted_shots
    from claimpack.errors import BadInput

    claim = desk.book.get(number).claim
    plan = desk.plan_of(claim)
    if not in_order:
        return [shot_meant(say, shot, plan) if shot else ""] * len(files)
    if shot:
        raise BadInput("--shot and --shots contradict each other", do="Leave one of them out.")
    if plan is None:
        why = "Which shots are asked for stands in a plan, and no plan is known that the claim falls under."
        raise BadInput(f"--shots: claim {number} fits no plan", why, "Leave --shots out; --shot TEXT names a picture.")
    wanted = wanted_shots(claim, plan)
    # nothing is named by guess: a wrong name on a picture is found by the maker
    if len(files) > len(wanted):
        raise BadInput(
            f"--shots: {how_many(len(files), 'picture')}, and the plan still asks for {how_many(len(wanted), 'shot')}",
            f"It asks for: {', '.join(wanted)}." if wanted else "Every shot it asks for is there.",
            "Give as many pictures as shots at most, in that order; add the others without --shots.",
        )
    return wanted[: len(files)]


def _tell_added(say: Say, number: str, taken: TakenIn) -> None:
    count = len(taken.added)
    say.answer(f"{number}: {how_many(count, 'photo')} added")
    say.table([(str(place), photo.file, photo.shot) for place, photo, _ in taken.added], right=(0,))
    for each, file in taken.there:
        say.note(f"{each.file} is already on the claim, as {file}; it was not added again.")


def _added_json(claim: Claim, taken: TakenIn, notes: list[str], plan: Plan | None) -> dict[str, Any]:
    from claimpack.commands.desk.one_claim import wanted_shots

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
