"""The pictures on the cover: the damage, and the serial plate beside it, where the page has room for them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from claimpack.core.facts.pictures import Photo
from claimpack.core.values.words import beginning, folded
from claimpack.packet.drawing.draft import Draft
from claimpack.packet.drawing.evidence import PrintedPicture
from claimpack.packet.drawing.pictures import COARSEST, draw_picture, notes_of, photo_key
from claimpack.printing.drawn import DrawnPiece, gap
from claimpack.printing.kept.reading_order import leading
from claimpack.printing.lettering import escaped, marked_up, text

# Lower than an inch the picture shows nothing, and is better left out than squeezed in.
_LEAST, _MOST = 74.0, 235.0
_WIDEST = 0.62
_SPACE = 12.0
_ABOVE = 5.0
# Between the picture and the contents under it.
_BELOW = 6.0
# Of the room beside the damage, how much the serial plate may take.
_PLATE_WIDTH, _PLATE_HEIGHT = 0.52, 0.4
# So many letters of each text are told, as the room allows.
_LETTERS = (420, 300, 200, 150, 120, 95, 75)
_TELLING = ("damage", "failed", "crack", "close up", "found")


def hero_picture(draft: Draft) -> DrawnPiece:
    """The picture that shows the damage best with what is told of it, as large as the room left allows.

    Without a picture the words have the room; without room there is nothing.
    """
    photo = telling_photo(draft)
    picture = draft.picture(photo.file) if photo else None

    def size(_width: float, room: float) -> tuple[float, float]:
        height = room - _BELOW
        if height < _LEAST:
            return 0.0, 0.0
        return draft.width, _extent(draft, picture, height)[1] if picture else _tall(_told(draft, height), draft.width)

    def pen(canvas: Any, width: float, height: float) -> None:
        if photo and picture:
            _draw(canvas, draft, photo, picture, (width, height))
        else:
            _put(canvas, _told(draft, height), 0, (width, height + 1))

    return DrawnPiece(size, pen)


def _told(draft: Draft, height: float) -> list[Any]:
    """Complaint, cause and correction across the page, as far as they fit."""
    return next((pieces for pieces in _stories(draft) if _tall(pieces, draft.width) <= height), [])


def _stories(draft: Draft) -> Iterator[list[Any]]:
    """Complaint, cause and correction, shorter and shorter; the cause alone at last."""
    words, failure = draft.words, draft.claim.failure
    told = [(words.complaint, failure.complaint), (words.cause, failure.cause), (words.correction, failure.correction)]
    given = [(title, " ".join(said.split())) for title, said in told if said.strip()]
    cause = [one for one in given if one[0] == words.cause]
    for some, longest in (*((given, letters) for letters in _LETTERS), *((cause, letters) for letters in _LETTERS)):
        pieces = [
            piece
            for title, said in some
            for piece in (marked_up(f"<b>{escaped(title)}</b> {escaped(beginning(said, longest))}", "cell"), gap(2.5))
        ]
        is_cut = some != given or any(len(said) > longest for _, said in some)
        if is_cut and "story" in draft.layout.sections:
            pieces.append(text(words.told_in_full.format(section=words.story), "small"))
        yield pieces


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
    left, room = across + _SPACE, width - across - _SPACE
    plate = _draw_plate(canvas, draft, photo, (left + room, height), (room * _PLATE_WIDTH, height * _PLATE_HEIGHT))
    named = room - plate[0] - (_SPACE if plate[0] else 0)
    top = height
    for piece in _beside(draft, photo):
        top = _put(canvas, [piece], left, (named, top))
    top = min(top, height - plate[1]) - _ABOVE
    for said in _stories(draft):
        if _tall(said, room) <= top:
            _put(canvas, said, left, (room, top))
            break


def _draw_plate(
    canvas: Any, draft: Draft, beside: Photo, corner: tuple[float, float], room: tuple[float, float]
) -> tuple[float, float]:
    """The serial plate beside the damage, under this upper right corner; the room it took."""
    plate = _plate(draft, beside)
    picture = draft.picture(plate.file) if plate else None
    if plate is None or picture is None:
        return 0.0, 0.0
    scale = min(room[0] / picture.width, room[1] / picture.height, COARSEST)
    size = picture.width * scale, picture.height * scale
    canvas.saveState()
    canvas.translate(corner[0] - size[0], corner[1] - size[1])
    with leading(canvas, _page_of(draft, plate), _number_of(draft, plate), size):
        draw_picture(canvas, picture, plate, size)
    canvas.restoreState()
    return size


def _plate(draft: Draft, beside: Photo) -> Photo | None:
    """The photo of the serial plate, where there is one beside the damage."""
    plates = (photo for photo in draft.claim.photos if "plate" in folded(photo.shot) and photo is not beside)
    return next((photo for photo in plates if draft.picture(photo.file)), None)


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
