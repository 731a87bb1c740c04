"""A packet layout: paper, sections and their order, and every word printed, as they stand in a layout file."""

from __future__ import annotations

from collections.abc import Iterable
from string import Formatter
from typing import Annotated, Any, Literal

from claimpack.core.facts.keys import record_from, refused
from claimpack.core.facts.record import Record
from claimpack.core.values.marks import AfterValidator, Field
from claimpack.core.values.money import Positive
from claimpack.core.values.wording.sentence import SAYS
from claimpack.core.values.wording.words import WORDS
from claimpack.core.values.words import Line, Named, nearest
from claimpack.packet.drawing.words import PLACES, Words
from claimpack.printing.papers import MM, PAPERS

Section = Literal[
    "cover",
    "reasons",
    "story",
    "findings",
    "money",
    "photos",
    "papers",
    "held",
    "dates",
    "missing",
    "declaration",
    "files",
]


Room = tuple[float, float, float, float]
"""The room inside the margins of a page in points: left, bottom, width, height."""

Reader = Literal["maker", "owner", "shop"]
"""Whom a packet is for: the maker it is sent to, the owner of the unit, the shop itself."""

_FOR_THE_OWNER: tuple[Section, ...] = ("cover", "reasons", "story", "findings", "money", "photos", "papers")

Millimetres = Annotated[Positive, Field(ge=8, le=50)]
"""A margin, from 8 to 50 millimetres."""


class Margins(Record):
    """Paper left free at each edge.

    Args:
        left: free at the left edge, in millimetres, as in `18`.
        right: free at the right edge, in millimetres, as in `18`.
        top: free at the upper edge, in millimetres, as in `20`.
        bottom: free at the lower edge, in millimetres, as in `18`.
    """

    left: Millimetres
    right: Millimetres
    top: Millimetres
    bottom: Millimetres


def _each_once(sections: tuple[str, ...]) -> tuple[str, ...]:
    twice = sorted({section for section in sections if sections.count(section) > 1})
    if twice:
        raise ValueError(f"given twice: {', '.join(twice)}")
    return sections


class Layout(Record):
    """One packet layout; says and spoken hold other sentences and words for those of the program, by their key.

    Args:
        format: the form of the file, always 1.
        id: what the layout is told by, as in `letter`.
        name: what people call it, as in `English, US Letter`.
        like: the id of the layout that everything else is taken from, as in `letter`; in the file alone.
        language: the language of its words, a tag of BCP 47, as in `en-US`.
        paper: the size of the paper.
        sections: the pages, in their order; one left out is not drawn, as in `["cover", "reasons", "money"]`.
        margins: what is free at the edges, in millimetres, as in `{left = 18, right = 18, top = 20, bottom = 18}`.
        photos_per_page: how many photos on a page, as in `2`.
        reader: whom the packet is for; the owner is told no price of the shop, the maker none of the shop's own doubts.
        words: every word printed on the pages.
        says: other sentences for those of the program, by their key.
        spoken: other words for those of the program, by their key.
    """

    format: Literal[1]
    id: Annotated[Named, Field(pattern=r"^[a-z0-9][a-z0-9-]{0,59}$")]
    name: Named
    like: Line = ""
    language: Annotated[Named, Field(pattern=r"^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*$")]
    paper: Literal["letter", "legal", "a4"]
    sections: Annotated[tuple[Section, ...], AfterValidator(_each_once)] = Field(min_length=1)
    margins: Margins
    photos_per_page: Annotated[int, Field(ge=1, le=4)] = 2
    reader: Reader = "maker"
    words: Words
    says: dict[str, Line] = {}
    spoken: dict[str, Line] = {}

    def written_for(self, reader: Reader) -> Layout:
        """The same layout for another reader, without the sections that are none of theirs."""
        shown = _FOR_THE_OWNER if reader == "owner" else self.sections
        # a layout of sections that are none of the owner's leaves no packet, so the usual ones are drawn
        kept = tuple(section for section in self.sections if section in shown) or _FOR_THE_OWNER
        return self.model_copy(update={"reader": reader, "sections": kept})

    @property
    def tells_prices(self) -> bool:
        """Whether prices of the shop and what the maker is asked to pay are told."""
        return self.reader != "owner"

    @property
    def tells_doubts(self) -> bool:
        """Whether the shop's own notes are told: what it should look at before it files."""
        return self.reader == "shop"

    @property
    def page(self) -> tuple[float, float]:
        """Width and height of the paper, in points."""
        return PAPERS[self.paper]

    @property
    def body(self) -> Room:
        """The room inside the margins of an upright page."""
        return self._room(self.page)

    @property
    def body_across(self) -> Room:
        """The room inside the margins of a page that lies across."""
        width, height = self.page
        return self._room((height, width))

    def _room(self, page: tuple[float, float]) -> Room:
        left, right, top, bottom = (
            float(edge) * MM for edge in (self.margins.left, self.margins.right, self.margins.top, self.margins.bottom)
        )
        width, height = page
        return left, bottom, width - left - right, height - top - bottom


def layout_from(data: dict[str, Any], source: str) -> Layout:
    """The layout that a parsed layout file describes.

    Args:
        data: the file's content, decimal numbers read exactly.
        source: the file's name, for messages.

    Raises:
        BadInput: a key is unknown or missing, a value has no meaning, or a sentence asks for other facts than it is
            given; every problem is listed.
    """
    layout = record_from(Layout, data, source)
    problems = _misworded(layout)
    if problems:
        raise refused(source, problems)
    return layout


def _near(key: str, known: Iterable[str]) -> str:
    near = nearest(key, known)
    return f"; did you mean {near!r}?" if near else ""


def _misworded(layout: Layout) -> list[str]:
    problems = []
    for key, template in layout.words.model_dump().items():
        problems += _facts_differ(f"words.{key}", template, PLACES.get(key, frozenset()))
    for key, template in layout.says.items():
        if key not in SAYS:
            problems.append(f'says."{key}" is no sentence of the program{_near(key, SAYS)}')
            continue
        problems += _facts_differ(f'says."{key}"', template, _places(SAYS[key]) or frozenset())
    unknown = [key for key in layout.spoken if key not in WORDS]
    return problems + [f'spoken."{key}" is no word of the program{_near(key, WORDS)}' for key in unknown]


def _facts_differ(key: str, template: str, wanted: frozenset[str]) -> list[str]:
    given = _places(template)
    if given is None:
        return [f"{key}: a brace stands alone, or a name in braces carries more than the name"]
    lacking, strange = sorted(wanted - given), sorted(given - wanted)
    problems = []
    # a sentence that leaves out its amount would read as if there was none
    if lacking:
        problems.append(f"{key} leaves out {', '.join(f'{{{name}}}' for name in lacking)}")
    if strange:
        problems.append(f"{key} asks for {', '.join(f'{{{name}}}' for name in strange)}, which it is not given")
    return problems


def _places(template: str) -> frozenset[str] | None:
    """The facts a sentence asks for; None where it cannot be read, or asks for more than plain names."""
    try:
        parsed = list(Formatter().parse(template))
    except ValueError:
        return None
    named = [part for part in parsed if part[1] is not None]
    # a format in braces could reach into objects, or pad a line to any length
    if any(spec or conversion or not str(name).isidentifier() for _, name, spec, conversion in named):
        return None
    return frozenset(str(name) for _, name, _, _ in named)
