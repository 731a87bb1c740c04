"""The photos: each with its marks, its numbered notes, what it shows and when it was taken."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reportlab.platypus import CondPageBreak, Flowable

from claimpack.core.facts.pictures import Photo
from claimpack.core.judging.conditions.as_read import read_beside
from claimpack.core.values.words import folded
from claimpack.packet.drawing.draft import Draft
from claimpack.packet.drawing.pictures import cropped_picture, framed_picture, notes_of, photo_key
from claimpack.printing.drawn import HEADING, bookmark, gap, section
from claimpack.printing.lettering import text
from claimpack.printing.tables import side_by_side

_CAPTION = 124.0
_SPACE = 14.0
# The height in points that a plate's number is shown in.
_CROP = 60.0
# A caption beside a picture broader than a phone's would be left a strip too narrow to read.
_BROADEST = 4 / 3
_GAP = 12.0
# The height in points below which pictures are not made smaller to let a last one join the page.
_LEAST = 150.0

_ENDLESS = 1_000_000.0

Numbered = tuple[int, Photo]
"""A photo and its number in the claim, from 1."""


def photos_section(draft: Draft) -> list[Any]:
    """The pictures, so many to a page; nothing where the claim has none."""
    photos = list(enumerate(draft.claim.photos, start=1))
    if not photos:
        return []
    first, _ = _entry(draft, photos[0], _usual_room(draft))
    return section("photos", draft.words.photos, draft.width, [_Run(draft, photos)], first)


class _Run(Flowable):  # type: ignore[misc]  # the PDF engine has no types
    """Pictures one under the other, shared out to pages as the room there turns out."""

    def __init__(self, draft: Draft, photos: Sequence[Numbered]) -> None:
        super().__init__()
        self._draft = draft
        self._photos = photos

    def wrap(self, width: float, _height: float) -> tuple[float, float]:
        """More room than any page has, so that the run is always shared out."""
        return width, _ENDLESS

    def split(self, _width: float, height: float) -> list[Any]:
        """The pictures that go on this page, and the run of those that do not."""
        entries = _for_this_page(self._draft, self._photos, height)
        pieces: list[Any] = []
        for room, entry in entries:
            pieces += [CondPageBreak(min(room, height)), *entry, gap(_GAP)]
        rest = self._photos[len(entries) :]
        return [*pieces, _Run(self._draft, rest)] if entries and rest else pieces


Entry = tuple[float, list[Any]]
"""The height that one picture keeps together, and its pieces."""


def _for_this_page(draft: Draft, photos: Sequence[Numbered], height: float) -> list[Entry]:
    """As many as fit; one left over alone joins them where that makes none of them too small."""
    usual = [_entry(draft, photo, _usual_room(draft)) for photo in photos[: _many(draft)]]
    count = _fitting(usual, height)
    if count and count + 1 == len(photos) and draft.layout.photos_per_page > 1:
        room = height / len(photos) - _GAP - 2
        closer = [_entry(draft, photo, room) for photo in photos]
        if room >= _LEAST and _fitting(closer, height) == len(photos):
            return closer
    return usual[:count]


def _many(draft: Draft) -> int:
    """How many entries a page could hold at the very most: those whose picture is missing are low."""
    return 4 * draft.layout.photos_per_page


def _usual_room(draft: Draft) -> float:
    return (draft.height - HEADING) / draft.layout.photos_per_page - _GAP - 2


def _fitting(entries: Sequence[Entry], height: float) -> int:
    """How many of them, from the first, fit in the height."""
    used = 0.0
    for place, (room, _) in enumerate(entries):
        if used + room > height:
            return place
        used += room + _GAP
    return len(entries)


def _entry(draft: Draft, numbered: Numbered, room: float) -> Entry:
    index, photo = numbered
    lead = bookmark(photo_key(index), f"{index}. {photo.shot or photo.file}", level=1)
    caption = _caption(draft, photo, index)
    picture = draft.picture(photo.file)
    if picture is None:
        return 60, [lead, *caption, text(draft.words.no_picture, "strong")]
    if draft.layout.photos_per_page > 1:
        column = min(draft.width - _CAPTION - _SPACE, room * _BROADEST)
        beside = draft.width - column - _SPACE
        shown = framed_picture(picture, photo, column, room)
        tall = _height(caption, beside)
        if tall <= room:
            entry = side_by_side([shown, caption], [column + _SPACE, beside], _SPACE)
            return max(shown.height, tall) + 1, [lead, entry]
    tall = min(_height(caption, draft.width), draft.height / 3)
    shown = framed_picture(picture, photo, draft.width, room - tall - 6)
    return shown.height + tall + 6, [lead, shown, gap(4), *caption]


def _height(pieces: Sequence[Any], width: float) -> float:
    return float(sum(piece.wrap(width, 100_000)[1] for piece in pieces))


def _caption(draft: Draft, photo: Photo, index: int) -> list[Any]:
    words, picture = draft.words, draft.picture(photo.file)
    lines = [text(words.photo_of.format(index=index, count=len(draft.claim.photos)), "label")]
    lines.append(text(photo.shot or photo.file, "strong"))
    if folded(photo.caption) != folded(photo.shot):
        lines += [text(part, "cell") for part in photo.caption.split("\n\n") if part.strip()]
    lines += notes_of(photo.marks)
    lines += _read_off(draft, photo.file)
    if picture:
        taken = picture.taken
        said = words.taken.format(day=taken.strftime("%Y-%m-%d %H:%M")) if taken else words.taken_unknown
        size = words.pixels.format(width=picture.original_width, height=picture.original_height)
        here = words.pixels_here.format(width=picture.width, height=picture.height)
        lines += [gap(3), text(said, "small"), text(photo.file, "small"), text(size, "small"), text(here, "small")]
    return lines


def _read_off(draft: Draft, file: str) -> list[Any]:
    """What was read off a picture: that part of it, the number as the claim has it, and whether they agree."""
    picture, lines = draft.picture(file), list[Any]()
    for each in read_beside(draft.claim):
        if each.file != file or not each.role:
            continue
        area = each.read.area
        said = f"{draft.words.serial.format(role=draft.role(each.role))}: {each.typed or draft.words.none_given}"
        lines += [gap(3), cropped_picture(picture, area, (_CAPTION, _CROP), said), gap(2)] if picture and area else []
        lines.append(text(said, "cell-strong"))
        lines.append(text(draft.said(each.told), "small"))
    return lines
