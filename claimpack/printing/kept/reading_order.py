"""What a page says and in which order: headings, texts, tables and pictures, noted while they are drawn."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any, Literal, NamedTuple

from reportlab.pdfbase.pdfdoc import PDFString

from claimpack.printing.scripts.canvas import LetteringCanvas

StructureRole = Literal["Document", "Sect", "H1", "H2", "P", "Figure", "Caption", "Link", "Table", "TR", "TH", "TD"]
"""What a part of a page is. Source: ISO 32000-1:2008 14.8.4 (standard structure types)."""


class Ink(NamedTuple):
    """A run of drawing that belongs to a part: its page and its number there, both counted from 0."""

    page: int
    number: int


class LinkArea(NamedTuple):
    """A place that can be clicked: its page, and which of the page's it is, both counted from 0."""

    page: int
    place: int


@dataclass(eq=False)
class Element:
    """A part of a document.

    Args:
        role: what it is.
        alt: what a picture shows, in words.
        heads: what a title cell is the title of.
        across: how many columns a cell takes.
        actual: what is said, where its letters are drawn in another order.
        holds: the parts in it and its ink, in the order in which they are read.
    """

    role: StructureRole
    alt: str = ""
    heads: Literal["", "Row", "Column"] = ""
    across: int = 1
    actual: str = ""
    holds: list[Element | Ink | LinkArea] = field(default_factory=list)

    def later(self, pages: int) -> Element:
        """The same part where so many pages stand before it."""
        moved = [
            one.later(pages) if isinstance(one, Element) else one._replace(page=one.page + pages) for one in self.holds
        ]
        return Element(self.role, self.alt, self.heads, self.across, self.actual, moved)


class _Operator(str):
    """Where drawing that belongs to a part begins or ends."""

    __slots__ = ()


_END = _Operator("EMC")
# Of places to click: they are no trouble on paper. Source: ISO 19005-3:2012 6.3.2.
_PRINTED = 4
_PAINTS = re.compile(r"(?:^|\s)(?:S|s|f|F|f\*|B|B\*|b|b\*|Tj|TJ|'|\"|Do|sh)(?=\s|$)")


class ReadableCanvas(LetteringCanvas):
    """A canvas that notes what it draws; whatever belongs to no part is furniture of the page.

    Source: ISO 32000-1:2008 14.6 (marked content), 14.8.2.2 (artifacts).
    """

    def __init__(self, *args: Any, **settings: Any) -> None:
        super().__init__(*args, **settings)
        self.document = Element("Document")
        self.pages: dict[str, int] = {}
        self._open: list[Element] = [self.document]
        self._placed: set[Element] = set()
        self._numbers = 0
        self._silent = 0

    @contextmanager
    def part(self, part: Element) -> Iterator[None]:
        """Whatever is drawn here belongs to the part, which stands where it was first drawn."""
        if self._silent:
            yield
            return
        if part not in self._placed:
            self._placed.add(part)
            # pieces that are set twice, to know how many pages there are, hold what is drawn the last time
            part.holds.clear()
            self._open[-1].holds.append(part)
        self._open.append(part)
        try:
            yield
        finally:
            self._open.pop()

    @contextmanager
    def ink_of(self, part: Element) -> Iterator[None]:
        """What is drawn here is the part itself."""
        if self._silent or self._formData:
            yield
            return
        with self.part(part):
            begun = len(self._code)
            self._code.append(_Operator(f"/{part.role} <</MCID {self._numbers}>> BDC"))
            # what is drawn inside, such as the letters of a picture, is told by its words
            with self.furniture():
                yield
            if not any(_PAINTS.search(line) for line in self._code[begun + 1 :]):
                del self._code[begun]
                return
            self._code.append(_END)
            part.holds.append(self.reserved())

    @contextmanager
    def furniture(self) -> Iterator[None]:
        """What is drawn here is no part of what the document says: page numbers, titles said again."""
        self._silent += 1
        try:
            yield
        finally:
            self._silent -= 1

    def reserved(self) -> Ink:
        """The next number of this page, for what is drawn now or put there later."""
        self._numbers += 1
        return Ink(self.getPageNumber() - 1, self._numbers - 1)

    @contextmanager
    def leading(self, where: str, said: str, size: tuple[float, float]) -> Iterator[Element]:
        """What is drawn here leads elsewhere when it is clicked: to a bookmark, or to write a mail.

        Args:
            where: the key of a bookmark, or an address as in `mailto:desk@example.com`.
            said: where it leads, in words.
            size: width and height of what can be clicked, from where the canvas stands, in points.
        """
        link = Element("Link")
        with self.part(link):
            yield link
        settings = {"thickness": 0, "F": _PRINTED}
        if where.startswith("mailto:"):
            self.linkURL(where, (0, 0, *size), relative=1, Contents=PDFString(said), **settings)
        else:
            self.linkRect(said, where, (0, 0, *size), **settings)
        link.holds.append(LinkArea(self.getPageNumber() - 1, len(self._annotationrefs) - 1))

    def bookmarkHorizontal(self, key: str, *place: Any, **settings: Any) -> Any:  # noqa: N802 - the engine's name
        """Make a place that can be led to, and note its page."""
        self.pages[key] = self.getPageNumber()
        return super().bookmarkHorizontal(key, *place, **settings)

    def showPage(self) -> None:  # noqa: N802 - the engine's name
        """End the page; what belongs to no part is marked as furniture."""
        self._code[:] = _with_furniture(self._code)
        super().showPage()
        self._numbers = 0


def _with_furniture(code: Iterable[str]) -> Iterator[str]:
    waiting: list[str] = []
    inside = False
    for line in code:
        if not isinstance(line, _Operator):
            waiting.append(line)
            continue
        yield from waiting if inside else _as_furniture(waiting)
        yield line
        waiting, inside = [], not inside
    yield from _as_furniture(waiting)


def _as_furniture(lines: list[str]) -> Iterator[str]:
    paints = any(_PAINTS.search(line) for line in lines)
    yield from ["/Artifact BMC"] if paints else []
    yield from lines
    yield from [_END] if paints else []


@contextmanager
def part(canvas: Any, one: Element) -> Iterator[None]:
    """What is drawn here belongs to the part, on a canvas that notes it."""
    if isinstance(canvas, ReadableCanvas):
        with canvas.part(one):
            yield
    else:
        yield


@contextmanager
def ink_of(canvas: Any, one: Element | None) -> Iterator[None]:
    """What is drawn here is the part itself, on a canvas that notes it; of no part it is furniture."""
    if one is not None and isinstance(canvas, ReadableCanvas):
        with canvas.ink_of(one):
            yield
    else:
        yield


@contextmanager
def leading(canvas: Any, where: str, said: str, size: tuple[float, float]) -> Iterator[Element | None]:
    """What is drawn here leads elsewhere when it is clicked, on a canvas that notes it; nowhere without a place."""
    if where and isinstance(canvas, ReadableCanvas):
        with canvas.leading(where, said, size) as link:
            yield link
    else:
        yield None


@contextmanager
def furniture(canvas: Any) -> Iterator[None]:
    """What is drawn here is no part of what the document says."""
    if isinstance(canvas, ReadableCanvas):
        with canvas.furniture():
            yield
    else:
        yield
