"""The segments of a JPEG file: copied without what the camera wrote beside the picture, its pixels untouched."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from itertools import islice

_EOI, _SOS, _APP0, _APP14, _COMMENT = 0xD9, 0xDA, 0xE0, 0xEE, 0xFE
_APPLICATION = range(0xE0, 0xF0)
# Baseline, extended and progressive, at eight bits: what PDF readers show. Others are decoded and encoded anew.
_PLAIN_FRAMES = {0xC0, 0xC1, 0xC2}
_FRAMES = set(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
_PROGRESSIVE = {0xC2, 0xC6, 0xCA, 0xCE}
_HUFFMAN, _QUANTIZING, _RESTART = 0xC4, 0xDB, 0xDD
_END_OF_SCAN = re.compile(rb"\xff[^\x00\xd0-\xd7\xff]")
# written anew in its shortest form, without the thumbnail that may be in it
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
            # the fifth byte is how many bits a sample has
            if marker in _FRAMES and (marker not in _PLAIN_FRAMES or segment[4] != 8):
                return None
            kept.append(_cleaned(marker, segment))
    except (IndexError, ValueError):
        return None
    return b"".join(kept)


def application_segments(content: bytes) -> list[bytes]:
    """What stands in a JPEG beside the picture, segment by segment with its marker: EXIF, profiles, comments."""
    return [segment for marker, segment in _segments(content) if marker in _APPLICATION or marker == _COMMENT]


def up_to_the_scan(content: bytes) -> list[tuple[int, bytes]]:
    """The segments before the picture itself, each with its marker, and the head of its first scan.

    Raises:
        ValueError: one that draws is not as long as it must be, or is none that PDF readers show.
        IndexError: they do not end, or one is cut off.
    """
    segments = list(_segments(content, until_scan=True))
    for marker, segment in segments:
        if marker == _EOI or (marker not in _SAYS and marker not in _APPLICATION and marker != _COMMENT):
            raise ValueError("no segment of a plain picture")
        _cleaned(marker, segment)
    return segments


def scan_count(content: bytes, most: int) -> int:
    """How many passes over the picture a decoder would make; counted no further than one above the most."""
    try:
        if _has_one_scan(content):
            return 1
        scans = (marker for marker, _ in _segments(content) if marker == _SOS)
        return sum(1 for _ in islice(scans, most + 1))
    except (IndexError, ValueError):
        # A decoder looks for the next marker beyond what is damaged, so every one that might be a scan counts.
        return content.count(bytes((0xFF, _SOS)))


def _has_one_scan(content: bytes) -> bool:
    components = 0
    for marker, segment in _segments(content, until_scan=True):
        if marker in _PROGRESSIVE:
            return False
        if marker in _FRAMES:
            components = segment[9]
        elif marker == _SOS:
            return segment[4] == components
    return False


def _cleaned(marker: int, segment: bytes) -> bytes:
    """What of a segment draws the picture; empty for all the others, known to anybody or not.

    Raises:
        ValueError: the segment is longer than what it has to say.
    """
    if marker == _APP0:
        return _JFIF if segment[4:9] == b"JFIF\0" else b""
    # The Adobe segment tells how the colours are coded; its twelve bytes hold nothing else.
    if marker == _APP14:
        return segment if segment[4:9] == b"Adobe" and len(segment) == 16 else b""
    if marker == _EOI:
        return segment
    if marker not in _SAYS:
        return b""
    if _SAYS[marker](segment) != int.from_bytes(segment[2:4], "big"):
        raise ValueError("a segment holds more than it says")
    return segment


def _tables(segment: bytes, length: Callable[[bytes], int]) -> int:
    """Two, and the length of every table in the segment."""
    at = 4
    while at < len(segment):
        at += length(segment[at:])
    return at - 2


def _huffman_table(table: bytes) -> int:
    return 17 + sum(table[1:17])


def _quantizing_table(table: bytes) -> int:
    return 129 if table[0] >> 4 else 65


# The segments that draw, each with the length it must have (ITU-T T.81, B.2.2 to B.2.4).
_SAYS: dict[int, Callable[[bytes], int]] = {
    **dict.fromkeys(_PLAIN_FRAMES, lambda frame: 8 + 3 * frame[9]),
    _HUFFMAN: lambda segment: _tables(segment, _huffman_table),
    _QUANTIZING: lambda segment: _tables(segment, _quantizing_table),
    _RESTART: lambda _: 4,
    _SOS: lambda scan: 6 + 2 * scan[4],
}


def _segments(content: bytes, *, until_scan: bool = False) -> Iterator[tuple[int, bytes]]:
    if content[:2] != b"\xff\xd8":
        raise ValueError("no start of a picture")
    at = 2
    while True:
        if content[at] != 0xFF:
            raise ValueError("no marker where one must be")
        # fill bytes may stand before any marker (ITU-T T.81, B.1.1.2)
        while content[at + 1] == 0xFF:
            at += 1
        marker = content[at + 1]
        if marker == _EOI:
            yield marker, b"\xff\xd9"
            return
        end = at + 2 + int.from_bytes(content[at + 2 : at + 4], "big")
        if marker == _SOS and until_scan:
            yield marker, content[at:end]
            return
        if marker == _SOS:
            found = _END_OF_SCAN.search(content, end)
            if not found:
                raise ValueError("the scan does not end")
            end = found.start()
        yield marker, content[at:end]
        at = end
