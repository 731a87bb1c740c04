"""Picture files: opened within limits and with every defect named."""

from __future__ import annotations

import contextlib
import hashlib
import logging
import stat
import struct
import threading
import warnings
import zlib
from collections.abc import Iterator
from dataclasses import dataclass, field
from io import BufferedReader
from pathlib import Path

from PIL import Image, ImageFile

from claimpack.errors import BadInput, NotFound, NotInstalled
from claimpack.evidence.pictures.jpeg_segments import scan_count
from claimpack.evidence.pictures.picture_kinds import HEAD, PictureKind, accepted_kind, declared_webp_size
from claimpack.installed import install_command

MOST_PIXELS: dict[PictureKind, int] = {
    "JPEG": 240_000_000,
    "PNG": 120_000_000,
    "TIFF": 120_000_000,
    "HEIC": 64_000_000,
    "WebP": 40_000_000,
}
"""The largest picture that is decoded, by what its decoder needs; a camera's JPEG decodes small."""

MOST_PIXELS_IN_SCANS = 120_000_000
"""The largest JPEG stored in several scans, which its decoder keeps whole until the last of them."""

MOST_SCANS = 64
"""Passes over a JPEG; cameras and the programs that shrink pictures write one to twelve."""

LARGEST_PICTURE = 400_000_000
"""Bytes of a picture file."""

UNREADABLE = (
    *(OSError, SyntaxError, ValueError, LookupError, EOFError, TypeError, RuntimeError),
    *(struct.error, zlib.error, Image.DecompressionBombError),
)
"""Every error a decoder was seen to raise for a damaged or bomb-sized file."""

_BOMB = "Decoding it could fill this machine's memory."

# A logger with a handler keeps Python from printing decoder messages on the user's screen.
logging.getLogger("PIL").addHandler(logging.NullHandler())


@dataclass(frozen=True, slots=True)
class OpenPicture:
    """A picture file, opened but not yet decoded."""

    file: str
    kind: PictureKind
    picture: ImageFile.ImageFile
    stream: BufferedReader
    size: int
    """Bytes."""
    notes: tuple[str, ...] = ()

    def sha256(self) -> str:
        """Of the whole file, which is read for it; only while it is open."""
        self.stream.seek(0)
        return hashlib.file_digest(self.stream, "sha256").hexdigest()

    def damaged(self, error: Exception) -> BadInput:
        """What to tell the user when decoding fails."""
        return _damaged(self.file, self.kind, error)


@dataclass
class _Muting:
    lock: threading.Lock = field(default_factory=threading.Lock)
    inside: int = 0
    filters: contextlib.ExitStack = field(default_factory=contextlib.ExitStack)

    @contextlib.contextmanager
    def __call__(self) -> Iterator[None]:
        with self.lock:
            if not self.inside:
                self.filters.enter_context(warnings.catch_warnings())
                warnings.filterwarnings("ignore", module=r"(PIL|pi_heif)\b")
            self.inside += 1
        try:
            yield
        finally:
            with self.lock:
                self.inside -= 1
                if not self.inside:
                    self.filters.close()


# The warning filters belong to the whole process: the first thread in sets them, the last one out restores them.
_muted = _Muting()


@contextlib.contextmanager
def open_picture(path: Path, file: str) -> Iterator[OpenPicture]:
    """A picture file, its kind known from its content and its size within limits; nothing is decoded yet.

    Args:
        path: where the file lies.
        file: how the claim calls it, for messages.

    Raises:
        NotFound: there is no such file.
        NotInstalled: it is a HEIC picture and this machine cannot read them.
        BadInput: it is empty, no picture, another kind of picture, damaged or far too large.
    """
    with opened(path, file) as stream, _muted():
        kind = accepted_kind(stream.read(HEAD), file)
        size = stream.seek(0, 2)
        stream.seek(0)
        try:
            if kind == "WebP":
                _check_pixels(declared_webp_size(stream.read(HEAD)), kind, file)
                stream.seek(0)
            picture = _reader(kind, file)(stream)
            notes = _frame_note(picture, kind)
        except UNREADABLE as error:
            raise _damaged(file, kind, error) from error
        _check_size(picture, stream, kind, file)
        yield OpenPicture(file, kind, picture, stream, size, notes)


@contextlib.contextmanager
def opened(path: Path, file: str) -> Iterator[BufferedReader]:
    """A file with content, read only.

    Raises:
        NotFound: there is no such file.
        BadInput: it is no regular file, is empty, or cannot be read, or its name is no text.
    """
    if not file.isascii() and file.encode(errors="replace").decode() != file:
        raise BadInput(
            f"{file}: the name holds bytes that are no letters",
            "It comes from a machine that writes names otherwise; no claim could name it.",
            "Give the file another name.",
        )
    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            raise BadInput(f"{file} is not a file with content", "It is a folder or a device.", "Name the file itself.")
        stream = path.open("rb")
    except FileNotFoundError:
        raise NotFound(f"{file}: there is no such file", do="Check the name and the folder.") from None
    except OSError as error:
        raise BadInput(f"{file} cannot be read", str(error.strerror or error), "Check who may read it.") from error
    with stream:
        if not status.st_size:
            raise BadInput(f"{file} is empty (0 bytes)", "The copy from the camera failed.", "Copy it again.")
        if status.st_size > LARGEST_PICTURE:
            raise BadInput(
                f"{file} is larger than {LARGEST_PICTURE // 1_000_000} MB",
                "No photo or paper is; it may be a film or a copy of a disk.",
                "Check that the right file was copied.",
            )
        yield stream


def _reader(kind: PictureKind, file: str) -> type[ImageFile.ImageFile]:
    # The classes are used directly: Image.open would compare with a limit that the whole process shares.
    match kind:
        case "JPEG":
            from PIL.JpegImagePlugin import JpegImageFile

            return JpegImageFile
        case "PNG":
            from PIL.PngImagePlugin import PngImageFile

            return PngImageFile
        case "TIFF":
            from PIL.TiffImagePlugin import TiffImageFile

            return TiffImageFile
        case "WebP":
            from PIL.WebPImagePlugin import WebPImageFile

            return WebPImageFile
        case "HEIC":
            return _heic_reader(file)


def _heic_reader(file: str) -> type[ImageFile.ImageFile]:
    try:
        from pi_heif import HeifImageFile
    except ImportError:
        raise NotInstalled(
            f"{file} is a HEIC picture, and this machine cannot read HEIC yet",
            "The reader for it was not installed, or does not run here.",
            f"Run: {install_command('pi-heif')}, or save the picture as JPEG.",
        ) from None
    reader: type[ImageFile.ImageFile] = HeifImageFile
    return reader


def _check_size(picture: ImageFile.ImageFile, stream: BufferedReader, kind: PictureKind, file: str) -> None:
    _check_pixels(picture.size, kind, file)
    if kind != "JPEG":
        return
    stream.seek(0)
    scans = scan_count(stream.read(), MOST_SCANS)
    stream.seek(0)
    if scans > 1:
        _check_pixels(picture.size, kind, file, MOST_PIXELS_IN_SCANS)
    if scans > MOST_SCANS:
        raise BadInput(
            f"{file} is stored in more than {MOST_SCANS} passes",
            "Every pass is decoded over the whole picture; no camera writes so many.",
            "Save it anew as JPEG, or check its source.",
        )


def _check_pixels(size: tuple[int, int], kind: PictureKind, file: str, most: int = 0) -> None:
    width, height = size
    most = most or MOST_PIXELS[kind]
    if width * height > most:
        raise BadInput(
            f"{file} says it has {width} x {height} = {width * height // 1_000_000} megapixels",
            f"More than {most // 1_000_000} are refused. {_BOMB}",
            "Save it smaller, or check its source.",
        )


def _frame_note(picture: ImageFile.ImageFile, kind: PictureKind) -> tuple[str, ...]:
    if kind == "HEIC" or not getattr(picture, "is_animated", False):
        return ()
    return (f"the first of {getattr(picture, 'n_frames', 2)} pictures in the file is shown",)


def _damaged(file: str, kind: PictureKind, error: Exception) -> BadInput:
    if isinstance(error, Image.DecompressionBombError):
        return BadInput(f"{file} says it has far too many megapixels", _BOMB, "Save it smaller, or check its source.")
    return BadInput(
        f"{file} is a damaged {kind} picture: it cannot be read to its end",
        f"The decoder says: {str(error)[:160] or type(error).__name__}.",
        "Copy it from the camera again, or take the picture again.",
    )
