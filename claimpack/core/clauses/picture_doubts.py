"""What is doubtful about a picture while it can still be taken again: its light, its sharpness, its size, its day."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, datetime
from decimal import Decimal
from types import MappingProxyType
from typing import NamedTuple

from claimpack.core.facts.record import Record
from claimpack.core.values.likeness import look_alike
from claimpack.core.values.marks import Field
from claimpack.core.values.money import PartOfOne
from claimpack.core.values.words import folded


class PictureLimits(Record):
    """From where on a picture is doubted; what is not given is left to the shop, and then to this tool.

    Args:
        dark: a picture whose brightest twentieth is darker than this share of white is too dark, as in `"0.30"`.
        burnt: the share of a picture that may be pure white, as in `"0.45"`.
        blurred: how soft the sharpest part of a picture may be, 0 sharp to 1 blurred, as in `"0.60"`.
        long_edge: pixels that the longer edge must have, as in `640`.
        shots: the same for single shots, as in `{"serial plate" = 1000}`.
    """

    dark: PartOfOne | None = None
    burnt: PartOfOne | None = None
    blurred: PartOfOne | None = None
    long_edge: int | None = Field(default=None, ge=1, le=100_000)
    shots: dict[str, int] = {}

    def over(self, other: PictureLimits) -> PictureLimits:
        """These limits, and those of another where these say nothing."""
        given = {**other.model_dump(), **self.model_dump(exclude_none=True)}
        return PictureLimits.model_construct(**{**given, "shots": {**other.shots, **self.shots}})

    def edge_of(self, shot: str) -> int:
        """The pixels that the longer edge of a shot must have."""
        by_word = {folded(name): edge for name, edge in self.shots.items()}
        # a plate needs more pixels than a picture of the whole machine
        return by_word.get(folded(shot), self.long_edge or 0)


USUAL = PictureLimits(dark=Decimal("0.28"), burnt=Decimal("0.30"), blurred=Decimal("0.60"), long_edge=640)
"""What holds where neither plan nor shop says otherwise.

Below 640 pixels a photo half a page wide prints with fewer than 200 dots an inch; the others were measured on pictures
by `tests/bench/bench_picture_doubts.py`.
"""


class PictureMeasured(NamedTuple):
    """A picture as it was measured: pixels, thousandths of what the limits are told in, and what it looks like."""

    width: int
    height: int
    brightest: int
    burnt: int
    blurred: int
    likeness: str = ""


class PictureDoubt(NamedTuple):
    """One thing that is doubtful about a picture: its key, what it is, what to do, and the facts it is told with."""

    key: str
    what: str
    do: str
    facts: dict[str, str]

    def said(self, file: str) -> str:
        """The doubt about a file, in one line."""
        return f"{file} {self.what}. {self.do}"


SAYS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "dark": ("is too dark", "Take it again with more light."),
        "burnt": ("is burnt out: much of it is pure white", "Take it again out of the glare, without the flash."),
        "blurred": ("is blurred", "Take it again, held still, and tap the screen on the part to focus."),
        "small": (
            "has {width} x {height} pixels only; {shot} needs {edge} on the longer edge",
            "Take it again with the camera itself; a picture sent through a chat is made smaller.",
        ),
        "alike": ("looks like {other}, saved again or taken twice", "Take one of the two off."),
        "plate-unread": (
            "shows no serial number that could be read",
            "Take it again, nearer and straight on, so that the plate fills the picture.",
        ),
        "plate-differs": (
            "reads {read}, and the claim says {typed}",
            "Is it the right unit, and the right number on the claim?",
        ),
        "another-claim": ("is also on claim {claims}", "Is it the right picture?"),
        "another-day": ("was taken on {taken}, not {wanted}", "Is it the right picture?"),
    }
)
"""What every doubt is, and what to do about it, by its key."""


def picture_doubts(measured: PictureMeasured, shot: str, limits: PictureLimits) -> list[PictureDoubt]:
    """What is doubtful about how a picture came out, the worst first; a picture that is dark is not told to be blurred.

    Source: a rule of this tool's, no source.
    """
    return [_doubt(key, **facts) for key, facts in _found(measured, shot, limits)]


def _found(measured: PictureMeasured, shot: str, limits: PictureLimits) -> Iterator[tuple[str, dict[str, object]]]:
    # Light decides over sharpness: in the dark a camera smears, and a burnt-out area has no edges to be sharp.
    if _is_under(measured.brightest, limits.dark):
        yield "dark", {}
    elif limits.burnt is not None and measured.burnt > limits.burnt * 1000:
        yield "burnt", {}
    elif limits.blurred is not None and measured.blurred > limits.blurred * 1000:
        yield "blurred", {}
    edge = limits.edge_of(shot)
    if max(measured.width, measured.height) < edge:
        named = f"a shot of the {shot}" if shot else "print"
        yield "small", {"width": measured.width, "height": measured.height, "edge": edge, "shot": named}


def _is_under(measured: int, limit: Decimal | None) -> bool:
    return limit is not None and measured < limit * 1000


def of_another_day(taken: datetime | None, presented: date, today: date) -> list[PictureDoubt]:
    """The doubt about a picture that was not taken while the unit was in the shop; none where no camera told a time.

    Source: a rule of this tool's, no source.
    """
    # days and no hours: neither the counter nor every camera's clock is that exact
    if taken is None or presented <= taken.date() <= today:
        return []
    wanted = f"between {presented}, when the unit came in, and today"
    return [_doubt("another-day", taken=taken.date(), wanted=wanted)]


def like_another(file: str) -> PictureDoubt:
    """The doubt about a picture that looks like another one of its claim."""
    return _doubt("alike", other=file)


def no_number() -> PictureDoubt:
    """The doubt about a plate off which no serial number could be read."""
    return _doubt("plate-unread")


def another_number(read: str, typed: str) -> PictureDoubt:
    """The doubt about a plate that reads another serial number than the claim says."""
    return _doubt("plate-differs", read=read, typed=typed)


def of_another_claim(claims: Sequence[str]) -> list[PictureDoubt]:
    """The doubt about a picture that other claims show as well."""
    return [_doubt("another-claim", claims=", ".join(claims))] if claims else []


def alike(pictures: Sequence[tuple[str, PictureMeasured]]) -> dict[str, PictureDoubt]:
    """The pictures of a claim that look like one before them, by their file.

    Source: common practice, no source.
    """
    found = {}
    for place, (file, picture) in enumerate(pictures):
        # the later one is told, since the first may be the one that was meant
        others = (other for other, before in pictures[:place] if look_alike(before.likeness, picture.likeness))
        other = next(others, "")
        if other:
            found[file] = like_another(other)
    return found


def _doubt(key: str, **facts: object) -> PictureDoubt:
    what, do = SAYS[key]
    return PictureDoubt(key, what.format(**facts), do, {name: str(fact) for name, fact in facts.items()})
