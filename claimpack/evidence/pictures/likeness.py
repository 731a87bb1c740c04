"""What a picture looks like, in bits: the same scene saved smaller, paler, turned or cut stays nearly the same."""

from __future__ import annotations

import datetime as dt
import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from operator import mul
from pathlib import Path

from PIL import Image

from claimpack.confined import confined
from claimpack.evidence.pictures.colour import eight_bit, plain
from claimpack.evidence.pictures.exif import camera_facts
from claimpack.evidence.pictures.photos import TURNS
from claimpack.evidence.pictures.picture_files import UNREADABLE, open_picture
from claimpack.evidence.pictures.picture_kinds import decoded_apart

# a JPEG decoded this small is many times faster, and no hash looks at more
_DRAFT = (160, 160)


@dataclass(frozen=True, slots=True)
class Seen:
    """A picture looked at once: its content's hash, its size upright, when it was taken, what it looks like."""

    sha256: str
    bytes: int
    width: int
    height: int
    taken: dt.datetime | None
    likeness: str


def look_at(path: Path, file: str) -> Seen:
    """A picture looked at: every pixel is read, so that one that is cut off is found out now.

    Args:
        path: where it lies.
        file: how the user calls it, for messages.

    Raises:
        NotFound: there is no such file.
        NotInstalled: it is HEIC and this machine lacks the reader.
        BadInput: it is no picture, damaged, or bomb-sized.
    """
    if decoded_apart(path):
        return confined(_look_here, path.absolute(), file, file=file)
    return _look_here(path, file)


def _look_here(path: Path, file: str) -> Seen:
    with open_picture(path, file) as source:
        sha256 = source.sha256()
        facts = camera_facts(source.picture)
        width, height = source.picture.size
        try:
            source.picture.draft("L", _DRAFT)
            source.picture.load()
            turn = TURNS.get(facts.orientation)
            alike = likeness(source.picture if turn is None else source.picture.transpose(turn))
        except UNREADABLE as error:
            raise source.damaged(error) from error
    size = (height, width) if facts.orientation > 4 else (width, height)
    return Seen(sha256, source.size, *size, facts.taken, alike)


def likeness(picture: Image.Image) -> str:
    """What a picture looks like, in hexadecimal digits: the fewer bits differ, the more alike two pictures are.

    Sixteen of the whole picture: a bit for each pair of neighbours in a grid of 9 by 8, whether it grows brighter;
    sixty-four of its detail, in a grid of 17 by 16; sixteen for each of its cuts, which are the same whichever way the
    picture is turned or mirrored. What is flat gives zeros.

    Source: the difference hash and the hash by cosine transform, as described in general literature on image matching.
    """
    grey = plain(eight_bit(picture)).convert("L")
    # once for all cuts, each of which is then a few thousand pixels
    small = grey.reduce(max(1, max(grey.size) // _LONG_EDGE))
    return _neighbours(grey, 9, 8) + _neighbours(grey, 17, 16) + "".join(_cut(small, *cut) for cut in CUTS)


def _neighbours(grey: Image.Image, across: int, down: int) -> str:
    cells = grey.resize((across, down), Image.Resampling.BOX).tobytes()
    rows = (cells[start : start + across] for start in range(0, across * down, across))
    bits = "".join("1" if right > left else "0" for row in rows for left, right in pairwise(row))
    return f"{int(bits, 2):0{len(bits) // 4}x}"


_STEPS = (0.0, 0.1, 0.2)
CUTS = (
    (0.0, 0.0, 1.0),
    *((left, top, 0.8) for left in _STEPS for top in _STEPS),
    *((left, top, 0.9) for left in (0.0, 0.1) for top in (0.0, 0.1)),
    (0.05, 0.05, 0.9),
)
"""The cuts of a picture: where each begins from the left and the top, and its size, as shares of the picture's own."""

_LONG_EDGE = 160
_GRID, _WAVES = 16, 8
_COSINES = tuple(
    tuple(math.cos(math.pi * (2 * place + 1) * wave / (2 * _GRID)) for place in range(_GRID)) for wave in range(_WAVES)
)
# The slow waves first: sixteen without the first, then those that are finer.
_ORDER = tuple(sorted(itertools.product(range(_WAVES), repeat=2), key=max))[1:]
# A wave weaker than this, or than this share of the strongest, is chance; a cut with fewer that are not shows no scene,
# as a wall or the sky does.
_NOISE, _WEAK, _LEAST_TOLD = 6.0, 0.005, 40


def _cut(small: Image.Image, left: float, top: float, size: float) -> str:
    """The signs of the slow waves in a cut, once it is turned and mirrored so that they are the same every way."""
    box = (left * small.width, top * small.height, (left + size) * small.width, (top + size) * small.height)
    cells = small.resize((_GRID, _GRID), Image.Resampling.BOX, box=box).tobytes()
    rows = [cells[start : start + _GRID] for start in range(0, _GRID * _GRID, _GRID)]
    across = [[sum(map(mul, row, wave)) for wave in _COSINES] for row in rows]
    columns = list(zip(*across, strict=True))
    waves = [[sum(map(mul, column, wave)) for column in columns] for wave in _COSINES]
    flip_x, flip_y = waves[0], [row[0] for row in waves]
    least = max(_NOISE, _WEAK * max(abs(waves[y][x]) for y, x in _ORDER))
    if sum(abs(waves[y][x]) >= least for y, x in _ORDER) < _LEAST_TOLD:
        return "0" * 16
    if _energy(flip_y) > _energy(flip_x):
        # the stronger direction lies across, so that a quarter turn changes nothing
        waves = [list(column) for column in zip(*waves, strict=True)]
        flip_x, flip_y = flip_y, flip_x
    signs_x, signs_y = _leads(flip_x), _leads(flip_y)
    bits = "".join(
        "1" if waves[y][x] * (signs_x * (x % 2) or 1) * (signs_y * (y % 2) or 1) > 0 else "0" for y, x in _ORDER
    )
    return f"{int(bits, 2):016x}"


def _energy(waves: Sequence[float]) -> float:
    return sum(wave * wave for wave in waves[1:])


def _leads(waves: Sequence[float]) -> int:
    """The sign of the stronger of the two waves that mirroring turns over."""
    return 1 if max(waves[1], waves[3], key=abs) > 0 else -1
