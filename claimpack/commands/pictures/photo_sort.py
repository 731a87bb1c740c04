"""`claimpack photo sort`: a phone's worth of pictures filed by the tags in them, and taken off again."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Sequence
from pathlib import Path
from shlex import quote
from typing import TYPE_CHECKING, Annotated, Any, NamedTuple

from claimpack.commands.desk.options import Json, Yes
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.pictures.photo_filing import Incoming
    from claimpack.core.claims.claim import Claim
    from claimpack.core.facts.pictures import Photo
    from claimpack.core.steps.photo_sorting import Sorting, SortUndone


class _PlannedSort(NamedTuple):
    """What a sort would do: pictures by claim, those that are there already by their file, the decision behind it."""

    folder: Path
    sorting: Sorting
    incoming: dict[str, list[Incoming]]
    there: dict[str, str]

    @property
    def total(self) -> int:
        return sum(len(pictures) for pictures in self.incoming.values())


def sort_photos(
    context: Context,
    folder: Annotated[Path | None, Argument(metavar="FOLDER", help="Where the pictures are; they stay there.")] = None,
    gap: Annotated[
        int, Option(metavar="MINUTES", min=1, max=1440, help="The longest time between two pictures of a claim.")
    ] = 20,
    undo: Annotated[bool, Option("--undo", help="Take back what the last sort filed.")] = False,
    yes: Yes = False,
    json: Json = False,
) -> int:
    """File a phone's worth of pictures by tag and time."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.pictures.photo_filing import claims_in_words, doubts, pictures_in_words
    from claimpack.commands.talk.yes_or_no import agrees
    from claimpack.errors import BadInput

    desk, say = Desk(context.obj), Say(context.obj)
    if undo:
        return _undo_sort(desk, say, yes=yes, json=json)
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
    agreed = bool(plan.total) and agrees(say, f"File {counted} on {claims}?", yes)
    sort, notes = _do(desk, plan) if agreed else ("", [])
    if json:
        say.document(_sort_json(plan, sort, notes))
    elif agreed:
        for note in notes:
            say.note(note)
        say.answer(f"{counted} filed on {claims}.")
        say.note("To take it back: claimpack photo sort --undo")
    return 0 if agreed or not plan.total else 4


def _planned(desk: Desk, say: Say, named: Path, gap: dt.timedelta) -> _PlannedSort:
    """Gather and decide: nothing is changed."""
    from claimpack.commands.pictures.photo_filing import Incoming, looked_at
    from claimpack.core.steps.photo_sorting import TAG_SHOT, LeftAlone, claim_in, sort_pictures
    from claimpack.evidence.reading.tag_reader import search_all

    folder = desk.world.path(named)
    files = _files(folder)
    with say.progress("Looking for tags", len(files)) as advance:
        found = search_all(files, advance)
    numbers = sorted({number for picture in found.pictures for code in picture.codes if (number := claim_in(code))})
    entries = {entry.claim.number: entry for entry in desk.book.entries(numbers)}
    states = {
        number: desk.shops.other(entry.standing.shop) or entry.standing.state for number, entry in entries.items()
    }
    sorting = sort_pictures(found.pictures, states, gap)
    sorting = sorting._replace(left=(*sorting.left, *(LeftAlone(*each) for each in found.unread)))
    with say.progress("Photos", len(sorting.filed)) as advance:
        given = [(each.file, folder / each.file) for each in sorting.filed]
        seen = looked_at(given, advance, lambda _good: "Move what cannot be used out of the folder, and sort again.")
    incoming: dict[str, list[Incoming]] = {}
    there: dict[str, str] = {}
    for each, look in zip(sorting.filed, seen, strict=True):
        # phones keep copies, so the same picture may come twice in one folder
        known = _known(entries[each.claim], incoming.get(each.claim, []))
        if look.sha256 in known:
            there[each.file] = known[look.sha256]
            continue
        picture = Incoming(each.file, folder / each.file, look, TAG_SHOT if each.tag else "")
        incoming.setdefault(each.claim, []).append(picture)
    return _PlannedSort(named, sorting, incoming, there)


def _known(entry: Entry, coming: list[Incoming]) -> dict[str, str]:
    shown = {photo.file for photo in entry.claim.photos}
    kept = {file.sha256: file.path for file in entry.files if file.path in shown}
    return kept | {each.seen.sha256: each.file for each in coming}


def _files(folder: Path) -> list[tuple[str, Path]]:
    from claimpack.errors import NotFound

    if not folder.is_dir():
        raise NotFound(f"{folder}: there is no such folder", do="Give the folder that the pictures were copied into.")
    # systems leave thumbnails beside pictures under names with a dot
    found = [file for file in folder.iterdir() if file.is_file() and not file.name.startswith(".")]
    return [(file.name, file) for file in sorted(found)]


def _show(say: Say, plan: _PlannedSort) -> None:
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


def _do(desk: Desk, plan: _PlannedSort) -> tuple[str, list[str]]:
    """File every picture: first into the vault, then a change a claim; returns the sort's name, and its doubts."""
    from claimpack.commands.pictures.photo_filing import alike_in_words, take_in

    sort, notes = uuid.uuid4().hex[:12], list[str]()
    # Files first: a claim must never name a picture that the vault does not hold.
    incoming = [each for pictures in plan.incoming.values() for each in pictures]
    desk.keep_all([each.path for each in incoming], [each.seen.sha256 for each in incoming])
    for number, pictures in plan.incoming.items():
        with desk.changing(number) as changing:
            taken = take_in(changing, pictures, f"{len(pictures)} photos sorted from {plan.folder.name}", sort)
        notes += alike_in_words(number, taken)
    return sort, notes


def _sort_json(plan: _PlannedSort, sort: str, notes: list[str]) -> dict[str, Any]:
    return {
        "done": bool(sort),
        "sort": sort or None,
        "filed": [{**each._asdict(), "there": plan.there.get(each.file)} for each in plan.sorting.filed],
        "left": [each._asdict() for each in plan.sorting.left],
        "notes": notes,
    }


class _Sorted(NamedTuple):
    """What a sort put on one claim: its name, the claim before it, the pictures, and their contents by file."""

    sort: str
    before: Claim
    put: tuple[Photo, ...]
    contents: dict[str, str]

    @property
    def claim(self) -> str:
        return self.before.number


def _undo_sort(desk: Desk, say: Say, *, yes: bool, json: bool) -> int:
    """Take back what the last sort filed, asking first; pictures that were worked on since are named and stay."""
    from claimpack.commands.pictures.photo_filing import claims_in_words, pictures_in_words
    from claimpack.commands.talk.yes_or_no import agrees

    found = _last_sort(desk)
    undone = [(each, _undone(desk.book.get(each.claim), each, _closed(desk, each.claim))) for each in found]
    counted = pictures_in_words(sum(len(each.off) for _, each in undone))
    going = [each.claim for each, what in undone if what.off]
    if not json:
        say.table([row for each, what in undone for row in _undoing_rows(each.claim, what)])
    agreed = bool(going) and agrees(say, f"Take {counted} off again?", yes)
    for each in found if agreed or not going else ():
        _take_off(desk, each)
    if json:
        say.document(_undoing_json(agreed, undone))
    elif agreed:
        say.answer(f"{counted} taken off {claims_in_words(going)}.")
        say.note("The vault keeps them, and the folder they came from was never touched.")
    elif not going:
        say.note("Nothing is left to take off." if found else "There is no sort left to undo.")
    if not json and (agreed or not going):
        _note_left(desk, say, undone)
    return 0 if agreed or not going else 4


def _last_sort(desk: Desk) -> list[_Sorted]:
    """What the last sort that is not undone put on each claim."""
    undone = {(event.facts["undoes"], event.claim) for event in desk.book.told("undoes")}
    # by claim: an undo may have left one out that was settled
    waiting = [event for event in desk.book.told("sort") if (event.facts["sort"], event.claim) not in undone]
    last = [event for event in waiting if event.facts["sort"] == waiting[0].facts["sort"]]
    found = []
    for event in sorted(last, key=lambda event: event.claim):
        # what a sort put there is what the revision has and the one before had not
        had = desk.book.revision_files(event.claim, event.revision - 1)
        has = desk.book.revision_files(event.claim, event.revision)
        new = {path: sha256 for path, sha256 in has.items() if path not in had}
        put = tuple(photo for photo in desk.book.revision(event.claim, event.revision).photos if photo.file in new)
        before = desk.book.revision(event.claim, event.revision - 1)
        found.append(_Sorted(event.facts["sort"], before, put, new))
    return found


def _undone(entry: Entry, sorted_: _Sorted, closed: str = "") -> SortUndone:
    from claimpack.core.steps.photo_sorting import sort_undone

    # by content: another picture may have taken the name since
    kept = {file.path for file in entry.files if sorted_.contents.get(file.path) == file.sha256}
    return sort_undone(sorted_.put, [photo for photo in entry.claim.photos if photo.file in kept], closed)


def _closed(desk: Desk, number: str) -> str:
    """Why a claim takes no changes; empty where it does."""
    from claimpack.errors import WrongState

    try:
        desk.must_take_changes(number)
    except WrongState:
        return f"the claim is {desk.book.get(number).standing.state}"
    return ""


def _undoing_rows(claim: str, undone: SortUndone) -> list[tuple[str, str, str]]:
    off = [(file, claim, "goes off the claim") for file in undone.off]
    left = [(each.file, claim, f"stays: {each.because}") for each in undone.left]
    return [*off, *left, *((file, claim, "is off the claim already") for file in undone.gone)]


def _undoing_json(agreed: bool, undone: Sequence[tuple[_Sorted, SortUndone]]) -> dict[str, Any]:
    claims = [
        {
            "claim": each.claim,
            "files": sorted(what.off),
            "left": [left._asdict() for left in what.left],
            "gone": sorted(what.gone),
        }
        for each, what in undone
    ]
    return {"done": agreed, "sort": undone[0][0].sort if undone else None, "claims": claims}


def _note_left(desk: Desk, say: Say, undone: Sequence[tuple[_Sorted, SortUndone]]) -> None:
    for each, what in undone:
        closed = _closed(desk, each.claim)
        for left in what.left:
            off = "" if closed else f" To take it off: claimpack photo remove {each.claim} {quote(left.file)}"
            say.note(f"{left.file} stays on claim {each.claim}: {left.because}.{off}")


def _take_off(desk: Desk, sorted_: _Sorted) -> None:
    # asked again: it may have been filed while the question stood on the screen
    if _closed(desk, sorted_.claim):
        return
    with desk.changing(sorted_.claim) as changing:
        off = {*_undone(changing.entry, sorted_).off}
        # a picture may have taken the place of a missing one, whose entry comes back
        had = {photo.file: photo for photo in sorted_.before.photos}
        photos = [had.get(photo.file) if photo.file in off else photo for photo in changing.claim.photos]
        claim = changing.claim.model_copy(update={"photos": tuple(photo for photo in photos if photo)})
        named = claim.paper_files()
        files = [file for file in changing.entry.files if file.path not in off or file.path in named]
        changing.keep(claim, files=files, why="the last photo sort undone", facts={"undoes": sorted_.sort})
