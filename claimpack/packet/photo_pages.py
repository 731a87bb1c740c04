"""The photos: each with its marks, its numbered notes, what it shows and when it was taken."""

from __future__ import annotations

from io import BytesIO
from typing import Any

from reportlab.lib.utils import ImageReader
from reportlab.platypus import CondPageBreak

from claimpack.core.claim import Mark, Photo
from claimpack.packet.draft import Draft
from claimpack.packet.drawn import Drawn, bookmark, drawn, gap, section, side_by_side
from claimpack.packet.lettering import RULE, escaped, marked_up, text
from claimpack.packet.marks import draw_marks
from claimpack.packet.page_evidence import Picture

_COARSEST = 72 / 110
"""Points a pixel may be wide: a picture is not blown up beyond 110 pixels an inch."""

_CAPTION = 138.0
_SPACE = 14.0
_HEADING = 34.0
_GAP = 12.0


def photos_section(draft: Draft) -> list[Any]:
    """The pictures, so many to a page; nothing where the claim has none."""
    photos = draft.claim.photos
    if not photos:
        return []
    body: list[Any] = []
    for index, photo in enumerate(photos, start=1):
        body += _entry(draft, photo, index)
    return section("photos", draft.words.photos, draft.width, body)


def _entry(draft: Draft, photo: Photo, index: int) -> list[Any]:
    title = f"{index}. {photo.shot or photo.file}"
    lead = bookmark(f"photo-{index}", title, level=1)
    caption = _caption(draft, photo, index)
    picture = draft.picture(photo.file)
    if picture is None:
        return [lead, *caption, text(draft.words.no_picture, "strong"), gap(_GAP)]
    if draft.layout.photos_per_page == 1:
        return _alone(draft, picture, photo, [lead, *caption])
    room = _room(draft)
    shown = framed_picture(picture, photo.marks, draft.width - _CAPTION - _SPACE, room)
    if _height(caption, _CAPTION) > room:
        return [CondPageBreak(shown.height + 40), lead, *caption, gap(4), shown, gap(_GAP)]
    widths = [draft.width - _CAPTION, _CAPTION]
    return [CondPageBreak(room * 0.6), lead, side_by_side([shown, caption], widths, _SPACE), gap(_GAP)]


def _room(draft: Draft) -> float:
    count = draft.layout.photos_per_page
    return (draft.height - _HEADING - 6) / count - _GAP - 2


def _alone(draft: Draft, picture: Picture, photo: Photo, caption: list[Any]) -> list[Any]:
    room = max(draft.height - _HEADING - 20 - _height(caption, draft.width), draft.height / 2)
    shown = framed_picture(picture, photo.marks, draft.width, room)
    return [CondPageBreak(min(shown.height + 60, draft.height * 0.9)), *caption, gap(4), shown, gap(_GAP)]


def _height(pieces: list[Any], width: float) -> float:
    return float(sum(piece.wrap(width, 10_000)[1] for piece in pieces))


def framed_picture(picture: Picture, marks: tuple[Mark, ...], width: float, height: float) -> Drawn:
    """A picture as large as it fits and as its pixels bear, with its marks and a thin rule around it."""
    scale = min(width / picture.width, height / picture.height, _COARSEST)
    across, up = picture.width * scale, picture.height * scale

    def pen(canvas: Any, _width: float, _height: float) -> None:
        canvas.drawImage(ImageReader(BytesIO(picture.jpeg)), 0, 0, across, up)
        canvas.setStrokeColor(RULE)
        canvas.setLineWidth(0.5)
        canvas.rect(0, 0, across, up, stroke=1, fill=0)
        draw_marks(canvas, marks, 0, 0, across, up)

    piece = drawn(across, up, pen)
    piece.wrap(across, up)
    return piece


def _caption(draft: Draft, photo: Photo, index: int) -> list[Any]:
    words, picture = draft.words, draft.picture(photo.file)
    count = len(draft.claim.photos)
    lines = [text(words.photo_of.format(index=index, count=count), "label")]
    lines.append(text(photo.shot or photo.file, "strong"))
    if photo.caption:
        lines += [text(part, "cell") for part in photo.caption.split("\n\n") if part.strip()]
    noted = [(number, mark.note) for number, mark in enumerate(photo.marks, start=1) if mark.note]
    lines += [marked_up(f"<b>{number}</b> {escaped(note)}", "cell") for number, note in noted]
    if picture:
        taken = picture.taken
        said = words.taken.format(day=taken.strftime("%Y-%m-%d %H:%M")) if taken else words.taken_unknown
        size = words.pixels.format(width=picture.original_width, height=picture.original_height)
        lines += [gap(3), text(said, "small"), text(f"{photo.file}, {size}", "small")]
    return lines
