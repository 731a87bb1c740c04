"""The segments of a JPEG file: copied without what the camera wrote beside the picture, its pixels untouched."""

from __future__ import annotations

import re
from collections.abc import Iterator

_SOI, _EOI, _SOS, _APP0, _APP14, _COMMENT = 0xD8, 0xD9, 0xDA, 0xE0, 0xEE, 0xFE
_PLAIN_FRAMES = {0xC0, 0xC1, 0xC2}
_FRAMES = set(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
_APPLICATION = range(0xE0, 0xF0)
_END_OF_SCAN = re.compile(rb"\xff[^\x00\xd0-\xd7\xff]")
_JFIF = b"\xff\xe0\x00\x10JFIF\x00\x01\x01\x00\x00\x01\x00\x01\x00\x00"


def without_metadata(content: bytes) -> bytes | None:
    """The same picture without EXIF, location, maker notes, comments, thumbnails and whatever follows its end.

    Returns:
        None when it cannot be copied as it is: damaged, or coded in a way that a PDF does not show.

    Source: ITU-T T.81, annex B (the markers); ISO 32000-1, 7.4.8 (baseline and progressive are shown).
    """
    kept = [b"\xff\xd8"]
    try:
        for marker, segment in _segments(content):
            if marker in _FRAMES and (marker not in _PLAIN_FRAMES or segment[4] != 8):
                return None
            kept.append(_cleaned(marker, segment))
    except (IndexError, ValueError):
        return None
    return b"".join(kept)


def application_segments(content: bytes) -> list[bytes]:
    """What stands in a JPEG beside the picture, segment by segment with its marker: EXIF, profiles, comments."""
    return [segment for marker, segment in _segments(content) if marker in _APPLICATION or marker == _COMMENT]


def _cleaned(marker: int, segment: bytes) -> bytes:
    if marker == _APP0 and segment[4:9] == b"JFIF\0":
        return _JFIF
    # The Adobe segment tells how the colours are coded; its twelve bytes hold nothing else.
    if marker == _APP14 and segment[4:9] == b"Adobe":
        return segment if len(segment) == 16 else b""
    return b"" if marker in _APPLICATION or marker == _COMMENT else segment


def _segments(content: bytes) -> Iterator[tuple[int, bytes]]:
    if content[:2] != b"\xff\xd8":
        raise ValueError("no start of a picture")
    at = 2
    while True:
        if content[at] != 0xFF:
            raise ValueError("no marker where one must be")
        while content[at + 1] == 0xFF:
            at += 1
        marker = content[at + 1]
        if marker == _EOI:
            yield marker, b"\xff\xd9"
            return
        end = at + 2 + int.from_bytes(content[at + 2 : at + 4], "big")
        if marker == _SOS:
            found = _END_OF_SCAN.search(content, end)
            if not found:
                raise ValueError("the scan does not end")
            end = found.start()
        if not at + 4 <= end <= len(content):
            raise ValueError("a segment is cut off")
        yield marker, content[at:end]
        at = end
