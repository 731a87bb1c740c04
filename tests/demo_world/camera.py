"""Turn a raw render into what a phone would have stored: grain, vignette, colour cast, EXIF, ICC, JPEG or HEIC."""

from __future__ import annotations

import argparse
import io
import struct
import zlib
from pathlib import Path

import numpy as np
from PIL import Image, ImageCms, ImageFilter
from shots import SHOTS, Shot

Image.MAX_IMAGE_PIXELS = None
TO_P3 = np.array([[0.8225, 0.1774, 0.0], [0.0332, 0.9669, 0.0], [0.0171, 0.0724, 0.9108]])


def seed_of(shot: Shot) -> int:
    """A seed that stays the same from run to run."""
    return zlib.crc32(shot.key.encode())


def expose(picture: Image.Image) -> Image.Image:
    """What a phone does by itself: lift a dark picture so that its middle is grey and its lights are light."""
    light = np.asarray(picture.convert("L").resize((200, 150)), np.float32) / 255
    gain = float(np.clip(0.9 / np.percentile(light, 99), 1.0, 1.7))
    gamma = float(np.clip(np.log(0.37) / np.log(min(float(light.mean()) * gain, 0.9)), 0.66, 1.05))
    table = [min(255, round(255 * min(1.0, value / 255 * gain) ** gamma)) for value in range(256)]
    return picture.point(table * 3)


def develop(raw: Image.Image, shot: Shot) -> Image.Image:
    """Enlarge, soften, tint, darken the corners and add sensor grain."""
    rng = np.random.default_rng(seed_of(shot))
    picture = raw.convert("RGB").resize(shot.size, Image.Resampling.LANCZOS)
    picture = picture.filter(ImageFilter.UnsharpMask(radius=1.6 * shot.size[0] / 2016, percent=45, threshold=2))
    picture = expose(picture)
    width, height = shot.size
    column = (np.linspace(-1, 1, width, dtype=np.float32) * 1.0) ** 2
    row = (np.linspace(-1, 1, height, dtype=np.float32) * 0.75) ** 2
    cast = 1 + rng.normal(0, [0.018, 0.006, 0.022]).astype(np.float32)
    out = np.empty((height, width, 3), np.uint8)
    for top in range(0, height, 512):
        part = np.asarray(picture.crop((0, top, width, min(top + 512, height))), np.float32)
        part = part * cast * (1 - 0.11 * (row[top : top + 512, None, None] + column[None, :, None]))
        shade = 0.6 + 0.7 * (1 - part.mean(axis=2, keepdims=True) / 255)
        luma = rng.normal(0, shot.grain, (*part.shape[:2], 1)).astype(np.float32)
        chroma = rng.normal(0, shot.grain * 0.35, part.shape).astype(np.float32)
        out[top : top + 512] = np.clip(part + (luma + chroma) * shade, 0, 255).astype(np.uint8)
    return Image.fromarray(out)


def linear(values: np.ndarray) -> np.ndarray:
    """Undo the sRGB curve."""
    return np.where(values <= 0.04045, values / 12.92, ((values + 0.055) / 1.055) ** 2.4)


def encoded(values: np.ndarray) -> np.ndarray:
    """Apply the sRGB curve."""
    return np.where(values <= 0.0031308, values * 12.92, 1.055 * np.clip(values, 0, None) ** (1 / 2.4) - 0.055)


def to_p3(picture: Image.Image) -> Image.Image:
    """Convert sRGB pixels to the wide-gamut space that `p3_profile` describes."""
    values = linear(np.asarray(picture, np.float64) / 255) @ TO_P3.T
    return Image.fromarray(np.clip(encoded(values) * 255 + 0.5, 0, 255).astype(np.uint8))


def s15(value: float) -> bytes:
    """An ICC s15Fixed16 number."""
    return struct.pack(">i", round(value * 65536))


def p3_profile() -> bytes:
    """A minimal matrix profile: P3 primaries adapted to D50, the sRGB curve as a parametric curve."""

    def xyz(*numbers: float) -> bytes:
        return b"XYZ \0\0\0\0" + b"".join(map(s15, numbers))

    def words(text: str) -> bytes:
        body = text.encode("utf-16-be")
        return b"mluc\0\0\0\0" + struct.pack(">II2s2sII", 1, 12, b"en", b"US", len(body), 28) + body

    curve = (
        b"para\0\0\0\0"
        + struct.pack(">HH", 3, 0)
        + b"".join(map(s15, (2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045)))
    )
    tags = [
        (b"desc", words("Display P3")),
        (b"cprt", words("No copyright")),
        (b"wtpt", xyz(0.9642, 1.0, 0.8249)),
        (b"rXYZ", xyz(0.51512, 0.24120, -0.00105)),
        (b"gXYZ", xyz(0.29198, 0.69225, 0.04189)),
        (b"bXYZ", xyz(0.15710, 0.06657, 0.78407)),
        (b"rTRC", curve),
        (b"gTRC", curve),
        (b"bTRC", curve),
    ]
    table, body, start = b"", b"", 128 + 4 + 12 * len(tags)
    for name, told in tags:
        data = told + b"\0" * (-len(told) % 4)
        table += name + struct.pack(">II", start + len(body), len(data))
        body += data
    head = struct.pack(
        ">I4s4s4s4s4s6H4s4sI4s4sQI",
        start + len(body),
        b"none",
        b"\x04\0\0\0",
        b"mntr",
        b"RGB ",
        b"XYZ ",
        2026,
        1,
        1,
        0,
        0,
        0,
        b"acsp",
        b"\0" * 4,
        0,
        b"\0" * 4,
        b"\0" * 4,
        0,
        0,
    )
    head += s15(0.9642) + s15(1.0) + s15(0.8249) + b"\0" * 48
    return head + struct.pack(">I", len(tags)) + table + body


def profile_bytes(name: str) -> bytes:
    """The ICC profile that goes into the file."""
    if name == "p3":
        return p3_profile()
    return ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()


def degrees(value: float) -> tuple[float, float, float]:
    """Degrees, minutes and seconds of an angle."""
    whole = int(abs(value))
    minutes = (abs(value) - whole) * 60
    return float(whole), float(int(minutes)), round((minutes - int(minutes)) * 60, 2)


def exif_of(shot: Shot) -> Image.Exif:
    """The EXIF block of an invented phone camera."""
    exif, stamp = Image.Exif(), shot.taken.replace("-", ":")
    exif[0x010F], exif[0x0110], exif[0x0131] = "Ashby Optical", "Pocket 3", "3.1.4"
    exif[0x0112], exif[0x0132] = shot.orientation, stamp
    detail = exif.get_ifd(0x8769)
    detail[0x9003], detail[0x9004] = stamp, stamp
    if shot.offset:
        detail[0x9010] = detail[0x9011] = detail[0x9012] = shot.offset
    detail[0x9291] = f"{seed_of(shot) % 1000:03d}"
    detail[0x829A], detail[0x829D], detail[0x8827] = 1 / (30 + seed_of(shot) % 60), 1.8, 100 + seed_of(shot) % 300
    detail[0x920A], detail[0xA405], detail[0xA001] = 5.6, 26, 65535 if shot.profile == "p3" else 1
    if shot.maker_note:
        detail[0x927C] = shot.maker_note
    if shot.gps:
        place, (north, east) = exif.get_ifd(0x8825), shot.gps
        place[1], place[2] = "N" if north >= 0 else "S", degrees(north)
        place[3], place[4] = "E" if east >= 0 else "W", degrees(east)
        place[5], place[6], place[29] = b"\0", 41.0, stamp[:10]
    return exif


TURNS = {3: Image.Transpose.ROTATE_180, 6: Image.Transpose.ROTATE_90, 8: Image.Transpose.ROTATE_270}


def store(shot: Shot, raw_dir: Path, claims: Path) -> Path:
    """Write one finished photograph below the claim's photos folder."""
    target = claims / shot.claim / "photos" / shot.file
    target.parent.mkdir(parents=True, exist_ok=True)
    picture = develop(Image.open(raw_dir / f"{shot.key}.png"), shot)
    if shot.profile == "p3":
        picture = to_p3(picture)
    if shot.orientation in TURNS:
        picture = picture.transpose(TURNS[shot.orientation])
    options = {"exif": exif_of(shot).tobytes(), "icc_profile": profile_bytes(shot.profile), "quality": shot.quality}
    if target.suffix == ".heic":
        import pillow_heif

        pillow_heif.register_heif_opener()
        picture.save(target, "HEIF", **options)
        return target
    buffer = io.BytesIO()
    picture.save(buffer, "JPEG", optimize=shot.size[0] < 5000, subsampling="4:2:0", **options)
    target.write_bytes(buffer.getvalue())
    return target


def main() -> None:
    """Develop every raw render that exists, or only the named ones."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("raw", type=Path)
    parser.add_argument("claims", type=Path)
    parser.add_argument("--only", nargs="*", default=[])
    args = parser.parse_args()
    for shot in SHOTS:
        if (args.raw / f"{shot.key}.png").exists() and (not args.only or shot.key in args.only):
            target = store(shot, args.raw, args.claims)
            print(f"{target}  {target.stat().st_size // 1024} kB")


if __name__ == "__main__":
    main()
