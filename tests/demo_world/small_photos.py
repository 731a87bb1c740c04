"""Make the small photographs of the later sample claims: plates drawn flat, the rest cut from photographs there are.

python small_photos.py ../../sample_claims
"""

from __future__ import annotations

import argparse
import tempfile
from pathlib import Path

from camera import store
from faces import plate
from PIL import Image, ImageFilter
from shots import HALDEN, SAW_ROWS, Plate, Shot

SIZE = (1008, 756)
TRIMMER_ROWS = (("DISPLACEMENT", "25.4 cm3"), ("BLADE", "600 mm"))
APPROVAL, STOCK, PART, CAMPAIGN, GOODWILL = (
    "26-0110-approval-first",
    "26-0112-stock-unit",
    "26-0114-counter-part",
    "26-0116-campaign",
    "26-0118-goodwill",
)
SAW, TRIMMER = "26-0041-short-block/photos/whole.jpg", "26-0052-one-day-late/photos/whole.jpg"
GEARS, BLOCK = "26-0052-one-day-late/photos/failed-part.jpg", "26-0041-short-block/photos/failed-part.jpg"
COIL = "26-0063-statutory-coil/photos/failed-part.jpg"


def shot(claim: str, file: str, taken: str) -> Shot:
    """A small photograph."""
    return Shot(claim, file, taken, size=SIZE, quality=58, grain=2.0)


PLATES: dict[Shot, Plate] = {
    shot(APPROVAL, "plate.jpg", "2026-06-22 09:05:10"): Plate(
        HALDEN, "Cut-off saw", "CS-70", "HC70-119-30215", "2025", SAW_ROWS
    ),
    shot(STOCK, "plate.jpg", "2026-02-20 08:40:31"): Plate(
        HALDEN, "Hedge trimmer", "HT-26", "HT26-219-01430", "2025", TRIMMER_ROWS
    ),
    shot(CAMPAIGN, "plate.jpg", "2026-04-08 10:12:44"): Plate(
        HALDEN, "Cut-off saw", "CS-70", "HC70-118-20871", "2024", SAW_ROWS
    ),
    shot(GOODWILL, "plate.jpg", "2026-04-02 11:02:19"): Plate(
        HALDEN, "Hedge trimmer", "HT-26", "HT26-207-00318", "2024", TRIMMER_ROWS
    ),
}
"""Plates drawn flat on a housing."""

CUTS: dict[Shot, tuple[str, tuple[float, float, float, float], float]] = {
    shot(APPROVAL, "whole.jpg", "2026-06-22 09:02:55"): (SAW, (0.0, 0.1, 0.9, 0.85), 2.0),
    shot(APPROVAL, "failed-part.jpg", "2026-06-22 14:31:20"): (BLOCK, (0.1, 0.0, 0.8, 0.92), -3.0),
    shot(STOCK, "whole.jpg", "2026-02-20 08:38:02"): (TRIMMER, (0.0, 0.2, 0.95, 1.0), 1.5),
    shot(STOCK, "failed-part.jpg", "2026-02-20 13:10:45"): (GEARS, (0.15, 0.1, 1.0, 0.9), -4.0),
    shot(PART, "failed-part.jpg", "2026-03-23 15:20:06"): (COIL, (0.05, 0.0, 0.95, 0.9), 3.0),
    shot(CAMPAIGN, "whole.jpg", "2026-04-08 10:10:13"): (SAW, (0.1, 0.05, 1.0, 0.9), -2.0),
    shot(GOODWILL, "whole.jpg", "2026-04-02 11:00:48"): (TRIMMER, (0.05, 0.1, 1.0, 0.95), -1.5),
    shot(GOODWILL, "failed-part.jpg", "2026-04-02 16:22:37"): (GEARS, (0.0, 0.05, 0.85, 0.85), 5.0),
}
"""Photographs cut from another: which, the part of it from left and top to right and bottom, and a turn in degrees."""


LAID = (
    (-3.5, 1280, (340, 300), 0),
    (8.0, 1500, (180, 220), 90),
    (-9.0, 1050, (620, 120), 180),
    (4.0, 1650, (60, 380), 270),
)
"""How each plate lies in its picture: its turn in degrees, its width, its place, and where the light comes from."""


def on_a_housing(face: Image.Image, nth: int) -> Image.Image:
    """A plate on painted metal, a little askew, in light that falls off."""
    turn, width, (left, top), light = LAID[nth]
    gradient = Image.linear_gradient("L").rotate(light).resize((2000, 1500))
    ground = gradient.point([40 + value // 3 for value in range(256)])
    housing = Image.merge("RGB", [ground.point([round(value * tone) for value in range(256)]) for tone in (0.2, 1, 1)])
    small = face.resize((width, width * 5 // 8), Image.Resampling.LANCZOS).convert("RGBA")
    turned = small.rotate(turn, expand=True, resample=Image.Resampling.BICUBIC)
    shade = Image.new("RGBA", turned.size, (0, 0, 0, 90))
    housing.paste(shade, (left + 12, top + 22), turned)
    housing.paste(turned, (left, top), turned)
    return housing.filter(ImageFilter.GaussianBlur(0.8))


def cut(claims: Path, source: str, share: tuple[float, float, float, float], turn: float) -> Image.Image:
    """A part of another photograph, turned a little and filled to its edges."""
    with Image.open(claims / source) as picture:
        whole = picture.convert("RGB")
    left, top, right, bottom = share
    width, height = whole.size
    part = whole.crop((round(left * width), round(top * height), round(right * width), round(bottom * height)))
    turned = part.rotate(turn, resample=Image.Resampling.BICUBIC)
    edge = 0.07
    inner = (edge * part.width, edge * part.height, (1 - edge) * part.width, (1 - edge) * part.height)
    return turned.crop(tuple(map(round, inner))).resize(SIZE, Image.Resampling.LANCZOS)


def main() -> None:
    """Write every small photograph below the folder named on the command line."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("claims", type=Path)
    claims = parser.parse_args().claims
    with tempfile.TemporaryDirectory() as folder:
        raw = Path(folder)
        for nth, (one, info) in enumerate(PLATES.items()):
            plate(info, raw, "face")
            on_a_housing(Image.open(raw / "face.png"), nth).save(raw / f"{one.key}.png")
        for one, (source, share, turn) in CUTS.items():
            cut(claims, source, share, turn).save(raw / f"{one.key}.png")
        for one in (*PLATES, *CUTS):
            target = store(one, raw, claims)
            print(f"{target}  {target.stat().st_size // 1024} kB")


if __name__ == "__main__":
    main()
