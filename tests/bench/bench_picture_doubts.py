"""How often a good picture is doubted, and a bad one is not: on the sample claims' photos and on folders of photos.

Run by hand: python tests/bench/bench_picture_doubts.py FOLDER…

The folders hold photographs as they are: those of scikit-image's data, of scikit-learn's and matplotlib's, of packages
of desktop pictures. Each is told of as it is, then darkened by four and five stops, overexposed until half of it is
white, blurred by 0.3, 1 and 2 % of its longer edge, moved by 2 and 4 % of it, and made small.
"""

from __future__ import annotations

import io
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

import numpy as np
from by_hand import Given, arguments
from PIL import Image, ImageFilter

from claimpack.core.clauses.picture_doubts import USUAL, picture_doubts
from claimpack.evidence.pictures.measuring import measures

SAMPLES = Path(__file__).parents[2] / "sample_claims"
KINDS = {".jpg", ".jpeg", ".png"}
LEAST = 600


def taken(path: Path) -> Image.Image | None:
    """A picture as a camera would give it, 1600 pixels long at most; None where it is too small to be a photo."""
    picture = Image.open(path)
    picture.draft("L", (1600, 1600))
    grey = picture.convert("L")
    grey.thumbnail((1600, 1600))
    return grey if max(grey.size) >= LEAST else None


def exposed(picture: Image.Image, gain: float) -> Image.Image:
    light = (np.asarray(picture, np.float32) / 255) ** 2.2 * gain
    noise = np.random.default_rng(1).normal(0, 2, light.shape)
    return Image.fromarray(np.clip(np.clip(light, 0, 1) ** (1 / 2.2) * 255 + noise, 0, 255).astype(np.uint8))


def half_white(picture: Image.Image) -> Image.Image:
    return exposed(picture, 1 / max(1e-3, float(np.median((np.asarray(picture) / 255) ** 2.2))))


def blurred(share: float) -> Callable[[Image.Image], Image.Image]:
    return lambda picture: picture.filter(ImageFilter.GaussianBlur(share * max(picture.size)))


def moved(share: float) -> Callable[[Image.Image], Image.Image]:
    def smeared(picture: Image.Image) -> Image.Image:
        steps = round(share * max(picture.size))
        shades = np.asarray(picture, np.float32)
        whole = sum(np.roll(shades, step, 1) for step in range(steps)) / steps
        return Image.fromarray(whole.astype(np.uint8)).crop((steps, 0, *picture.size))

    return smeared


def saved(picture: Image.Image, quality: int = 85) -> Image.Image:
    buffer = io.BytesIO()
    picture.save(buffer, "JPEG", quality=quality)
    return Image.open(buffer)


WAYS: dict[str, tuple[str, Callable[[Image.Image], Image.Image]]] = {
    "as it is": ("", lambda picture: picture),
    "a stop darker": ("", lambda picture: exposed(picture, 0.5)),
    "saved at quality 40": ("", lambda picture: saved(picture, 40)),
    "4 stops darker": ("dark", lambda picture: exposed(picture, 1 / 16)),
    "5 stops darker": ("dark", lambda picture: exposed(picture, 1 / 32)),
    "half of it white": ("burnt", half_white),
    "blurred 0.3 %": ("blurred", blurred(0.003)),
    "blurred 1 %": ("blurred", blurred(0.01)),
    "blurred 2 %": ("blurred", blurred(0.02)),
    "moved 2 %": ("blurred", moved(0.02)),
    "moved 4 %": ("blurred", moved(0.04)),
    "480 pixels": ("small", lambda picture: picture.resize((480, 360))),
}


def doubted(picture: Image.Image) -> set[str]:
    seen = saved(picture)
    return {doubt.key for doubt in picture_doubts(measures(seen.convert("L"), seen.size), "", USUAL)}


def pictures(folders: list[Path]) -> Iterator[tuple[Path, Image.Image]]:
    for folder in (SAMPLES, *folders):
        for path in sorted(path for path in folder.rglob("*") if path.suffix.casefold() in KINDS):
            picture = taken(path) if "pictures" not in path.parts else None
            if picture is not None:
                yield path, picture


def main(folders: list[Path]) -> None:
    wrong: dict[str, list[str]] = {name: [] for name in WAYS}
    count = 0
    for path, picture in pictures(folders):
        count += 1
        for name, (wanted, change) in WAYS.items():
            found = doubted(change(picture)) - ({"small"} if wanted != "small" else set())
            if wanted not in found if wanted else found:
                wrong[name].append(path.name)
    good = sum(len(names) for name, names in wrong.items() if not WAYS[name][0])
    bad = sum(len(names) for name, names in wrong.items() if WAYS[name][0])
    for name, names in wrong.items():
        print(f"{name:20} {'missed' if WAYS[name][0] else 'doubted'} {len(names):3} of {count}  {' '.join(names[:6])}")
    goods = sum(not wanted for wanted, _ in WAYS.values())
    print(f"false alarms {100 * good / count / goods:.1f} %, misses {100 * bad / count / (len(WAYS) - goods):.1f} %")


if __name__ == "__main__":
    main([Path(name) for name in arguments(__doc__, Given("folder", [], "folders of good photographs")).folder])
