"""What a picture looks like, in 64 bits: the same scene saved smaller or paler stays nearly the same."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from pathlib import Path

from PIL import Image

from claimpack.confined import confined
from claimpack.evidence.pictures.colour import eight_bit, plain
from claimpack.evidence.pictures.exif import camera_facts
from claimpack.evidence.pictures.photos import TURNS
from claimpack.evidence.pictures.picture_files import UNREADABLE, open_picture
from claimpack.evidence.pictures.picture_kinds import decoded_apart

_ACROSS, _DOWN = 9, 8
_DRAFT = (160, 160)


@dataclass(frozen=True, slots=True)
class Seen:
    """A picture looked at once: its content's hash, its size upright, when it was taken, what it looks like."""

    sha256: str
    bytes: int
    width: int
    height: int
    taken: dt.datetime | None
    likeness: str


def look_at(path: Path, file: str) -> Seen:
    """A picture looked at: every pixel is read, so that one that is cut off is found out now.

    Args:
        path: where it lies.
        file: how the user calls it, for messages.

    Raises:
        NotFound: there is no such file.
        NotInstalled: it is HEIC and this machine lacks the reader.
        BadInput: it is no picture, damaged, or bomb-sized.
    """
    if decoded_apart(path):
        return confined(_look_here, path.absolute(), file, file=file)
    return _look_here(path, file)


def _look_here(path: Path, file: str) -> Seen:
    with open_picture(path, file) as source:
        facts = camera_facts(source.picture)
        width, height = source.picture.size
        # A HEIC decoder turns the picture itself.
        orientation = 1 if source.kind == "HEIC" else facts.orientation
        try:
            source.picture.draft("L", _DRAFT)
            source.picture.load()
            turn = TURNS.get(orientation)
            alike = likeness(source.picture if turn is None else source.picture.transpose(turn))
        except UNREADABLE as error:
            raise source.damaged(error) from error
    size = (height, width) if orientation > 4 else (width, height)
    return Seen(source.sha256, source.size, *size, facts.taken, alike)


def likeness(picture: Image.Image) -> str:
    """Sixteen hexadecimal digits, a bit for each pair of neighbours in a grid of 9 by 8: whether it grows brighter.

    The fewer of the 64 bits differ, the more alike two pictures are; a flat picture gives zeros.

    Source: the difference hash, as described in general literature on image matching.
    """
    grey = plain(eight_bit(picture)).convert("L").resize((_ACROSS, _DOWN), Image.Resampling.BOX)
    cells = grey.tobytes()
    pairs = [
        (cells[row * _ACROSS + column], cells[row * _ACROSS + column + 1])
        for row in range(_DOWN)
        for column in range(_ACROSS - 1)
    ]
    bits = "".join("1" if right > left else "0" for left, right in pairs)
    return f"{int(bits, 2):016x}"
