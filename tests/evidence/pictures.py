"""Pictures as cameras, scanners and chat programs leave them."""

from __future__ import annotations

import io
import struct
from pathlib import Path

import numpy as np
from PIL import Image, ImageCms

TAKEN = "2026:03:14 09:05:00"


def gradient(width: int = 120, height: int = 80, mode: str = "RGB") -> Image.Image:
    across, down = np.meshgrid(np.linspace(0, 255, width), np.linspace(0, 255, height))
    return Image.fromarray(np.dstack([across, down, 255 - across]).astype(np.uint8)).convert(mode)


def camera_exif(orientation: int = 1, *, located: bool = True, **stamps: str) -> Image.Exif:
    exif = Image.Exif()
    exif[0x010F], exif[0x0112] = "Ashby Optical", orientation
    exif.get_ifd(0x8769).update({0x9003: stamps.get("taken", TAKEN), 0x927C: b"MAKERNOTE"})
    if "offset" in stamps:
        exif.get_ifd(0x8769)[0x9011] = stamps["offset"]
    if located:
        exif.get_ifd(0x8825).update({1: "N", 2: (51.0, 30.0, 0.0), 3: "W", 4: (0.0, 7.0, 0.0)})
    return exif


P3 = ((0.51512, 0.24120, -0.00105), (0.29198, 0.69225, 0.04189), (0.15710, 0.06657, 0.78407))
SRGB = ((0.43607, 0.22249, 0.01392), (0.38515, 0.71687, 0.09708), (0.14307, 0.06061, 0.71410))
"""Red, green and blue adapted to D50 (Display P3; IEC 61966-2-1)."""


def p3_profile() -> bytes:
    """What phones write."""
    return matrix_profile(P3)


def matrix_profile(primaries: tuple[tuple[float, ...], ...], power: float = 2.4) -> bytes:
    """Primaries with the curve of sRGB, or with one of another power, built tag by tag."""

    def fixed(*numbers: float) -> bytes:
        return b"".join(struct.pack(">i", round(number * 65536)) for number in numbers)

    words = "P3".encode("utf-16-be")
    text = b"mluc" + struct.pack(">IIIHHII", 0, 1, 12, 0x656E, 0x5553, len(words), 28) + words
    curve = b"para" + struct.pack(">IHH", 0, 3, 0) + fixed(power, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045)
    tags = {
        b"desc": text,
        b"cprt": text,
        b"wtpt": b"XYZ \0\0\0\0" + fixed(0.9642, 1.0, 0.8249),
        **{
            name: b"XYZ \0\0\0\0" + fixed(*one)
            for name, one in zip((b"rXYZ", b"gXYZ", b"bXYZ"), primaries, strict=True)
        },
        **dict.fromkeys((b"rTRC", b"gTRC", b"bTRC"), curve),
    }
    table, body, start = b"", b"", 132 + 12 * len(tags)
    for name, value in tags.items():
        table += name + struct.pack(">II", start + len(body), len(value))
        body += value + b"\0" * (-len(value) % 4)
    head = struct.pack(">I4sI4s4s4s", start + len(body), b"none", 0x04000000, b"mntr", b"RGB ", b"XYZ ")
    head += struct.pack(">6H4s", 2026, 1, 1, 0, 0, 0, b"acsp") + bytes(28) + fixed(0.9642, 1.0, 0.8249) + bytes(48)
    return head + struct.pack(">I", len(tags)) + table + body


def srgb_profile() -> bytes:
    return ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()


def stored(path: Path, picture: Image.Image | None = None, **options: object) -> Path:
    (picture or gradient()).save(path, **options)
    return path


def shown(jpeg: bytes) -> np.ndarray:
    return np.asarray(Image.open(io.BytesIO(jpeg)).convert("RGB"), np.int16)


START, END = b"\xff\xd8", b"\xff\xd9"
"""What a JPEG begins and ends with."""


def segment(marker, body):
    """A segment as ITU-T T.81, B.1.1.4 has it: marker, length with its own two bytes, and what it says."""
    return bytes((0xFF, marker)) + (len(body) + 2).to_bytes(2, "big") + body


def frame(marker=0xC0, bits=8, components=3, high=80, wide=120, more=b""):
    head = bytes([bits]) + high.to_bytes(2, "big") + wide.to_bytes(2, "big") + bytes([components])
    return segment(marker, head + bytes(3 * components) + more)


def scan(components=3, more=b""):
    return segment(0xDA, bytes([components]) + bytes(2 * components + 3) + more) + b"\x12\xff\x00\x34"
