"""The one picture on the cover: the damage, where the page has room for it."""

from __future__ import annotations

from typing import Any

from claimpack.core.claim import Photo
from claimpack.core.words import folded
from claimpack.packet.draft import Draft
from claimpack.packet.drawn import Drawn
from claimpack.packet.lettering import text
from claimpack.packet.page_evidence import Picture
from claimpack.packet.pictures import COARSEST, draw_picture, notes_of

_LEAST, _MOST = 96.0, 235.0
_WIDEST = 0.62
_SPACE = 12.0
_TELLING = ("damage", "failed", "crack", "close up", "found")


def hero_picture(draft: Draft) -> Drawn:
    """The picture that shows the damage best, as large as the room left allows; nothing where none is left."""
    photo = telling_photo(draft)
    picture = draft.picture(photo.file) if photo else None

    def size(_width: float, height: float) -> tuple[float, float]:
        if picture is None or height < _LEAST:
            return 0.0, 0.0
        return draft.width, _extent(draft, picture, height)[1]

    def pen(canvas: Any, width: float, height: float) -> None:
        if photo and picture:
            _draw(canvas, draft, photo, picture, (width, height))

    return Drawn(size, pen)


def telling_photo(draft: Draft) -> Photo | None:
    """The photo to show first: one whose shot names the damage, else one with marks, else the last one."""
    shown = [photo for photo in draft.claim.photos if draft.picture(photo.file)]
    for word in _TELLING:
        for photo in shown:
            if word in folded(photo.shot):
                return photo
    marked = [photo for photo in shown if photo.marks]
    return marked[0] if marked else shown[-1] if shown else None


def _extent(draft: Draft, picture: Picture, room: float) -> tuple[float, float]:
    room = min(room, _MOST)
    scale = min(room / picture.height, draft.width * _WIDEST / picture.width, COARSEST)
    return picture.width * scale, picture.height * scale


def _draw(canvas: Any, draft: Draft, photo: Photo, picture: Picture, size: tuple[float, float]) -> None:
    width, height = size
    across, up = _extent(draft, picture, height)
    draw_picture(canvas, picture, photo.marks, (across, up))
    top = height
    for piece in _beside(draft, photo):
        _, tall = piece.wrap(width - across - _SPACE, top)
        if tall > top:
            return
        piece.drawOn(canvas, across + _SPACE, top - tall)
        top -= tall


def _beside(draft: Draft, photo: Photo) -> list[Any]:
    words = draft.words
    index = draft.claim.photos.index(photo) + 1
    lines = [text(words.photo_of.format(index=index, count=len(draft.claim.photos)), "label")]
    lines.append(text(photo.shot or photo.file, "cell-strong"))
    lines += notes_of(photo.marks)
    if draft.claim.failure.cause:
        lines += [text(" ", "small"), text(words.cause, "label"), text(_beginning(draft.claim.failure.cause), "cell")]
    return lines


def _beginning(told: str, longest: int = 420) -> str:
    flat = " ".join(told.split())
    return flat if len(flat) <= longest else flat[:longest].rsplit(" ", 1)[0] + " …"
