"""The last `claimpack photo sort` undone: what nobody has worked on since goes off its claim again."""

from __future__ import annotations

from collections.abc import Sequence
from shlex import quote
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from claimpack.book.entries import Entry
    from claimpack.commands.desk import Desk
    from claimpack.commands.say import Say
    from claimpack.core.claim import Claim, Photo
    from claimpack.core.sorting import SortUndone


class _Sorted(NamedTuple):
    """What a sort put on one claim: its name, the claim before it, the pictures, and their contents by file."""

    sort: str
    before: Claim
    put: tuple[Photo, ...]
    contents: dict[str, str]

    @property
    def claim(self) -> str:
        return self.before.number


def undo_sort(desk: Desk, say: Say, *, yes: bool, json: bool) -> int:
    """Take back what the last sort filed, asking first; pictures that were worked on since are named and stay."""
    from claimpack.commands.photo_filing import claims_in_words, pictures_in_words

    found = _last_sort(desk)
    undone = [(each, _undone(desk.book.get(each.claim), each, _closed(desk, each.claim))) for each in found]
    counted = pictures_in_words(sum(len(each.off) for _, each in undone))
    going = [each.claim for each, what in undone if what.off]
    if not json:
        say.table([row for each, what in undone for row in _rows(each.claim, what)])
    agreed = bool(going) and say.agrees(f"Take {counted} off again?", yes)
    for each in found if agreed or not going else ():
        _take_off(desk, each)
    if json:
        say.document(_document(agreed, undone))
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
    waiting = [event for event in desk.book.told("sort") if (event.facts["sort"], event.claim) not in undone]
    last = [event for event in waiting if event.facts["sort"] == waiting[0].facts["sort"]]
    found = []
    for event in sorted(last, key=lambda event: event.claim):
        had = desk.book.revision_files(event.claim, event.revision - 1)
        has = desk.book.revision_files(event.claim, event.revision)
        new = {path: sha256 for path, sha256 in has.items() if path not in had}
        put = tuple(photo for photo in desk.book.revision(event.claim, event.revision).photos if photo.file in new)
        before = desk.book.revision(event.claim, event.revision - 1)
        found.append(_Sorted(event.facts["sort"], before, put, new))
    return found


def _undone(entry: Entry, sorted_: _Sorted, closed: str = "") -> SortUndone:
    from claimpack.core.sorting import sort_undone

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


def _rows(claim: str, undone: SortUndone) -> list[tuple[str, str, str]]:
    off = [(file, claim, "goes off the claim") for file in undone.off]
    left = [(each.file, claim, f"stays: {each.because}") for each in undone.left]
    return [*off, *left, *((file, claim, "is off the claim already") for file in undone.gone)]


def _document(agreed: bool, undone: Sequence[tuple[_Sorted, SortUndone]]) -> dict[str, Any]:
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
    if _closed(desk, sorted_.claim):
        return
    with desk.changing(sorted_.claim) as changing:
        off = {*_undone(changing.entry, sorted_).off}
        had = {photo.file: photo for photo in sorted_.before.photos}
        photos = [had.get(photo.file) if photo.file in off else photo for photo in changing.claim.photos]
        claim = changing.claim.model_copy(update={"photos": tuple(photo for photo in photos if photo)})
        named = claim.paper_files()
        files = [file for file in changing.entry.files if file.path not in off or file.path in named]
        changing.keep(claim, files=files, why="the last photo sort undone", facts={"undoes": sorted_.sort})
