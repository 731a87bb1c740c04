"""The time stamps of a JPEG as cameras write them, read without the picture library, which takes long to load.

Whatever is not written in the plainest way is left to the library, which also tells what is wrong with a picture.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

from claimpack.evidence.pictures.jpeg_segments import scan_count, up_to_the_scan

LARGEST = 100_000_000
"""Bytes of a file that is read whole."""

# well below what `picture_files` refuses, and tells of
_MOST_PIXELS, _MOST_SCANS = 100_000_000, 32
_EXIF_BLOCK, _FILE_STAMP = 0x8769, 0x0132
_STAMPS = frozenset({_FILE_STAMP, 0x9003, 0x9004, 0x9010, 0x9011, 0x9012})
_TEXT, _LONG = 2, 4
_SIZES = {1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 6: 1, 7: 1, 8: 2, 9: 4, 10: 8, 11: 4, 12: 8}
_ORDERS = {b"II*\0": "little", b"MM\0*": "big"}
_FRAMES = (0xC0, 0xC1, 0xC2)
# What the library looks into, and may find fault with, by marker: how it begins, and how long it must be at least.
_LOOKED_INTO = {0xE0: (b"JFIF\0", 18), 0xE2: (b"ICC_PROFILE\0", 18), 0xEE: (b"Adobe", 16)}
_PHOTOSHOP, _FIRST, _EXIF = 0xED, 0xE1, b"Exif\0\0"


def plain_stamps(path: Path) -> dict[int, str] | None:
    """The stamps of a JPEG file by their tag; None where the picture library must look.

    Source: ITU-T T.81, annex B (the segments); TIFF 6.0, section 2; Exif 2.31, 4.6.2 (the directories).
    """
    try:
        if not path.is_file() or path.stat().st_size > LARGEST:
            return None
        content = path.read_bytes()
        segments = up_to_the_scan(content)
        if scan_count(content, _MOST_SCANS) > _MOST_SCANS or not _is_plain(segments):
            return None
        blocks = [segment[10:] for marker, segment in segments if marker == _FIRST and segment[4:10] == _EXIF]
        return _stamps(*blocks) if blocks else {}
    except (OSError, LookupError, TypeError, ValueError):
        return None


def _is_plain(segments: Iterable[tuple[int, bytes]]) -> bool:
    frames = [segment for marker, segment in segments if marker in _FRAMES]
    if len(frames) != 1 or frames[0][4] != 8 or frames[0][9] not in (1, 3):
        return False
    down, across = (int.from_bytes(frames[0][at : at + 2], "big") for at in (5, 7))
    return 0 < down * across <= _MOST_PIXELS and all(_is_whole(marker, segment) for marker, segment in segments)


def _is_whole(marker: int, segment: bytes) -> bool:
    start, least = _LOOKED_INTO.get(marker, (b"", 0))
    return marker != _PHOTOSHOP and (not segment[4:].startswith(start) or len(segment) >= least)


def _stamps(block: bytes) -> dict[int, str]:
    order = _ORDERS[block[:4]]
    first = _directory(block, block[4:8], order)
    kind, where = first.get(_EXIF_BLOCK, (_LONG, b""))
    if kind != _LONG or len(where) not in (0, 4):
        raise ValueError("a place that is none")
    inner = _directory(block, where, order) if where else {}
    own = {_FILE_STAMP: first[_FILE_STAMP]} if _FILE_STAMP in first else {}
    return _texts({**inner, **own})


def _texts(told: Mapping[int, tuple[int, bytes]]) -> dict[int, str]:
    stamps = {tag: entry for tag, entry in told.items() if tag in _STAMPS}
    if any(kind != _TEXT for kind, _ in stamps.values()):
        raise ValueError("a stamp that is no text")
    return {tag: text.decode("latin-1") for tag, (_, text) in stamps.items()}


def _directory(block: bytes, where: bytes, order: str) -> dict[int, tuple[int, bytes]]:
    """The entries of a directory by their tag: the kind of value, and its bytes.

    Raises:
        ValueError: one is twice there, or lies outside the block.
    """

    def number(at: int, size: int) -> int:
        if at + size > len(block):
            raise ValueError("cut off")
        return int.from_bytes(block[at : at + size], order)  # type: ignore[arg-type]

    found: dict[int, tuple[int, bytes]] = {}
    start, left = int.from_bytes(where, order), len(block)  # type: ignore[arg-type]
    for entry in range(number(start, 2)):
        at = start + 2 + 12 * entry
        tag, kind, count = number(at, 2), number(at + 2, 2), number(at + 4, 4)
        size = count * _SIZES[kind]
        place = at + 8 if size <= 4 else number(at + 8, 4)
        left -= size
        if tag in found or left < 0 or place + size > len(block):
            raise ValueError("not plain")
        found[tag] = kind, block[place : place + size]
    number(start + 2 + 12 * len(found), 4)
    return {tag: entry for tag, entry in found.items() if entry[1]}
