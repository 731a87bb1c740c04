"""Pictures on a page: their JPEG data as it is, their marks drawn over it."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from io import BytesIO
from typing import Any

from claimpack.core.facts.pictures import Mark, Photo, ReadArea
from claimpack.packet.drawing.evidence import PrintedPicture
from claimpack.packet.drawing.marks import draw_marks, mark_notes
from claimpack.printing.drawn import DrawnPiece, drawn
from claimpack.printing.kept.reading_order import Element, ink_of
from claimpack.printing.lettering import escaped, marked_up
from claimpack.printing.palette import RULE

# Of the height of what was read: so much of the picture is shown on each side of it.
_AROUND = 0.2

COARSEST = 72 / 110
"""Points a pixel may be wide: a picture is not blown up beyond 110 pixels an inch."""


class JpegData:
    """JPEG data for the PDF engine, which would otherwise decode every pixel to tell two pictures apart."""

    def __init__(self, jpeg: bytes) -> None:
        self._jpeg = jpeg

    def __str__(self) -> str:
        # what the engine tells pictures apart by; equal data is embedded once
        return hashlib.sha256(self._jpeg).hexdigest()

    def jpeg_fh(self) -> BytesIO:
        """The data as a file, which the engine embeds as it is."""
        return BytesIO(self._jpeg)


def framed_picture(picture: PrintedPicture, photo: Photo, width: float, height: float) -> DrawnPiece:
    """A picture as large as it fits and as its pixels bear, with its marks and a thin rule around it."""
    scale = min(width / picture.width, height / picture.height, COARSEST)
    across, up = picture.width * scale, picture.height * scale
    piece = drawn(across, up, lambda canvas, across, up: draw_picture(canvas, picture, photo, (across, up)))
    piece.wrap(across, up)
    return piece


def cropped_picture(picture: PrintedPicture, area: ReadArea, room: tuple[float, float], alt: str) -> DrawnPiece:
    """A part of a picture, with a little around it, as large as it fits: the same picture, cut off at a frame."""
    width, height = room
    left, top, across, down = (float(side) for side in (area.x, area.y, area.width, area.height))
    margin = down * picture.height * _AROUND
    wide, high = across * picture.width + 2 * margin, down * picture.height + 2 * margin
    scale = min(width / wide, height / high)
    size = picture.width * scale, picture.height * scale
    at = (margin - left * picture.width) * scale, (margin + (top + down) * picture.height) * scale - size[1]

    def pen(canvas: Any, across: float, up: float) -> None:
        frame = canvas.beginPath()
        frame.rect(0, 0, across, up)
        canvas.saveState()
        canvas.clipPath(frame, stroke=0, fill=0)
        canvas.drawImage(JpegData(picture.jpeg), *at, *size)
        canvas.restoreState()
        canvas.setStrokeColor(RULE)
        canvas.setLineWidth(0.5)
        canvas.rect(0, 0, across, up, stroke=1, fill=0)

    piece = drawn(wide * scale, high * scale, pen, alt)
    piece.wrap(width, height)
    return piece


def draw_picture(canvas: Any, picture: PrintedPicture, photo: Photo, size: tuple[float, float]) -> None:
    """Draw a picture at the origin in the size given, in points, with its marks."""
    with ink_of(canvas, Element("Figure", shown_in_words(photo))):
        canvas.drawImage(JpegData(picture.jpeg), 0, 0, *size)
        canvas.setStrokeColor(RULE)
        canvas.setLineWidth(0.5)
        canvas.rect(0, 0, *size, stroke=1, fill=0)
        draw_marks(canvas, photo.marks, 0, 0, *size)


def photo_key(index: int) -> str:
    """What the bookmark of a photo is told by; the first has 1."""
    return f"photo-{index}"


def shown_in_words(photo: Photo) -> str:
    """What a picture shows, for those who cannot see it: its shot, its caption, and what its marks point out."""
    said = (photo.shot or photo.file, photo.caption, *(f"{number}: {note}" for number, note in mark_notes(photo.marks)))
    return ". ".join(" ".join(part.split()).rstrip(".") for part in dict.fromkeys(said) if part.strip())


def notes_of(marks: Sequence[Mark]) -> list[Any]:
    """What the marks say, a line each, with the number drawn beside the mark."""
    return [marked_up(f"<b>{number}</b>&nbsp; {escaped(note)}", "cell") for number, note in mark_notes(marks)]
