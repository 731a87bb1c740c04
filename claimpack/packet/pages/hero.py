"""The pictures on the cover: the damage, and the serial plate beside it, where the page has room for them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from claimpack.core.facts.pictures import Photo
from claimpack.core.values.words import folded
from claimpack.packet.drawing.draft import Draft
from claimpack.packet.drawing.evidence import PrintedPicture
from claimpack.packet.drawing.pictures import COARSEST, draw_picture, notes_of, photo_key
from claimpack.printing.drawn import DrawnPiece
from claimpack.printing.kept.reading_order import leading
from claimpack.printing.lettering import text

# Lower than an inch the picture shows nothing, and is better left out than squeezed in.
_LEAST, _MOST = 74.0, 235.0
_WIDEST = 0.62
_SPACE = 12.0
# So many letters of the cause are told, as the room allows.
_CAUSE_LETTERS = (420, 300, 200, 120)
_TELLING = ("damage", "failed", "crack", "close up", "found")


def hero_picture(draft: Draft) -> DrawnPiece:
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

    return DrawnPiece(size, pen)


def telling_photo(draft: Draft) -> Photo | None:
    """The photo to show first: one whose shot names the damage, else one with marks, else the last one."""
    shown = [photo for photo in draft.claim.photos if draft.picture(photo.file)]
    for word in _TELLING:
        for photo in shown:
            if word in folded(photo.shot):
                return photo
    marked = [photo for photo in shown if photo.marks]
    return marked[0] if marked else shown[-1] if shown else None


def _extent(draft: Draft, picture: PrintedPicture, room: float) -> tuple[float, float]:
    room = min(room, _MOST)
    scale = min(room / picture.height, draft.width * _WIDEST / picture.width, COARSEST)
    return picture.width * scale, picture.height * scale


def _draw(canvas: Any, draft: Draft, photo: Photo, picture: PrintedPicture, size: tuple[float, float]) -> None:
    width, height = size
    across, up = _extent(draft, picture, height)
    with leading(canvas, _page_of(draft, photo), _number_of(draft, photo), (across, up)):
        draw_picture(canvas, picture, photo, (across, up))
    room, top = width - across - _SPACE, height
    for piece in _beside(draft, photo):
        top = _put(canvas, [piece], across + _SPACE, (room, top))
    cause = " ".join(draft.claim.failure.cause.split())
    for longest in _CAUSE_LETTERS if cause else ():
        said = [text(" ", "small"), text(draft.words.cause, "label"), text(_beginning(cause, longest), "cell")]
        if _tall(said, room) <= top:
            top = _put(canvas, said, across + _SPACE, (room, top))
            break
    _draw_plate(canvas, draft, photo, across + _SPACE, (room, top - _SPACE))


def _draw_plate(canvas: Any, draft: Draft, beside: Photo, left: float, size: tuple[float, float]) -> None:
    """The serial plate beside the damage, under what is told of it, where enough room is left to read it."""
    plates = [photo for photo in draft.claim.photos if "plate" in folded(photo.shot) and photo is not beside]
    picture = draft.picture(plates[0].file) if plates else None
    if picture is None or size[1] < _LEAST:
        return
    scale = min(size[0] / picture.width, size[1] / picture.height, COARSEST)
    canvas.saveState()
    canvas.translate(left, 0)
    size = picture.width * scale, picture.height * scale
    with leading(canvas, _page_of(draft, plates[0]), _number_of(draft, plates[0]), size):
        draw_picture(canvas, picture, plates[0], size)
    canvas.restoreState()


def _put(canvas: Any, pieces: Sequence[Any], left: float, size: tuple[float, float]) -> float:
    """Draw pieces one under the other if all of them fit in the width and height left; give back the height left."""
    width, top = size
    if _tall(pieces, width) > top:
        return top
    for piece in pieces:
        _, tall = piece.wrap(width, top)
        piece.drawOn(canvas, left, top - tall)
        top -= tall
    return top


def _tall(pieces: Sequence[Any], width: float) -> float:
    return float(sum(piece.wrap(width, 10_000)[1] for piece in pieces))


def _beside(draft: Draft, photo: Photo) -> list[Any]:
    lines = [text(_number_of(draft, photo), "label")]
    return [*lines, text(photo.shot or photo.file, "cell-strong"), *notes_of(photo.marks)]


def _number_of(draft: Draft, photo: Photo) -> str:
    index = draft.claim.photos.index(photo) + 1
    return draft.words.photo_of.format(index=index, count=len(draft.claim.photos))


def _page_of(draft: Draft, photo: Photo) -> str:
    """The bookmark of a photo among the others, where the packet shows them."""
    return photo_key(draft.claim.photos.index(photo) + 1) if "photos" in draft.layout.sections else ""


def _beginning(told: str, longest: int) -> str:
    return told if len(told) <= longest else told[:longest].rsplit(" ", 1)[0] + " …"
