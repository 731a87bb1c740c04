"""What the camera wrote beside the picture: which way is up, and when it was taken."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from claimpack.evidence.pictures.picture_kinds import decoded_apart
from claimpack.evidence.pictures.plain_stamps import plain_stamps

if TYPE_CHECKING:
    from PIL import Image

_STAMP = re.compile(r"(\d{4}):(\d\d):(\d\d) (\d\d:\d\d:\d\d)", re.ASCII)
_OFFSET = re.compile(r"[+-]\d\d:\d\d", re.ASCII)
_ORIENTATION, _EXIF_BLOCK, _FILE_STAMP = 0x0112, 0x8769, 0x0132
_WHEN = ((0x9003, 0x9011), (0x9004, 0x9012), (_FILE_STAMP, 0x9010))
"""When it was taken, made digital, written to the file: the tag of the stamp, and of its time zone."""


class CameraFacts(NamedTuple):
    """Orientation 1 to 8 of the stored rows, when the picture was taken, and whether the block was readable."""

    orientation: int
    taken: dt.datetime | None
    broken: bool


def taken_at(path: Path, file: str) -> dt.datetime | None:
    """When a photo was taken, in its time zone where the camera told one; no pixel is decoded.

    Args:
        path: where it lies.
        file: what the claim calls it, for messages.

    Returns:
        None when the camera wrote nothing, blanks, zeros or free text.

    Raises:
        NotFound: there is no such file.
        BadInput: it is no picture.

    Source: Exif 2.31, tags 0x9003, 0x9004, 0x0132 and the offsets 0x9011, 0x9012, 0x9010.
    """
    if decoded_apart(path):
        from claimpack.confined import confined

        return confined(_taken_here, path.absolute(), file, file=file)
    stamps = plain_stamps(path)
    return _taken_here(path, file) if stamps is None else _taken(stamps)


def _taken_here(path: Path, file: str) -> dt.datetime | None:
    from claimpack.evidence.pictures.picture_files import open_picture

    with open_picture(path, file) as source:
        return camera_facts(source.picture).taken


def camera_facts(picture: Image.Image) -> CameraFacts:
    """What the camera wrote; a block that cannot be read gives an upright picture of unknown date.

    A HEIC decoder turns the picture itself, and says of every one that it is upright.

    Source: JEITA CP-3451 (Exif 2.2), tag 274: default 1, all but 1 to 8 reserved.
    """
    from claimpack.evidence.pictures.picture_files import UNREADABLE

    try:
        exif = picture.getexif()
        told = {**exif.get_ifd(_EXIF_BLOCK), **_own(exif)}
    except UNREADABLE:
        return CameraFacts(1, None, broken=True)
    orientation: int = told.get(_ORIENTATION, 1)
    return CameraFacts(
        orientation=orientation if orientation in range(1, 9) else 1,
        taken=_taken(told),
        # a block is there and says nothing that could be read
        broken=bool(picture.info.get("exif")) and not told,
    )


def _own(exif: Image.Exif) -> dict[int, Any]:
    return {tag: exif[tag] for tag in (_ORIENTATION, _FILE_STAMP) if tag in exif}


def _taken(told: Mapping[int, Any]) -> dt.datetime | None:
    moments = (moment(told.get(stamp), told.get(offset)) for stamp, offset in _WHEN)
    return next((at for at in moments if at), None)


def moment(stamp: object, offset: object = None) -> dt.datetime | None:
    """A camera's time stamp such as 2026:03:14 09:05:00, in its time zone where one is told.

    Returns:
        None for blanks, zeros, free text, and dates no calendar has.
    """
    found = _STAMP.fullmatch(stamp.strip("\0 ")) if isinstance(stamp, str) else None
    if not found:
        return None
    zone = offset.strip("\0 ") if isinstance(offset, str) else ""
    text = f"{found[1]}-{found[2]}-{found[3]}T{found[4]}"
    # a zone that no calendar has does not spoil the time
    for written in (text + zone if _OFFSET.fullmatch(zone) else text, text):
        try:
            return dt.datetime.fromisoformat(written)
        except ValueError:
            continue
    return None
