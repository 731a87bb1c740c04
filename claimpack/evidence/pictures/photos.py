"""Photos made ready for print: upright, in sRGB, no larger than the page needs, nothing told but the picture."""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Callable, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from itertools import chain
from pathlib import Path
from typing import TypeVar

from PIL import Image

from claimpack.confined import confined
from claimpack.errors import BadInput, ClaimpackError
from claimpack.evidence.pictures.colour import eight_bit, is_srgb, plain, to_srgb
from claimpack.evidence.pictures.exif import CameraFacts, camera_facts
from claimpack.evidence.pictures.jpeg_segments import without_metadata
from claimpack.evidence.pictures.memory import DecodingRoom, bytes_decoded, threads
from claimpack.evidence.pictures.picture_files import UNREADABLE, OpenPicture, open_picture
from claimpack.evidence.pictures.picture_kinds import decoded_apart

BROKEN_EXIF = "what the camera wrote beside the picture is broken; it is shown as stored, its date unknown"

# Bytes of pixels decoded at a time: a dozen phone pictures side by side do not fill a shop's old computer.
_ROOM = 96_000_000
_MOST_THREADS = 8
# Above it even a picture of the right size is encoded anew, or one photo would fill a packet by itself.
_LARGEST_COPY = 32_000_000
_BAND = 64
# The box filter leaves half as much again for the better one after it, so that edges stay clean.
_SPARE = 1.5
TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
"""How stored rows are turned upright, by the orientation the camera wrote."""

_Answer = TypeVar("_Answer")


@dataclass(frozen=True, slots=True)
class PrintSize:
    """What print needs: pixels along the longer edge, and the JPEG quality from 1 to 95.

    A picture up to 1.3 times as long is kept as it comes: cutting it down would soften it, take as long as reading it,
    and save little. The defaults give a photo 6.5 inches wide 246 to 320 dots an inch.
    """

    long_edge: int = 1600
    quality: int = 78

    def fits(self, size: tuple[int, int]) -> bool:
        """Whether a picture of so many pixels is small enough to be kept as it comes."""
        return max(size) <= self.long_edge * 1.3


@dataclass(frozen=True, slots=True)
class PreparedPhoto:
    """A photo ready for print: a JPEG in sRGB or grey without metadata; the original is told, not carried."""

    file: str
    jpeg: bytes
    width: int
    height: int
    sha256: str
    """Of the original file."""
    original_bytes: int
    original_width: int
    """Pixels of the original, held upright."""
    original_height: int
    taken: dt.datetime | None
    notes: tuple[str, ...] = ()


def prepare(path: Path, file: str, size: PrintSize) -> PreparedPhoto:
    """One photo made ready for print; the original is read only.

    Raises:
        NotFound: there is no such file.
        NotInstalled: it is HEIC and this machine lacks the reader.
        BadInput: it is no picture, damaged, or bomb-sized.
    """
    return _prepare(path, file, size, DecodingRoom(_ROOM))


def prepare_all(
    photos: Sequence[tuple[str, Path]], size: PrintSize, advance: Callable[[], None] = lambda: None
) -> list[PreparedPhoto]:
    """Photos made ready for print, several at a time in bounded memory, in the order given.

    Args:
        photos: what the claim calls each file, and where it lies.
        size: what print needs.
        advance: called once for every photo that is ready.

    Raises:
        ClaimpackError: as for one photo; the message names every photo that cannot be used.
    """
    room = DecodingRoom(_ROOM)
    pool = ThreadPoolExecutor(threads(_MOST_THREADS))
    try:
        return _gathered([pool.submit(_prepare, path, file, size, room) for file, path in photos], advance)
    finally:
        # Whoever stops the run waits for no photo that is not begun.
        pool.shutdown(cancel_futures=True)


def _gathered(waiting: list[Future[_Answer]], advance: Callable[[], None]) -> list[_Answer]:
    ready: list[_Answer] = []
    failures: list[ClaimpackError] = []
    for answer in waiting:
        try:
            ready.append(answer.result())
        except ClaimpackError as error:
            failures.append(error)
        advance()
    if len(failures) > 1:
        first, *others = failures
        raise BadInput(first.what, first.why, first.do, tuple(other.what for other in others)) from first
    if failures:
        raise failures[0]
    return ready


def _prepare(path: Path, file: str, size: PrintSize, room: DecodingRoom) -> PreparedPhoto:
    if decoded_apart(path):
        return confined(_prepare_alone, path.absolute(), file, size, file=file)
    return _prepare_here(path, file, size, room)


def _prepare_alone(path: Path, file: str, size: PrintSize) -> PreparedPhoto:
    return _prepare_here(path, file, size, DecodingRoom(_ROOM))


def _prepare_here(path: Path, file: str, size: PrintSize, room: DecodingRoom) -> PreparedPhoto:
    with open_picture(path, file) as source:
        facts, sha256 = camera_facts(source.picture), source.sha256()
        width, height = source.picture.size
        is_progressive = bool(source.picture.info.get("progressive"))
        with room.taken(bytes_decoded(source.kind, (width, height), size.long_edge, is_progressive=is_progressive)):
            try:
                jpeg, (wide, high), notes = _as_it_is(source, facts, size) or _made_small(source, facts, size)
            except UNREADABLE as error:
                raise source.damaged(error) from error
    lying = facts.orientation > 4
    return PreparedPhoto(
        file=file,
        jpeg=jpeg,
        width=wide,
        height=high,
        sha256=sha256,
        original_bytes=source.size,
        original_width=height if lying else width,
        original_height=width if lying else height,
        taken=facts.taken,
        notes=(*source.notes, *([BROKEN_EXIF] if facts.broken else []), *notes),
    )


_Ready = tuple[bytes, tuple[int, int], tuple[str, ...]]


def _as_it_is(source: OpenPicture, facts: CameraFacts, size: PrintSize) -> _Ready | None:
    picture = source.picture
    if source.kind != "JPEG" or facts.orientation != 1 or not size.fits(picture.size):
        return None
    if picture.mode not in ("RGB", "L") or source.size > _LARGEST_COPY or not is_srgb(picture.info.get("icc_profile")):
        return None
    picture.load()
    source.stream.seek(0)
    # every pixel was decoded before, though none is kept: a file that is cut off must be found out now
    copied = without_metadata(source.stream.read())
    return (copied, picture.size, ()) if copied else None


def _made_small(source: OpenPicture, facts: CameraFacts, size: PrintSize) -> _Ready:
    original, profile = source.picture, source.picture.info.get("icc_profile")
    goal = _fitted(original.size, size.long_edge)
    picture = _decoded(source, goal)
    if not size.fits(picture.size):
        picture = picture.resize(goal, Image.Resampling.BICUBIC)
    if facts.orientation in TURNS:
        picture = picture.transpose(TURNS[facts.orientation])
    picture, notes = to_srgb(picture, profile)
    return _encoded(picture, size.quality), picture.size, notes


def _fitted(size: tuple[int, int], long_edge: int) -> tuple[int, int]:
    longest = max(*size, long_edge)
    return max(1, round(size[0] * long_edge / longest)), max(1, round(size[1] * long_edge / longest))


def _decoded(source: OpenPicture, goal: tuple[int, int]) -> Image.Image:
    picture = source.picture
    picture.draft(None, goal)
    picture.load()
    factor = int(max(picture.size) / max(goal) / _SPARE)
    narrow = eight_bit(picture)
    return plain(narrow) if factor < 2 else _reduced(narrow, factor)


def _reduced(picture: Image.Image, factor: int) -> Image.Image:
    # Band by band, for a second copy of a large picture would not fit beside it.
    width, height = picture.size
    tops = range(0, height, _BAND * factor)
    bands = (picture.crop((0, top, width, min(top + _BAND * factor, height))) for top in tops)
    parts = (plain(band).reduce(factor) for band in bands)
    first = next(parts)
    whole = Image.new(first.mode, (first.width, -(-height // factor)))
    for row, part in enumerate(chain([first], parts)):
        whole.paste(part, (0, row * _BAND))
    return whole


def _encoded(picture: Image.Image, quality: int) -> bytes:
    # The encoder would carry a comment of the original along.
    picture.info = {}
    buffer = io.BytesIO()
    picture.save(buffer, "JPEG", quality=quality, subsampling="4:2:0")
    return buffer.getvalue()
