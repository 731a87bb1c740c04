"""`claimpack photo sort`: a phone's worth of pictures filed by the tags in them."""

from __future__ import annotations

import datetime as dt
import uuid
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, NamedTuple

import typer

from claimpack.commands.options import Json, Yes

if TYPE_CHECKING:
    from claimpack.book.entries import Entry
    from claimpack.commands.desk import Desk
    from claimpack.commands.photo_filing import Incoming
    from claimpack.commands.say import Say
    from claimpack.core.sorting import Sorting


class _Plan(NamedTuple):
    """What a sort would do: pictures by claim, those that are there already by their file, the decision behind it."""

    folder: Path
    sorting: Sorting
    incoming: dict[str, list[Incoming]]
    there: dict[str, str]

    @property
    def total(self) -> int:
        return sum(len(pictures) for pictures in self.incoming.values())


def sort_photos(
    context: typer.Context,
    folder: Annotated[
        Path | None, typer.Argument(metavar="FOLDER", help="Where the pictures lie; they stay there.")
    ] = None,
    gap: Annotated[
        int, typer.Option(metavar="MINUTES", min=1, max=1440, help="The longest time between two pictures of a claim.")
    ] = 20,
    undo: Annotated[bool, typer.Option("--undo", help="Take back what the last sort filed.")] = False,
    yes: Yes = False,
    json: Json = False,
) -> int:
    """File a phone's worth of pictures by tag and time."""
    from claimpack.commands.desk import Desk
    from claimpack.commands.photo_filing import claims_in_words, doubts, pictures_in_words
    from claimpack.commands.photo_unsort import undo_sort
    from claimpack.commands.say import Say
    from claimpack.errors import BadInput

    desk, say = Desk(context.obj), Say(context.obj)
    if undo:
        return undo_sort(desk, say, yes=yes, json=json)
    if folder is None:
        raise BadInput(
            "photo sort needs the folder with the pictures, or --undo",
            "It files pictures by the tags they show and by time.",
            "As in: claimpack photo sort ~/phone",
        )
    plan = _planned(desk, say, folder, dt.timedelta(minutes=gap))
    if not json:
        _show(say, plan)
    for note in [note for number, pictures in plan.incoming.items() for note in doubts(desk, number, pictures)]:
        say.note(note)
    counted, claims = pictures_in_words(plan.total), claims_in_words(plan.incoming)
    agreed = bool(plan.total) and say.agrees(f"File {counted} on {claims}?", yes)
    sort, notes = _do(desk, plan) if agreed else ("", [])
    if json:
        say.document(_as_json(plan, sort, notes))
    elif agreed:
        for note in notes:
            say.note(note)
        say.answer(f"{counted} filed on {claims}.")
        say.note("To take it back: claimpack photo sort --undo")
    return 0 if agreed or not plan.total else 4


def _planned(desk: Desk, say: Say, named: Path, gap: dt.timedelta) -> _Plan:
    """Gather and decide: nothing is changed."""
    from claimpack.commands.photo_filing import Incoming, looked_at
    from claimpack.core.sorting import TAG_SHOT, LeftAlone, claim_in, sort_pictures
    from claimpack.evidence.tag_reader import search_all

    folder = desk.world.path(named)
    files = _files(folder)
    with say.progress("Looking for tags", len(files)) as advance:
        found = search_all(files, advance)
    numbers = sorted({number for picture in found.pictures for code in picture.codes if (number := claim_in(code))})
    entries = {entry.claim.number: entry for entry in desk.book.entries(numbers)}
    states = {number: entry.standing.state for number, entry in entries.items()}
    sorting = sort_pictures(found.pictures, states, gap)
    sorting = sorting._replace(left=(*sorting.left, *(LeftAlone(*each) for each in found.unread)))
    with say.progress("Photos", len(sorting.filed)) as advance:
        given = [(each.file, folder / each.file) for each in sorting.filed]
        seen = looked_at(given, advance, lambda _good: "Move what cannot be used out of the folder, and sort again.")
    incoming: dict[str, list[Incoming]] = {}
    there: dict[str, str] = {}
    for each, look in zip(sorting.filed, seen, strict=True):
        known = _known(entries[each.claim], incoming.get(each.claim, []))
        if look.sha256 in known:
            there[each.file] = known[look.sha256]
            continue
        picture = Incoming(each.file, folder / each.file, look, TAG_SHOT if each.tag else "")
        incoming.setdefault(each.claim, []).append(picture)
    return _Plan(named, sorting, incoming, there)


def _known(entry: Entry, coming: list[Incoming]) -> dict[str, str]:
    shown = {photo.file for photo in entry.claim.photos}
    kept = {file.sha256: file.path for file in entry.files if file.path in shown}
    return kept | {each.seen.sha256: each.file for each in coming}


def _files(folder: Path) -> list[tuple[str, Path]]:
    from claimpack.errors import NotFound

    if not folder.is_dir():
        raise NotFound(f"{folder}: there is no such folder", do="Give the folder that the pictures were copied into.")
    found = [file for file in folder.iterdir() if file.is_file() and not file.name.startswith(".")]
    return [(file.name, file) for file in sorted(found)]


def _show(say: Say, plan: _Plan) -> None:
    rows = [
        (each.file, each.claim, "there already" if each.file in plan.there else each.because)
        for each in plan.sorting.filed
    ]
    say.answer(
        f"{plan.folder}: {plan.total} to file, {len(plan.there)} there already, {len(plan.sorting.left)} left alone"
    )
    say.table([("picture", "claim", ""), *rows] if rows else [])
    if plan.sorting.left:
        say.heading("Left alone")
        say.table(plan.sorting.left)


def _do(desk: Desk, plan: _Plan) -> tuple[str, list[str]]:
    """File every picture: first into the vault, then a change a claim; returns the sort's name, and its doubts."""
    from claimpack.commands.photo_filing import alike_in_words, take_in

    sort, notes = uuid.uuid4().hex[:12], list[str]()
    for pictures in plan.incoming.values():
        for each in pictures:
            desk.vault.keep(each.path)
    for number, pictures in plan.incoming.items():
        with desk.changing(number) as changing:
            taken = take_in(changing, pictures, f"{len(pictures)} photos sorted from {plan.folder.name}", sort)
        notes += alike_in_words(number, taken)
    return sort, notes


def _as_json(plan: _Plan, sort: str, notes: list[str]) -> dict[str, Any]:
    return {
        "done": bool(sort),
        "sort": sort or None,
        "filed": [{**each._asdict(), "there": plan.there.get(each.file)} for each in plan.sorting.filed],
        "left": [each._asdict() for each in plan.sorting.left],
        "notes": notes,
    }
