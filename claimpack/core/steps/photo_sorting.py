"""A phone's worth of pictures: which claim each belongs to, by the tags in the frame and the time between pictures."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from claimpack.core.events.states import OPEN

if TYPE_CHECKING:
    from claimpack.core.facts.pictures import Photo

TAG_SHOT = "tag"
"""What a picture that shows a tag is filed as."""

_CODE = re.compile(r"([A-Za-z0-9][A-Za-z0-9-]{0,23})/[1-9]\d{0,3}", re.ASCII)


class PhotoToSort(NamedTuple):
    """A picture to be filed: its file, when the camera took it, and what the barcodes in it say."""

    file: str
    taken: dt.datetime | None
    codes: tuple[str, ...] = ()


class SortedPhoto(NamedTuple):
    """A picture and the claim it belongs to; tag tells whether it shows the claim's tag itself."""

    file: str
    claim: str
    because: str
    tag: bool


class LeftAlone(NamedTuple):
    """A picture that is not filed, and why."""

    file: str
    because: str


class Sorting(NamedTuple):
    """What is to be done with every picture, in order of time taken; those without a time come last."""

    filed: tuple[SortedPhoto, ...]
    left: tuple[LeftAlone, ...]


class _Tag(NamedTuple):
    """The tag that pictures follow: the claim where it may take pictures, else why not."""

    claim: str
    file: str
    refused: str = ""


class SortUndone(NamedTuple):
    """What becomes of the pictures a sort put on a claim: taken off, left with what was done since, or gone before."""

    off: tuple[str, ...] = ()
    left: tuple[LeftAlone, ...] = ()
    gone: tuple[str, ...] = ()


def sort_undone(put: Iterable[Photo], there: Iterable[Photo], closed: str = "") -> SortUndone:
    """Which pictures of a sort are taken off again: those that nobody has worked on since.

    Args:
        put: the pictures as the sort put them on the claim.
        there: the pictures on the claim now that are still of the content the sort put there.
        closed: why the claim takes no changes; empty where it does.

    Source: a rule of this tool's, no source.
    """
    now = {photo.file: photo for photo in there}
    left: list[LeftAlone] = []
    off: list[str] = []
    gone: list[str] = []
    for photo in put:
        # work somebody put into a picture is not thrown away with the sort
        because = closed or _worked_on(photo, now.get(photo.file, photo))
        if photo.file not in now:
            gone.append(photo.file)
        elif because:
            left.append(LeftAlone(photo.file, because))
        else:
            off.append(photo.file)
    return SortUndone(tuple(off), tuple(left), tuple(gone))


def _worked_on(before: Photo, now: Photo) -> str:
    done = [word for word, key in _WORK.items() if getattr(before, key) != getattr(now, key)]
    return f"{', '.join(done)} since" if done else ""


_WORK = {"named": "shot", "captioned": "caption", "marked": "marks"}


def claim_in(code: str) -> str | None:
    """The claim number in a tag's code, `NUMBER/INDEX`; None where a code is none of ours."""
    found = _CODE.fullmatch(code)
    return found[1] if found else None


def sort_pictures(
    pictures: Sequence[PhotoToSort], states: Mapping[str, str], gap: dt.timedelta, otherwise: str = ""
) -> Sorting:
    """The claim of every picture: the one whose tag it shows, else that of the last tag before it.

    A picture follows a tag as long as no two pictures on the way to it lie further apart than the gap. What comes
    before any tag, after a longer gap, without a time, or after a tag that decides nothing is left alone.

    Args:
        pictures: the pictures, in any order.
        states: every claim that is known, and where it stands, or whose it is; only an open one takes pictures.
        gap: the longest time between two pictures of one claim; a gap of just so long still counts.
        otherwise: the claim of pictures that no tag speaks for; empty where they are left alone.

    Source: a rule of this tool's, no source.
    """
    filed: list[SortedPhoto] = []
    left: list[LeftAlone] = []
    tag: _Tag | None = None
    before: dt.datetime | None = None
    for picture, taken in _in_order(pictures):
        late = tag is not None and before is not None and taken - before > gap
        shown = _shown(picture, states)
        tag = shown or (None if late else tag)
        before = taken
        if tag is None and otherwise:
            filed.append(_at_hand(picture, otherwise))
        elif tag is None:
            left.append(LeftAlone(picture.file, _no_tag(late, gap)))
        elif tag.refused:
            left.append(LeftAlone(picture.file, tag.refused if shown else f"follows {tag.file}: {tag.refused}"))
        else:
            because = "shows the tag" if shown else f"follows the tag in {tag.file}"
            filed.append(SortedPhoto(picture.file, tag.claim, because, bool(shown)))
    timeless = [picture for picture in pictures if picture.taken is None]
    known = [picture for picture in timeless if otherwise and _shown(picture, states) is None]
    filed += [_at_hand(picture, otherwise) for picture in known]
    left += [LeftAlone(picture.file, "the camera wrote no time") for picture in timeless if picture not in known]
    return Sorting(tuple(filed), tuple(left))


def _at_hand(picture: PhotoToSort, claim: str) -> SortedPhoto:
    return SortedPhoto(picture.file, claim, "no tag speaks for it, and the claim is at hand", tag=False)


def _in_order(pictures: Iterable[PhotoToSort]) -> list[tuple[PhotoToSort, dt.datetime]]:
    """Pictures with the time they are ordered by: the moment where every camera told its offset, else its clock."""
    timed = [(picture, picture.taken) for picture in pictures if picture.taken]
    if not all(taken.tzinfo for _, taken in timed):
        timed = [(picture, taken.replace(tzinfo=None)) for picture, taken in timed]
    return sorted(timed, key=lambda each: (each[1], each[0].file))


def _shown(picture: PhotoToSort, states: Mapping[str, str]) -> _Tag | None:
    """The tag in the frame; None where there is none."""
    claims = list(dict.fromkeys(claim for code in picture.codes if (claim := claim_in(code))))
    if not claims:
        return None
    if len(claims) > 1:
        return _Tag("", picture.file, f"shows the tags of {' and '.join(claims)}")
    claim = claims[0]
    if claim not in states:
        return _Tag("", picture.file, f"there is no claim {claim} in the book")
    if states[claim] not in OPEN:
        return _Tag("", picture.file, f"claim {claim} is {states[claim]}")
    return _Tag(claim, picture.file)


def _no_tag(late: bool, gap: dt.timedelta) -> str:
    minutes = int(gap.total_seconds()) // 60
    return f"taken more than {minutes} min after the picture before it" if late else "no tag was seen before it"
