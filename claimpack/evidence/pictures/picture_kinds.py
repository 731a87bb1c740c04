"""Which kind of picture a file is, by its first bytes, and whether its decoder is given a process of its own."""

from __future__ import annotations

import contextlib
import io
from pathlib import Path
from typing import Literal

from claimpack.errors import BadInput

PictureKind = Literal["JPEG", "PNG", "TIFF", "WebP", "HEIC"]

ACCEPTED = "JPEG, PNG, TIFF, WebP and HEIC"

# A smaller PNG decodes in well under 100 MB, and starting a process would take longer than the picture.
_LARGE_PNG = 16_000_000

HEAD = 64
"""How many bytes tell the kind of a file."""

_STARTS: tuple[tuple[bytes, PictureKind], ...] = (
    (b"\xff\xd8\xff", "JPEG"),
    (b"\x89PNG\r\n\x1a\n", "PNG"),
    (b"II*\0", "TIFF"),
    (b"MM\0*", "TIFF"),
)

_HEIC_BRANDS = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1"}

_OTHER_STARTS = (
    (b"%PDF", "a PDF", "It is a paper: claimpack paper add CLAIM FILE; in a claim folder, list it under papers."),
    (b"GIF8", "a GIF picture", "Save it as PNG."),
    (b"BM", "a BMP picture", "Save it as PNG."),
    (b"\0\0\1\0", "an icon", "Save it as PNG."),
    (b"PK\3\4", "a ZIP file or an office document", "Take the pictures out of it."),
)


def kind_of(head: bytes) -> PictureKind | None:
    """The kind of picture that begins with these bytes, or None when it is none that is accepted."""
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        return "WebP"
    if head[4:8] == b"ftyp" and (head[8:12] in _HEIC_BRANDS) and b"avif" not in head[:32]:
        return "HEIC"
    return next((kind for start, kind in _STARTS if head.startswith(start)), None)


def decoded_apart(path: Path) -> bool:
    """Whether a file is a picture whose decoder is given a process of its own: all but JPEG and the smaller PNG.

    A JPEG is decoded small, and its passes are counted; what the other decoders need is bounded by pixels alone.
    """
    try:
        with path.open("rb") if path.is_file() else contextlib.nullcontext(io.BytesIO()) as stream:
            head = stream.read(HEAD)
    except OSError:
        return False
    across, down = (int.from_bytes(head[at : at + 4], "big") for at in (16, 20))
    kind = kind_of(head)
    return across * down > _LARGE_PNG if kind == "PNG" else kind in ("TIFF", "WebP", "HEIC")


def declared_webp_size(head: bytes) -> tuple[int, int]:
    """Width and height as the head of a WebP file says; zeros where it does not, which its decoder will refuse.

    Source: RFC 9649, 2.5 to 2.7 (simple lossy, simple lossless, extended).
    """
    coded = head[20:30].ljust(10, b"\0")
    match head[12:16]:
        case b"VP8X":
            return 1 + int.from_bytes(coded[4:7], "little"), 1 + int.from_bytes(coded[7:10], "little")
        case b"VP8L":
            bits = int.from_bytes(coded[1:5], "little")
            return 1 + (bits & 0x3FFF), 1 + (bits >> 14 & 0x3FFF)
        case b"VP8 ":
            return int.from_bytes(coded[6:8], "little") & 0x3FFF, int.from_bytes(coded[8:10], "little") & 0x3FFF
    return 0, 0


def accepted_kind(head: bytes, file: str) -> PictureKind:
    """The kind of picture that begins with these bytes.

    Raises:
        BadInput: it is none that is accepted; the message says what it is, where that is known.
    """
    kind = kind_of(head)
    if kind:
        return kind
    for start, other, do in _OTHER_STARTS:
        if head.startswith(start):
            raise BadInput(f"{file} is {other}, not a photo", f"Photos are {ACCEPTED}.", do)
    if head[4:8] == b"ftyp":
        raise BadInput(
            f"{file} is a film or an AVIF picture", f"Photos are {ACCEPTED}.", "Save one picture of it as JPEG."
        )
    raise BadInput(
        f"{file} is not a picture, whatever its name says",
        f"Its content is none of {ACCEPTED}.",
        "Check that the right file was copied.",
    )
