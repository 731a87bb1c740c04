"""Photos with their marks, papers, the proof of purchase, and what was read off them."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any, Literal

from claimpack.core.facts.fields import FilePath, Fraction, ProofKind
from claimpack.core.facts.record import Record
from claimpack.core.values.days import Day
from claimpack.core.values.marks import BeforeValidator, Field, PlainSerializer
from claimpack.core.values.money import Positive
from claimpack.core.values.words import Line, Named, Text
from claimpack.core.values.written import WrittenAs


class ReadArea(Record):
    """Where on a picture something was read: fractions of its width and height, from the upper left.

    Args:
        x: how far its left edge is from the picture's, as in `0.31`.
        y: how far its upper edge is from the picture's, as in `0.44`.
        width: how wide it is, as in `0.38`.
        height: how high it is, as in `0.05`.
    """

    x: Fraction
    y: Fraction
    width: Annotated[Positive, Field(le=1)]
    height: Annotated[Positive, Field(le=1)]


class ReadOff(Record):
    """What the program read off a picture or a paper, and what a person said who looked.

    Args:
        key: the key of the claim that it tells, as in `unit.serials.unit`.
        text: what was read, as in `HC70-118-20417`.
        by: whether it was read from a bar code, from letters in a picture, or from the text that a file carries.
        area: where on the picture.
        confirmed: what a person who looked says is there; absent while nobody looked.
    """

    key: Named
    text: Named
    by: Literal["code", "letters", "text"]
    area: ReadArea | None = None
    confirmed: Line = ""

    @property
    def shows(self) -> str:
        """What is there: by the word of a person, else as it was read."""
        return self.confirmed or self.text


class Proof(Record):
    """What shows the purchase date.

    Args:
        kind: what shows the day of purchase.
        file: the paper that shows it, as in `papers/receipt.pdf`.
        read: what was read off it, as in `[{key = "dates.purchased", text = "2025-03-14", by = "text"}]`.
    """

    kind: ProofKind | None = None
    file: FilePath | None = None
    read: tuple[ReadOff, ...] = ()


class Mark(Record):
    """A mark over a picture: fractions of its width and height from the upper left; size is a fraction of its width.

    Args:
        shape: a ring has its centre at x, y; a box its upper left corner; an arrow its tip.
        x: how far from the left edge, as a fraction of the picture's width, as in `0.42`.
        y: how far from the upper edge, as a fraction of the picture's height, as in `0.61`.
        size: how large, as a fraction of the picture's width, as in `0.12`.
        note: what it points at, as in `crack`.
    """

    shape: Literal["ring", "arrow", "box"]
    x: Fraction
    y: Fraction
    size: Annotated[Positive, Field(le=1)] = Decimal("0.1")
    note: Line = ""


class Photo(Record):
    """A picture and what it shows.

    Args:
        file: the picture, as in `photos/plate.jpg`.
        shot: what it shows, in the word the plan asks for, as in `serial plate`.
        caption: what is printed below it.
        marks: marks over it, as in `[{shape = "ring", x = 0.42, y = 0.61, note = "crack"}]`.
        read: what was read off it, as in `[{key = "unit.serials.unit", text = "HC70-118-20417", by = "letters"}]`.
    """

    file: FilePath
    shot: Line = ""
    caption: Text = ""
    marks: tuple[Mark, ...] = ()
    read: tuple[ReadOff, ...] = ()


class Paper(Record):
    """A paper of the claim; one of which nothing more is said may be written as its file alone.

    Args:
        file: its file inside the claim folder, as in `papers/service.pdf`.
        kind: what kind of paper it is, as in `maintenance record`.
        on: the day it is of.
    """

    file: FilePath
    kind: Line = ""
    on: Day | None = None


def _as_papers(said: Any) -> Any:
    """Papers of which nothing more is said may be written as their files alone."""
    if not isinstance(said, (list, tuple)):
        return said
    return tuple({IN_SHORT: paper} if isinstance(paper, str) else paper for paper in said)


def papers_in_short(papers: tuple[Paper, ...]) -> list[str | dict[str, Any]]:
    """Papers as they are written: a file alone where nothing more is said of it."""
    told = (paper.model_dump(mode="json", exclude_defaults=True) for paper in papers)
    return [paper[IN_SHORT] if len(paper) == 1 else paper for paper in told]


IN_SHORT = "file"
"""The key of a paper that may stand for the whole of it."""


Papers = Annotated[
    tuple[Paper, ...],
    BeforeValidator(_as_papers),
    PlainSerializer(papers_in_short),
    WrittenAs(tuple[FilePath | Paper, ...]),
]
"""The papers of a claim."""
