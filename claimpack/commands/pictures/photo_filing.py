"""Pictures put on a claim of the book: looked at, kept in the vault, named, each content once."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, NamedTuple

from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from claimpack.book.tables.rows import KeptFile
    from claimpack.commands.desk.changing import Changing
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.gather import Case
    from claimpack.core.claims.claim import Claim
    from claimpack.core.clauses.picture_doubts import PictureDoubt, PictureLimits
    from claimpack.core.facts.pictures import Photo
    from claimpack.core.plans.plan import Plan
    from claimpack.evidence.pictures.likeness import Seen
    from claimpack.shop import Shop

_NAMED = {"shot": "--shot", "caption": "--caption", "file": "FILE"}


class Incoming(NamedTuple):
    """A picture about to go on a claim: how the user calls it, where it lies, what was seen, what it shows."""

    file: str
    path: Path
    seen: Seen
    shot: str = ""
    caption: str = ""
    called: str = ""
    """How it is called on the claim, where that is not the name it lies under."""

    @property
    def name(self) -> str:
        """The name it is filed under, where that is free."""
        return self.called or self.path.name


class TakenIn(NamedTuple):
    """What became of pictures: those added, by their place in the claim, and those that were there already.

    Of those added, alike are the ones that look like another picture of the claim, with their place and its file;
    papers the ones whose content is a paper of the claim as well, with its file.
    """

    added: tuple[tuple[int, Photo, Incoming], ...]
    there: tuple[tuple[Incoming, str], ...]
    alike: tuple[tuple[int, Incoming, str], ...] = ()
    papers: tuple[tuple[int, Incoming, str], ...] = ()


def looked_at(
    files: Sequence[tuple[str, Path]], advance: Callable[[], None], go_on: Callable[[list[str]], str]
) -> list[Seen]:
    """Pictures looked at, all or none.

    Args:
        files: each as the user calls it, and where it lies.
        advance: called after each.
        go_on: how to go on with those that can be used, in words, where others cannot.

    Raises:
        ClaimpackError: a file is no picture that can be used; every one that is none is named.
    """
    from claimpack.commands.bench.brought import Refusing, all_looked_at
    from claimpack.evidence.pictures.likeness import look_at

    return all_looked_at(files, look_at, advance, Refusing("pictures", go_on))


def take_in(changing: Changing, incoming: Iterable[Incoming], why: str, sort: str = "") -> TakenIn:
    """Put pictures on the claim being changed; one that it shows already is not added twice.

    Args:
        changing: the claim being changed.
        incoming: the pictures, already kept in the vault.
        why: for the history.
        sort: the sort that they come from, so that it can be undone.
    """
    from claimpack.core.values.likeness import look_alike

    claim, files = changing.claim, list(changing.entry.files)
    shown = {photo.file for photo in claim.photos}
    known = {file.sha256: file.path for file in files if file.path in shown}
    others = {file.sha256: file.path for file in files if file.path not in shown}
    added: list[tuple[int, Photo, Incoming]] = []
    there: list[tuple[Incoming, str]] = []
    alike: list[tuple[int, Incoming, str]] = []
    for each in incoming:
        if each.seen.sha256 in known:
            there.append((each, known[each.seen.sha256]))
            continue
        # before it is put among the others, or it would look like itself
        like = next((file.path for file in files if look_alike(file.likeness, each.seen.likeness)), "")
        place, photo, kept = _named(claim, files, each)
        claim = claim.model_copy(update={"photos": (*claim.photos[: place - 1], photo, *claim.photos[place:])})
        files.append(kept)
        known[kept.sha256] = kept.path
        added.append((place, photo, each))
        if like:
            alike.append((place, each, like))
    if added:
        changing.keep(claim, files=files, why=why, facts={"sort": sort} if sort else None)
    papers = [(place, each, others[each.seen.sha256]) for place, _, each in added if each.seen.sha256 in others]
    return TakenIn(tuple(added), tuple(there), tuple(alike), tuple(papers))


def alike_in_words(number: str, taken: TakenIn) -> list[str]:
    """What to say of pictures that were added and are a paper of the claim as well, or look like another of it."""
    papers = [
        f"{each.file} is on the claim as a paper too, as {file}; it was added as {place} all the same."
        for place, each, file in taken.papers
    ]
    return papers + [
        f"{each.file} looks like {like}, saved again or taken twice; it was added as {place}. "
        f"To take it off: claimpack photo remove {number} {place}"
        for place, each, like in taken.alike
    ]


def pictures_in_words(count: int) -> str:
    """So many pictures."""
    return how_many(count, "picture")


def claims_in_words(numbers: Iterable[str]) -> str:
    """The claim of that number, or how many they are."""
    claims = sorted(numbers)
    return f"claim {claims[0]}" if len(claims) == 1 else f"{len(claims)} claims"


def _named(claim: Claim, files: Sequence[KeptFile], each: Incoming) -> tuple[int, Photo, KeptFile]:
    """A picture by its place in the claim, from 1; one takes the place of a picture of its name that is missing."""
    from claimpack.book.tables.rows import KeptFile
    from claimpack.core.claims.file_names import free_name
    from claimpack.core.facts.keys import record_from
    from claimpack.core.facts.pictures import Photo

    named, kept = [photo.file for photo in claim.photos], {file.path for file in files}
    # among papers as well, and in any case: disks differ in which names are the same
    free = f"photos/{free_name(each.name, {PurePosixPath(path).name for path in (*kept, *named)})}"
    file = next((name for name in named if name not in kept and _is_called(name, each.name)), free)
    photo = record_from(Photo, {"file": file, "shot": each.shot, "caption": each.caption}, each.file, _NAMED)
    seen, place = each.seen, len(named) + 1
    if file in named:
        place = named.index(file) + 1
        said = {key: value for key, value in (("shot", photo.shot), ("caption", photo.caption)) if value}
        # what was read off the picture that is gone says nothing of this one
        unread: dict[str, object] = {"read": ()} if claim.photos[place - 1].read else {}
        photo = claim.photos[place - 1].model_copy(update={**said, **unread})
    return place, photo, KeptFile(file, seen.sha256, seen.bytes, seen.taken, seen.likeness)


def _is_called(file: str, name: str) -> bool:
    return PurePosixPath(file).name.casefold() == name.casefold()


def doubts(desk: Desk, number: str, incoming: Iterable[Incoming]) -> list[str]:
    """What is doubtful about pictures, a line each: how they came out, their day, the same one on another claim."""
    from claimpack.core.clauses.picture_doubts import of_another_claim

    pictures = list(incoming)
    found = doubted(desk, desk.book.get(number).claim, pictures)
    elsewhere = desk.book.with_content({each.seen.sha256 for each in pictures})
    told = []
    for each in pictures:
        others = [claim for claim in elsewhere.get(each.seen.sha256, []) if claim != number]
        told += [doubt.said(each.file) for doubt in (*of_another_claim(others), *found[each.file])]
    return list(dict.fromkeys(told))


def doubted(desk: Desk, claim: Claim, incoming: Sequence[Incoming]) -> dict[str, list[PictureDoubt]]:
    """What is doubtful about how pictures for a claim came out, and about the day they were taken, by file."""
    from claimpack.core.clauses.picture_doubts import of_another_day, picture_doubts
    from claimpack.evidence.pictures.measuring import measured_all

    limits = picture_limits(desk.plan_of(claim), desk.shop)
    seen = measured_all([(each.file, each.path) for each in incoming])
    return {
        each.file: picture_doubts(picture, each.shot, limits)
        + of_another_day(each.seen.taken, claim.dates.presented, desk.day)
        for each, picture in zip(incoming, seen, strict=True)
    }


def picture_limits(plan: Plan | None, shop: Shop) -> PictureLimits:
    """From where on pictures are doubted: as the plan says, else the shop, else this tool."""
    from claimpack.core.clauses.picture_doubts import USUAL, PictureLimits

    asked = plan.requires.pictures if plan else PictureLimits()
    # the maker's wish comes first, since it is the maker who refuses
    return asked.over(shop.settings.pictures).over(USUAL)


def picture_notes(case: Case) -> list[tuple[str, PictureDoubt]]:
    """What is doubtful about the pictures of a claim that was not filed yet, each with its file.

    A picture that the claim names and nobody has is told of elsewhere.
    """
    from claimpack.core.clauses.picture_doubts import alike, picture_doubts
    from claimpack.evidence.pictures.measuring import measured_all

    claim, entry = case.claim, case.entry
    # a unit that has left cannot be photographed again
    if not claim.photos or claim.dates.returned or (entry and entry.standing.filed):
        return []
    kept = {file.path for file in entry.files} if entry else None
    photos = [photo for photo in claim.photos if kept is None or photo.file in kept]
    seen = measured_all([(photo.file, case.file(photo.file)) for photo in photos])
    limits = picture_limits(case.assessment.plan, case.shop)
    twice = alike([(photo.file, picture) for photo, picture in zip(photos, seen, strict=True)])
    found = []
    for photo, picture in zip(photos, seen, strict=True):
        found += [(photo.file, doubt) for doubt in picture_doubts(picture, photo.shot, limits)]
        found += [(photo.file, twice[photo.file])] if photo.file in twice else []
    return found


def index_of(claim: Claim, place: str) -> int:
    """Where a picture stands in the claim, from 0, by its number or its file.

    Raises:
        NotFound: there is none of that number or name.
    """
    from claimpack.commands.desk.one_claim import at_place
    from claimpack.core.values.words import did_you_mean
    from claimpack.errors import NotFound

    if place.isdecimal():
        at_place(claim.photos, int(place), "photo", claim)
        return int(place) - 1
    names = [photo.file for photo in claim.photos]
    for index, name in enumerate(names):
        if place.casefold() in (name.casefold(), name.casefold().removeprefix("photos/")):
            return index
    raise NotFound(
        f"claim {claim.number} has no picture {place!r}",
        did_you_mean(place, names),
        f"See them: claimpack photo list {claim.number}",
    )
