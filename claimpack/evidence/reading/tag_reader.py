"""The codes of our tags, read out of photos: QR code or Code 128, turned, tilted or a little blurred."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any, NamedTuple

from PIL import Image

from claimpack.confined import confined
from claimpack.core.steps.photo_sorting import PhotoToSort, claim_in
from claimpack.errors import BadInput, NotInstalled
from claimpack.evidence.pictures.colour import eight_bit, plain
from claimpack.evidence.pictures.exif import camera_facts
from claimpack.evidence.pictures.memory import DecodingRoom, threads
from claimpack.evidence.pictures.picture_files import UNREADABLE, open_picture
from claimpack.evidence.pictures.picture_kinds import decoded_apart
from claimpack.installed import install_command

# A tag that fills a good part of the frame is read at this size, which is faster; only if none is, the whole is.
_GLANCE = 1500
_ROOM = 200_000_000
_MOST_THREADS = 8


class Looked(NamedTuple):
    """Pictures searched for tags, in the order given, and files that are no pictures, each with what is wrong."""

    pictures: tuple[PhotoToSort, ...]
    unread: tuple[tuple[str, str], ...]


def search_all(files: Sequence[tuple[str, Path]], advance: Callable[[], None] = lambda: None) -> Looked:
    """Pictures searched for the codes of our tags, several at a time in bounded memory.

    Args:
        files: how the user calls each file, and where it lies.
        advance: called once for every file that is done.

    Raises:
        NotInstalled: this machine cannot read barcodes.
    """
    _reader()
    room = DecodingRoom(_ROOM)
    pictures, unread = [], []
    with ThreadPoolExecutor(threads(_MOST_THREADS)) as pool:
        waiting = [(file, pool.submit(_search, path, file, room)) for file, path in files]
        for file, answer in waiting:
            try:
                pictures.append(answer.result())
            except BadInput as error:
                unread.append((file, error.what.removeprefix(f"{file} ")))
            advance()
    return Looked(tuple(pictures), tuple(unread))


def _search(path: Path, file: str, room: DecodingRoom) -> PhotoToSort:
    if decoded_apart(path):
        return confined(_search_alone, path.absolute(), file, file=file)
    return _search_here(path, file, room)


def _search_alone(path: Path, file: str) -> PhotoToSort:
    return _search_here(path, file, DecodingRoom(_ROOM))


def _search_here(path: Path, file: str, room: DecodingRoom) -> PhotoToSort:
    picture, whole = _read(path, file, _GLANCE, room)
    # nothing found in a small one: a tag in the corner of a large picture needs all of its pixels
    return picture if picture.codes or whole else _read(path, file, 0, room)[0]


def _read(path: Path, file: str, edge: int, room: DecodingRoom) -> tuple[PhotoToSort, bool]:
    """A picture, and whether all of its pixels were looked at; a JPEG decoded down to an edge is faster."""
    with open_picture(path, file) as source:
        picture, taken = source.picture, camera_facts(source.picture).taken
        size = picture.size
        picture.draft("L", (edge, edge) if edge else size)
        # colour decoded at four bytes a pixel, whatever is made of it
        with room.taken(4 * picture.width * picture.height):
            try:
                codes = _codes(plain(eight_bit(picture)).convert("L"))
            except UNREADABLE as error:
                raise source.damaged(error) from error
        return PhotoToSort(file, taken, codes), picture.size == size


def _codes(picture: Image.Image) -> tuple[str, ...]:
    reader = _reader()
    kinds = (reader.BarcodeFormat.QRCode, reader.BarcodeFormat.Code128)
    # our tags are dark on light, and looking for the other way takes time
    found = reader.read_barcodes(picture, formats=kinds, try_invert=False)
    return tuple(dict.fromkeys(code.text for code in found if claim_in(code.text)))


def _reader() -> Any:
    try:
        import zxingcpp
    except ModuleNotFoundError:
        raise NotInstalled(
            "the barcodes of tags cannot be read: this machine lacks the reader for them",
            "Without it nobody can tell which claim a picture belongs to.",
            f"Install it: {install_command('zxing-cpp')}; or add pictures one by one: claimpack photo add CLAIM FILE",
        ) from None
    return zxingcpp
