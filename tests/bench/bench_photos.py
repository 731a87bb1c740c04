"""Photos for print, timed against pyvips thumbnailing the same files, and the memory that large ones need.

Run by hand: python tests/bench/bench_photos.py
"""

from __future__ import annotations

import functools
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

import numpy as np
from by_hand import arguments
from PIL import Image

from claimpack.evidence.pictures.photos import PrintSize, prepare_all

ROUNDS = 5
PHOTOS = 24
SIZE = PrintSize()
PEAK = """
import sys
from pathlib import Path
from claimpack.evidence.pictures.photos import PrintSize, prepare_all
prepare_all([(name, Path(name)) for name in sys.argv[1:]], PrintSize())
print(Path("/proc/self/status").read_text().split("VmHWM:")[1].split()[0])
"""


def scene(width: int, height: int, seed: int) -> Image.Image:
    """Soft shapes, fine texture and sensor grain: about as many bytes a pixel as a phone's photo."""
    random = np.random.default_rng(seed)
    shapes = Image.fromarray(random.integers(0, 256, (height // 64, width // 64, 3), dtype=np.uint8))
    texture = Image.fromarray(random.integers(96, 160, (height // 6, width // 6), dtype=np.uint8))
    picture = np.asarray(shapes.resize((width, height), Image.Resampling.BICUBIC), np.int16)
    picture = (
        picture + (np.asarray(texture.resize((width, height), Image.Resampling.BICUBIC), np.int16) - 128)[..., None]
    )
    grain = random.normal(0, 4, (height, width, 1)).astype(np.int16)
    return Image.fromarray(np.clip(picture + grain, 0, 255).astype(np.uint8))


def shoot(folder: Path, count: int, width: int, height: int, scenes: int = 6) -> list[Path]:
    """So many photos, made from a few scenes."""
    pictures = [scene(width, height, seed) for seed in range(scenes)]
    paths = [folder / f"{width}-{number}.jpg" for number in range(count)]
    for number, path in enumerate(paths):
        pictures[number % scenes].save(path, quality=90)
    return paths


def median_times(ways: Sequence[Callable[[], Sequence[bytes]]]) -> list[tuple[float, float]]:
    """Seconds of each way, the median of five rounds taken in turn, and the mean kilobytes of its results."""
    spent: list[list[float]] = [[] for _ in ways]
    sizes = [0.0 for _ in ways]
    for _ in range(ROUNDS):
        for number, way in enumerate(ways):
            start = time.perf_counter()
            results = way()
            spent[number].append(time.perf_counter() - start)
            sizes[number] = sum(map(len, results)) / len(results) / 1000
    return [(statistics.median(times), size) for times, size in zip(spent, sizes, strict=True)]


def ours(paths: Sequence[Path]) -> list[bytes]:
    """The project's way."""
    return [photo.jpeg for photo in prepare_all([(path.name, path) for path in paths], SIZE)]


def peer(paths: Sequence[Path], long_edge: int) -> list[bytes]:
    """One after another through pyvips, which uses several threads itself."""
    import pyvips

    return [pyvips.Image.thumbnail(str(path), long_edge).write_to_buffer(".jpg") for path in paths]


def peak_megabytes(paths: Sequence[Path]) -> float:
    """The most memory a process of its own held while it prepared the photos.

    Not from getrusage, which counts in what the parent held when it started the child.
    """
    run = [sys.executable, "-c", PEAK, *map(str, paths)]
    return int(subprocess.run(run, check=True, capture_output=True, text=True).stdout) / 1024


def main() -> None:
    """Print the ratio and the memory."""
    with tempfile.TemporaryDirectory() as name:
        paths = shoot(Path(name), PHOTOS, 4000, 3000)
        edges = (SIZE.long_edge, 2000)
        ways = [functools.partial(ours, paths), *(functools.partial(peer, paths, edge) for edge in edges)]
        (spent, size), *references = median_times(ways)
        print(f"{PHOTOS} photos of 12 megapixels, {SIZE}: {spent:.2f} s, {size:.0f} kB each")
        for edge, (reference, kilobytes) in zip(edges, references, strict=True):
            print(f"pyvips to {edge}: {reference:.2f} s, {kilobytes:.0f} kB each; ratio {spent / reference:.2f}")
        large = shoot(Path(name), 6, 8064, 6048, scenes=1)
        print(f"peak memory with six 48-megapixel photos: {peak_megabytes(large):.0f} MB")


if __name__ == "__main__":
    arguments(__doc__)
    main()
