"""A packet with 24 photos of 12 megapixels beside pyvips thumbnailing the same photos, and its peak memory.

`python tests/bench/bench_packet.py`; needs pyvips (the `bench` extra). Memory is measured with six photos of 48
megapixels.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

import numpy as np
from by_hand import arguments
from PIL import Image, ImageFilter
from timing import CLAIMPACK, medians

CLAIM = """format = 1
number = "26-9999"
maker = "halden"
[unit]
model = "CS-70"
serials = [ {role = "unit", value = "HC70-118-20417"} ]
[dates]
purchased = 2025-06-01
presented = 2026-02-05
"""

VIPS = """
import sys, pyvips
for path in sys.argv[1:]:
    pyvips.Image.thumbnail(path, 1600).write_to_buffer(".jpg")
"""

PEAK = """
import sys
from claimpack.__main__ import run
from claimpack.commands.desk.world import World
run(sys.argv[1:], World())
print(open("/proc/self/status").read())
"""


def photo(path: Path, width: int, height: int, seed: int) -> None:
    """A picture with detail and grain, as a camera makes one."""
    noise = np.random.default_rng(seed)
    coarse = Image.fromarray(noise.integers(0, 255, (height // 40, width // 40, 3), np.uint8))
    picture = coarse.resize((width, height), Image.Resampling.BICUBIC).filter(ImageFilter.GaussianBlur(2))
    grain = noise.normal(0, 6, (height, width, 1))
    Image.fromarray((np.asarray(picture) + grain).clip(0, 255).astype(np.uint8)).save(path, quality=90)


def folder(place: Path, count: int, width: int, height: int) -> list[Path]:
    """A claim folder with that many photos."""
    (place / "photos").mkdir(parents=True)
    photos = [place / "photos" / f"{number}.jpg" for number in range(count)]
    for number, path in enumerate(photos):
        photo(path, width, height, number)
    listed = "".join(f'[[photos]]\nfile = "photos/{path.name}"\n' for path in photos)
    (place / "claim.toml").write_text(CLAIM + listed)
    return photos


def main() -> None:
    """Print the ratio and the memory."""
    with tempfile.TemporaryDirectory() as temporary:
        place = Path(temporary)
        photos = folder(place / "many", 24, 4000, 3000)
        packet = (*CLAIMPACK, "packet", place / "many", "--out", place / "packet.pdf")
        found = medians({"pyvips": (sys.executable, "-c", VIPS, *photos), "packet": packet})
        print(f"pyvips thumbnails  {found['pyvips']:.2f} s")
        print(
            f"claimpack packet   {found['packet']:.2f} s  {found['packet'] / found['pyvips']:.2f} x (aim: at most 1.2)"
        )
        folder(place / "large", 6, 8064, 6048)
        done = subprocess.run(
            [sys.executable, "-c", PEAK, "packet", place / "large", "--out", place / "large.pdf"],
            capture_output=True,
            text=True,
            check=False,
        )
        peak = int(re.findall(r"VmHWM:\s+(\d+)", done.stdout)[0])
        print(f"peak memory, six photos of 48 megapixels: {peak / 1024:.0f} MB (aim: under 250)")


if __name__ == "__main__":
    arguments(__doc__)
    main()
