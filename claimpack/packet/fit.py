"""A packet made to fit a size: photos step down together, close looks last, and what was done is told."""

from __future__ import annotations

import io
import re
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

import pikepdf

from claimpack.core.values.numbers_said import how_many
from claimpack.core.values.words import folded
from claimpack.errors import BadInput
from claimpack.packet.assemble import PAPER
from claimpack.packet.sealing.fingerprints import is_jpeg

# Each drawing of a long packet takes seconds, and halving nine levels needs no more.
MOST_DRAWS = 6

# mail servers and portals mean either by MB; what they write is taken at its word
_UNITS = {"": 1, "b": 1, "kb": 1000, "mb": 1000**2, "gb": 1000**3, "kib": 1 << 10, "mib": 1 << 20, "gib": 1 << 30}
_SIZE = re.compile(r"(\d{1,12})(?:\.(\d{1,6}))?\s*([A-Za-z]*)", re.ASCII)
# A packet that fills nine tenths of the limit is not worth another drawing.
_GOOD_USE = 0.9


class PrintStep(NamedTuple):
    """How large a photo is embedded: pixels along the longer edge, and the JPEG quality from 1 to 95."""

    long_edge: int
    quality: int


STEPS = (
    # across the body of a page, some 18 cm, these are still more than 200 pixels an inch
    PrintStep(1600, 78),
    PrintStep(1440, 76),
    PrintStep(1280, 74),
    PrintStep(1120, 72),
    PrintStep(1000, 70),
    PrintStep(880, 68),
    PrintStep(760, 65),
    PrintStep(640, 62),
)
"""From what print needs down to the least at which a part can still be made out on half a page."""

# words of shots, as plans ask for them: what an adjuster looks at closest
_CLOSE = {"damage": 2, "close up": 2, "closeup": 2, "failed part": 2, "crack": 2, "plate": 1, "serial": 1}
# The last level lets close looks drop to one step above the smallest, where nothing else makes room.
_LEVELS = (*((level, 2) for level in range(len(STEPS))), (len(STEPS) - 1, 1))
_LAST = len(_LEVELS) - 1


class PhotoNeed(NamedTuple):
    """A photo of the packet and what it shows, in the words of the claim."""

    file: str
    shot: str


Draw = Callable[[Mapping[str, PrintStep]], bytes]
"""Makes the packet with each photo at its step."""


@dataclass(frozen=True)
class Fitted:
    """A packet within the limit, the step of each photo by file, and what was done to make it fit."""

    pdf: bytes
    steps: Mapping[str, PrintStep]
    notes: tuple[str, ...] = ()


class BytesTaken(NamedTuple):
    """What takes the bytes of a packet: pictures of the claim, papers, and the rest (pages, typefaces, data)."""

    photos: int
    papers: int
    rest: int


def size_limit(text: str) -> int:
    """A size such as `5MB`, `800 kB`, `4.5 MiB` or `5000000` in bytes; kB and MB are thousands, KiB and MiB 1024s.

    Raises:
        BadInput: it is no size, or less than one byte.

    Source: IEC 80000-13 (binary prefixes); SI (decimal prefixes, no matter the case of k).
    """
    found = _SIZE.fullmatch(text.strip())
    # 5 alone would be five bytes, and nobody means that
    if found and not found[3]:
        raise BadInput(
            f"--limit {text}: {text} what?",
            "A size has a unit: kB, MB, KiB, MiB or B.",
            f"Write {text}MB, or {text}B where bytes are meant.",
        )
    unit = _UNITS.get(found[3].casefold()) if found else None
    if found is None or unit is None:
        raise _no_size(text)
    fraction = found[2] or ""
    # in whole numbers: 4.35 MB as a float is a byte short
    size = int(found[1] + fraction) * unit // int("1" + "0" * len(fraction))
    if size < 1:
        raise _no_size(text)
    return size


def _no_size(text: str) -> BadInput:
    return BadInput(
        f"{text!r} is not a size that a packet could have",
        "A size is a number above zero and a unit: kB, MB, KiB, MiB or B.",
        "Write it like 5MB.",
    )


def fit(limit: int, photos: Sequence[PhotoNeed], draw: Draw) -> Fitted:
    """The packet with as much detail as the limit leaves room for, drawn at most six times.

    Every photo starts at what print needs. When the packet is too large, all photos step down together; the failed
    part and its damage stay two steps ahead, serial plates one.

    Args:
        limit: the most bytes the packet may have.
        photos: the photos in the packet.
        draw: makes the packet with each photo at its step.

    Raises:
        BadInput: it cannot fit; says by how much and what takes the room.
    """
    search = _Search(limit, photos, draw)
    # Most packets fit as they are, and are then drawn once only.
    first = search.try_level(0)
    if search.best:
        return Fitted(first, search.steps(0))
    room = room_taken(first)
    # papers and pages do not shrink, so no drawing with smaller photos would help
    if not photos or room.papers + room.rest > limit:
        raise _cannot_fit(
            # what would be left with no photo at all
            limit,
            len(first) - bool(photos) * room.photos,
            room if not photos else room._replace(photos=0),
        )
    search.narrow(room)
    level, pdf = search.best or search.smallest()
    return Fitted(pdf, search.steps(level), tuple(_notes(search.steps(0), search.steps(level))))


class _Search:
    """The search for the best level that fits: guessed from sizes, then narrowed from both sides."""

    def __init__(self, limit: int, photos: Sequence[PhotoNeed], draw: Draw) -> None:
        self._limit = limit
        self._photos = photos
        self._draw = draw
        self._draws = 0
        self._too_large = 0
        self.best: tuple[int, bytes] | None = None

    def steps(self, level: int) -> dict[str, PrintStep]:
        """The step of each photo at a level."""
        others, most_ahead = _LEVELS[level]
        # what shows the failure stays sharper than what shows the whole machine
        return {need.file: STEPS[max(0, others - min(steps_ahead(need.shot), most_ahead))] for need in self._photos}

    def try_level(self, level: int) -> bytes:
        """Draw at a level and keep what it shows about the limit.

        Raises:
            BadInput: it is the last level, and the packet is still too large.
        """
        pdf = self._draw(self.steps(level))
        self._draws += 1
        if len(pdf) <= self._limit:
            self.best = (level, pdf)
        elif level == _LAST:
            raise _cannot_fit(self._limit, len(pdf), room_taken(pdf))
        else:
            self._too_large = max(self._too_large, level)
        return pdf

    def smallest(self) -> tuple[int, bytes]:
        """The last level, drawn; what does not fit there does not fit at all."""
        return _LAST, self.try_level(_LAST)

    def narrow(self, room: BytesTaken) -> None:
        """Draw at levels between the best that fits and the worst that does not; leaves one draw for the smallest."""
        fixed, photos = room.papers + room.rest, float(room.photos)
        scale = photos / self._weight(0)
        # While nothing fits yet, the last drawing is kept for the smallest level, which decides whether it fits at all.
        while self._draws < MOST_DRAWS - (self.best is None) and not self._settled():
            level = self._guess(fixed, scale)
            pdf = self.try_level(level)
            # What the last drawing weighed tells the photos of this claim better than any rule of thumb.
            scale = max(len(pdf) - fixed, 1) / self._weight(level)

    def _settled(self) -> bool:
        if self.best is None:
            return False
        level, pdf = self.best
        # The next level up is known to be too large, or there is little to gain.
        return level == self._too_large + 1 or len(pdf) >= self._limit * _GOOD_USE

    def _guess(self, fixed: int, scale: float) -> int:
        low = self._too_large + 1
        high = self.best[0] - 1 if self.best else _LAST
        # the first level that should fit by what the last drawing weighed: the sharpest there is, or all that is left
        for level in range(low, high):
            if fixed + scale * self._weight(level) <= self._limit:
                return level
        return high

    def _weight(self, level: int) -> float:
        # JPEG size grows a little slower than the pixels do, and about with the square of the quality.
        steps = self.steps(level).values()
        return sum(step.long_edge**1.8 * step.quality**2 for step in steps) or 1.0


def steps_ahead(shot: str) -> int:
    """How many steps larger a shot is kept than others: two for the failed part and its damage, one for plates."""
    said = folded(shot)
    # the plate of a failed part shows the failed part
    return max((ahead for word, ahead in _CLOSE.items() if word in said), default=0)


def _notes(before: Mapping[str, PrintStep], after: Mapping[str, PrintStep]) -> Iterable[str]:
    smaller = Counter(step for file, step in after.items() if step != before[file])
    for step, count in sorted(smaller.items(), reverse=True):
        photos = how_many(count, "photo")
        yield f"{photos} re-encoded at {step.long_edge} px, quality {step.quality}"


def room_taken(packet: bytes) -> BytesTaken:
    """What takes the bytes of a packet."""
    photos = papers = 0
    with pikepdf.open(io.BytesIO(packet)) as pdf:
        of_papers = set()
        for page in pdf.pages:
            forms: Any = page.obj.get("/Resources", pikepdf.Dictionary()).get("/XObject", pikepdf.Dictionary())
            for name, form in forms.items():
                if name.startswith(PAPER):
                    of_papers |= _reached(form)
        for thing in pdf.objects:
            if not isinstance(thing, pikepdf.Stream):
                continue
            size = len(thing.read_raw_bytes())
            # scans inside papers first: they are JPEGs too, and do not shrink
            if thing.objgen in of_papers:
                papers += size
            elif is_jpeg(thing):
                photos += size
    return BytesTaken(photos, papers, max(0, len(packet) - photos - papers))


def _reached(start: pikepdf.Object) -> set[tuple[int, int]]:
    reached: set[tuple[int, int]] = set()
    waiting = [start]
    while waiting:
        thing = waiting.pop()
        if thing.is_indirect:
            # objects of a PDF may refer to each other in a circle
            if thing.objgen in reached:
                continue
            reached.add(thing.objgen)
        inner = list(thing) if isinstance(thing, pikepdf.Array) else [value for _, value in thing.items()]
        waiting += [item for item in inner if isinstance(item, pikepdf.Array | pikepdf.Dictionary | pikepdf.Stream)]
    return reached


def _cannot_fit(limit: int, size: int, room: BytesTaken) -> BadInput:
    shares = [("photos at their smallest", room.photos), ("papers", room.papers), ("pages and typefaces", room.rest)]
    said = ", ".join(f"{what} {in_words(share)}" for what, share in shares if share)
    largest = max(shares, key=lambda item: item[1])[0].split()[0]
    advice = {
        "photos": "Leave out photos the maker does not ask for, or raise the limit.",
        "papers": "Scan the papers with fewer dots an inch, send them apart, or raise the limit.",
    }
    return BadInput(
        f"the packet cannot be made smaller than {in_words(size)}, {in_words(size - limit)} over the limit",
        f"What takes the room: {said}.",
        advice.get(largest, "Raise the limit."),
    )


def too_large_with_originals(size: int, limit: int) -> str:
    """That the originals are left out, and by how much the packet with them is over the limit."""
    over = in_words(size - limit)
    return f"the originals are not attached: with them the packet has {in_words(size)}, {over} over the limit"


def in_words(size: int) -> str:
    """A number of bytes as a person says it, in thousands: `4.2 MB`, `310 kB`."""
    if size >= 1_000_000:
        return f"{size // 100_000 / 10:.1f} MB"
    return f"{size // 1000} kB" if size >= 1000 else f"{size} bytes"
