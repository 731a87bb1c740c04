"""How a picture came out: measured in light and sharpness, so that a bad one is taken again while it can be."""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from PIL import Image, ImageChops, ImageFilter

from claimpack.confined import confined
from claimpack.core.clauses.picture_doubts import PictureMeasured
from claimpack.evidence.pictures.colour import eight_bit, plain
from claimpack.evidence.pictures.likeness import likeness
from claimpack.evidence.pictures.memory import threads
from claimpack.evidence.pictures.picture_files import UNREADABLE, open_picture
from claimpack.evidence.pictures.picture_kinds import decoded_apart

# A page shows a photo in about twice as many dots: what is blurred here is blurred in print.
_LONG_EDGE = 800
_WHITE = 252
_TILES = (6, 6)
# Of a picture's tiles so many may lie behind or before the part that the camera focused on.
_SHARP_TILES = 5
# Shades that neighbours must differ by, on average, for a tile to tell anything; where none does, a quarter of it.
_PLAIN, _NEARLY_PLAIN = 0.8, 0.2
# Pixels to either side that are smeared into one another.
_SMEAR = 2
_MOST_THREADS = 4


def measured(path: Path, file: str) -> PictureMeasured:
    """A picture measured.

    Args:
        path: where it lies.
        file: how the user calls it, for messages.

    Raises:
        ClaimpackError: as for every picture that cannot be read.
    """
    if decoded_apart(path):
        return confined(_measured_here, path.absolute(), file, file=file)
    return _measured_here(path, file)


def measured_all(files: Sequence[tuple[str, Path]]) -> list[PictureMeasured]:
    """Pictures measured, several at a time, in the order given."""
    with ThreadPoolExecutor(threads(_MOST_THREADS)) as pool:
        return list(pool.map(lambda named: measured(named[1], named[0]), files))


def _measured_here(path: Path, file: str) -> PictureMeasured:
    with open_picture(path, file) as source:
        width, height = source.picture.size
        try:
            # nearly all of the time is decoding, and this is what is measured anyway
            source.picture.draft("L", _small((width, height)))
            grey = plain(eight_bit(source.picture)).convert("L")
        except UNREADABLE as error:
            raise source.damaged(error) from error
    return measures(grey, (width, height))


def measures(grey: Image.Image, size: tuple[int, int]) -> PictureMeasured:
    """What a grey picture measures.

    Args:
        grey: the picture, perhaps decoded small.
        size: its pixels as it is stored.
    """
    small = grey.resize(_small(grey.size), Image.Resampling.BOX)
    shades = small.histogram()
    white = _share(shades[_WHITE:], shades)
    return PictureMeasured(*size, _brightest(shades), white, _blur(small), likeness(small))


def _small(size: tuple[int, int]) -> tuple[int, int]:
    """The size that a picture is measured in."""
    share = min(1.0, _LONG_EDGE / max(size))
    return max(1, round(size[0] * share)), max(1, round(size[1] * share))


def _brightest(shades: Sequence[int]) -> int:
    """The shade that a twentieth of the picture is brighter than, in thousandths of white."""
    # a twentieth is left out, so that a lamp in the picture is not taken for light on what it shows
    left = sum(shades) / 20
    for shade in range(255, -1, -1):
        left -= shades[shade]
        if left < 0:
            return round(shade * 1000 / 255)
    return 0


def _share(some: Sequence[int], of: Sequence[int]) -> int:
    return round(sum(some) * 1000 / max(1, sum(of)))


def _blur(grey: Image.Image) -> int:
    """How little of its fine change a picture loses when it is blurred once more, in its sharpest parts.

    A sharp picture loses most of it, a blurred one has none to lose; a part without any change tells nothing.

    Source: Crete, Dolmiere, Ladret, Nicolas: The blur effect, SPIE 6492 (2007), taken here tile by tile.
    """
    width, height = grey.size
    # a tile of one pixel has no change to lose
    if min(width, height) < 2 * max(_TILES):
        return 0
    # A camera that moved smears one way alone.
    return round(1000 * max(_blur_along(grey, 1, 0), _blur_along(grey, 0, 1)))


def _blur_along(grey: Image.Image, across: int, down: int) -> float:
    change = _change(grey, across, down)
    again = _change(grey.filter(ImageFilter.BoxBlur((_SMEAR * across, _SMEAR * down))), across, down)
    tiles = list(zip(_tiled(change), _tiled(ImageChops.subtract(change, again)), strict=True))
    for least in (_PLAIN, _NEARLY_PLAIN):
        soft = sorted(1 - lost / before for before, lost in tiles if before > least)
        if soft:
            return soft[min(_SHARP_TILES, len(soft)) - 1]
    return 0.0


def _change(grey: Image.Image, across: int, down: int) -> Image.Image:
    """How much each pixel differs from its neighbour."""
    return ImageChops.difference(grey, grey.crop((across, down, *grey.size)))


def _tiled(change: Image.Image) -> list[float]:
    """The mean change of each tile."""
    tiles = change.convert("F").resize(_TILES, Image.Resampling.BOX)
    return [float(tiles.getpixel((x, y))) for y in range(_TILES[1]) for x in range(_TILES[0])]  # type: ignore[arg-type]
