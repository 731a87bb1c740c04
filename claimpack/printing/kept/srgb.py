"""The colours that every file is printed in: sRGB, told by a profile of our own making."""

from __future__ import annotations

import struct
from collections.abc import Sequence
from functools import cache

# Of the colours as seen in the light of D50, to which profiles are tied. Source: IEC 61966-2-1; ICC.1:2022 annex E
# (the adaptation from D65).
_WHITE = (0.9642, 1.0, 0.8249)
_RED = (0.43607, 0.22249, 0.01392)
_GREEN = (0.38515, 0.71687, 0.09708)
_BLUE = (0.14307, 0.06061, 0.71410)
_ADAPTED = (1.04791, 0.02293, -0.05019, 0.02960, 0.99046, -0.01707, -0.00925, 0.01506, 0.75179)
# From the written value to light: (a x + b) to the power g from d on, c x below. Source: IEC 61966-2-1, 5.2.
_CURVE = (2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045)

_HEADER = 128


@cache
def srgb_profile() -> bytes:
    """The profile as the bytes of an ICC file, version 4.

    Source: ICC.1:2022 7.2 (header), 7.3 (tag table), 10 (tag types).
    """
    tags = {
        b"desc": _told("sRGB IEC61966-2.1"),
        b"cprt": _told("No copyright; free to use for any purpose."),
        b"wtpt": _numbers(b"XYZ ", _WHITE),
        b"chad": _numbers(b"sf32", _ADAPTED),
        b"rXYZ": _numbers(b"XYZ ", _RED),
        b"gXYZ": _numbers(b"XYZ ", _GREEN),
        b"bXYZ": _numbers(b"XYZ ", _BLUE),
        b"rTRC": _curve(),
    }
    at, table, body = _HEADER + 4 + 12 * (len(tags) + 2), b"", b""
    for name, content in tags.items():
        place = struct.pack(">II", at + len(body), len(content))
        # one curve serves all three inks
        for one in (name, b"gTRC", b"bTRC") if name == b"rTRC" else (name,):
            table += one + place
        body += content + b"\0" * (-len(content) % 4)
    size = at + len(body)
    return _header(size) + struct.pack(">I", len(tags) + 2) + table + body


def _header(size: int) -> bytes:
    made = struct.pack(">6H", 2026, 1, 1, 0, 0, 0)
    head = struct.pack(">I4sI4s4s4s", size, b"\0\0\0\0", 0x04300000, b"mntr", b"RGB ", b"XYZ ") + made + b"acsp"
    return (head + b"\0" * 28 + b"".join(map(_fixed, _WHITE))).ljust(_HEADER, b"\0")


def _fixed(number: float) -> bytes:
    return struct.pack(">i", round(number * 65536))


def _numbers(kind: bytes, numbers: Sequence[float]) -> bytes:
    return kind + b"\0" * 4 + b"".join(map(_fixed, numbers))


def _curve() -> bytes:
    return b"para" + b"\0" * 4 + struct.pack(">HH", 3, 0) + b"".join(map(_fixed, _CURVE))


def _told(text: str) -> bytes:
    written = text.encode("utf-16-be")
    return b"mluc" + b"\0" * 4 + struct.pack(">II", 1, 12) + b"enUS" + struct.pack(">II", len(written), 28) + written
