"""The photos: each with its marks, its numbered notes, what it shows and when it was taken."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reportlab.platypus import CondPageBreak

from claimpack.core.claim import Photo
from claimpack.packet.draft import Draft
from claimpack.packet.drawn import HEADING, bookmark, gap, section
from claimpack.packet.grid import side_by_side
from claimpack.packet.lettering import text
from claimpack.packet.pictures import framed_picture, notes_of

_CAPTION = 124.0
_SPACE = 14.0
_BROADEST = 4 / 3
_GAP = 12.0


def photos_section(draft: Draft) -> list[Any]:
    """The pictures, so many to a page; nothing where the claim has none."""
    entries = [_entry(draft, photo, index) for index, photo in enumerate(draft.claim.photos, start=1)]
    if not entries:
        return []
    body: list[Any] = []
    for room, pieces in entries:
        body += [CondPageBreak(room), *pieces, gap(_GAP)]
    return section("photos", draft.words.photos, draft.width, body, entries[0][0])


def _entry(draft: Draft, photo: Photo, index: int) -> tuple[float, list[Any]]:
    """The height that one picture keeps together, and its pieces."""
    lead = bookmark(f"photo-{index}", f"{index}. {photo.shot or photo.file}", level=1)
    caption = _caption(draft, photo, index)
    picture = draft.picture(photo.file)
    if picture is None:
        return 60, [lead, *caption, text(draft.words.no_picture, "strong")]
    count = draft.layout.photos_per_page
    room = (draft.height - HEADING) / count - _GAP - 2
    if count > 1:
        column = min(draft.width - _CAPTION - _SPACE, room * _BROADEST)
        beside = draft.width - column - _SPACE
        shown = framed_picture(picture, photo.marks, column, room)
        tall = _height(caption, beside)
        if tall <= room:
            entry = side_by_side([shown, caption], [column + _SPACE, beside], _SPACE)
            return max(shown.height, tall) + 1, [lead, entry]
    tall = min(_height(caption, draft.width), draft.height / 3)
    shown = framed_picture(picture, photo.marks, draft.width, (draft.height - HEADING) / count - _GAP - 8 - tall)
    return shown.height + 8, [lead, shown, gap(4), *caption]


def _height(pieces: Sequence[Any], width: float) -> float:
    return float(sum(piece.wrap(width, 100_000)[1] for piece in pieces))


def _caption(draft: Draft, photo: Photo, index: int) -> list[Any]:
    words, picture = draft.words, draft.picture(photo.file)
    lines = [text(words.photo_of.format(index=index, count=len(draft.claim.photos)), "label")]
    lines.append(text(photo.shot or photo.file, "strong"))
    lines += [text(part, "cell") for part in photo.caption.split("\n\n") if part.strip()]
    lines += notes_of(photo.marks)
    if picture:
        taken = picture.taken
        said = words.taken.format(day=taken.strftime("%Y-%m-%d %H:%M")) if taken else words.taken_unknown
        size = words.pixels.format(width=picture.original_width, height=picture.original_height)
        lines += [gap(3), text(said, "small"), text(f"{photo.file}, {size}", "small")]
    return lines
