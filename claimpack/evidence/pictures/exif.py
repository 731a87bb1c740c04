"""What the camera wrote beside the picture: which way is up, and when it was taken."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from PIL import ExifTags, Image

from claimpack.confined import confined
from claimpack.evidence.pictures.picture_files import UNREADABLE, open_picture
from claimpack.evidence.pictures.picture_kinds import decoded_apart

_STAMP = re.compile(r"(\d{4}):(\d\d):(\d\d) (\d\d:\d\d:\d\d)", re.ASCII)
_OFFSET = re.compile(r"[+-]\d\d:\d\d", re.ASCII)
_WHEN = (
    (ExifTags.Base.DateTimeOriginal, ExifTags.Base.OffsetTimeOriginal),
    (ExifTags.Base.DateTimeDigitized, ExifTags.Base.OffsetTimeDigitized),
    (ExifTags.Base.DateTime, ExifTags.Base.OffsetTime),
)


@dataclass(frozen=True, slots=True)
class CameraFacts:
    """Orientation 1 to 8 of the stored rows, when the picture was taken, and whether the block was readable."""

    orientation: int = 1
    taken: dt.datetime | None = None
    broken: bool = False


def taken_at(path: Path, file: str = "") -> dt.datetime | None:
    """When a photo was taken, in its time zone where the camera told one; no pixel is decoded.

    Args:
        path: where it lies.
        file: what the claim calls it, for messages; the name of the path where empty.

    Returns:
        None when the camera wrote nothing, blanks, zeros or free text.

    Raises:
        NotFound: there is no such file.
        BadInput: it is no picture.

    Source: Exif 2.31, tags 0x9003, 0x9004, 0x0132 and the offsets 0x9011, 0x9012, 0x9010.
    """
    if decoded_apart(path):
        return confined(_taken_here, path.absolute(), file or path.name, file=file or path.name)
    return _taken_here(path, file or path.name)


def _taken_here(path: Path, file: str) -> dt.datetime | None:
    with open_picture(path, file, hashed=False) as source:
        return camera_facts(source.picture).taken


def camera_facts(picture: Image.Image) -> CameraFacts:
    """What the camera wrote; a block that cannot be read gives an upright picture of unknown date.

    Source: JEITA CP-3451 (Exif 2.2), tag 274: default 1, all but 1 to 8 reserved.
    """
    try:
        exif = picture.getexif()
        told = {**exif.get_ifd(ExifTags.IFD.Exif), **_own(exif)}
    except UNREADABLE:
        return CameraFacts(broken=True)
    orientation = told.get(ExifTags.Base.Orientation)
    return CameraFacts(
        orientation=orientation if isinstance(orientation, int) and 1 <= orientation <= 8 else 1,
        taken=_taken(told),
        broken=bool(picture.info.get("exif")) and not told,
    )


def _own(exif: Image.Exif) -> dict[int, Any]:
    return {tag: exif[tag] for tag in (ExifTags.Base.Orientation, ExifTags.Base.DateTime) if tag in exif}


def _taken(told: dict[int, Any]) -> dt.datetime | None:
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
    for written in (text + zone if _OFFSET.fullmatch(zone) else text, text):
        try:
            return dt.datetime.fromisoformat(written)
        except ValueError:
            continue
    return None
