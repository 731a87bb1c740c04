"""Pieces of a page that are drawn rather than set, headings, and what keeps them on one page with what follows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from reportlab.platypus import CondPageBreak, Flowable

from claimpack.printing.kept.reading_order import Element, ink_of
from claimpack.printing.lettering import text
from claimpack.printing.palette import ACCENT, RULE

Pen = Callable[[Any, float, float], None]
"""Draws on a canvas, from the lower left of the piece; the last two are its width and height in points."""

Size = Callable[[float, float], tuple[float, float]]
"""The size of a piece for the room there is; no height leaves it out."""

HEADING = 34.0
"""How much height a section's heading takes, in points."""

# A few lines: a heading with fewer under it looks forgotten at the foot of a page.
_LEAST_ROOM = 72.0
_MOST_ROOM = 250.0
# A table up to this height in points is not torn from its heading, nor in two.
_KEPT_WHOLE = 150.0
_TALLER_THAN_A_PAGE = 10_000.0


class DrawnPiece(Flowable):  # type: ignore[misc]  # the PDF engine has no types
    """A piece of a page drawn by a pen; alt says in words what it shows, nothing where others say it."""

    def __init__(self, size: Size, pen: Pen, alt: str = "") -> None:
        super().__init__()
        self._size = size
        self._pen = pen
        self._part = Element("Figure", alt) if alt else None

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """The room it takes."""
        self.width, self.height = self._size(width, height)
        return self.width, self.height

    def draw(self) -> None:
        """Draw it, unless no room was left for it."""
        if self.height > 0:
            self.canv.saveState()
            with ink_of(self.canv, self._part):
                self._pen(self.canv, self.width, self.height)
            self.canv.restoreState()


class Unseen(DrawnPiece):
    """Something on a page that leaves no ink and finds its place on any page, even a full one: a bookmark, a gap."""

    _ZEROSIZE = True

    def draw(self) -> None:
        """Do it."""
        self._pen(self.canv, 0.0, 0.0)


class _NextPage(CondPageBreak):  # type: ignore[misc]  # the PDF engine has no types
    # else on a page full to its last point it would go overleaf first, and leave that page empty
    _ZEROSIZE = True


def next_page() -> Any:
    """The end of a page, however full it is."""
    return _NextPage(_TALLER_THAN_A_PAGE)


def drawn(width: float, height: float, pen: Pen, alt: str = "") -> DrawnPiece:
    """A drawn piece of a fixed size."""
    return DrawnPiece(lambda _width, _height: (width, height), pen, alt)


def unseen(act: Pen) -> Unseen:
    """Something done where it stands between pieces."""
    return Unseen(lambda _width, _height: (0.0, 0.0), act)


class Gap(Unseen):
    """Empty room between pieces, of the height asked in points, as far as the page has it."""

    def __init__(self, height: float) -> None:
        super().__init__(lambda _width, room: (0.0, max(0.0, min(self.asked, room))), lambda *_: None)
        self.asked = height


def gap(height: float) -> Gap:
    """Empty room between pieces, as far as the page has it; it never goes on overleaf."""
    return Gap(height)


def bookmark(key: str, title: str, level: int = 0) -> Unseen:
    """An entry of the outline that leads here; level 0 is a section."""

    def act(canvas: Any, _width: float, _height: float) -> None:
        canvas.bookmarkHorizontal(key, 0, 6)
        canvas.addOutlineEntry(title, key, level, closed=False)

    return unseen(act)


def section(key: str, title: str, width: float, body: Sequence[Any], first: float = 0.0) -> list[Any]:
    """A heading with its bookmark and what follows it.

    The heading stands on the page of the first lines that follow it, or of the height told as first.
    """
    room = HEADING + (first or opening(body[0], width))
    rule = drawn(width, 3, _heading_rule)
    return [CondPageBreak(room), bookmark(key, title), text(title, "heading"), rule, gap(6), *body, gap(16)]


def _heading_rule(canvas: Any, width: float, height: float) -> None:
    canvas.setFillColor(ACCENT)
    canvas.rect(0, height - 2, 36, 2, stroke=0, fill=1)
    canvas.setFillColor(RULE)
    canvas.rect(36, height - 2, width - 36, 0.5, stroke=0, fill=1)


def subsection(title: str, width: float, body: Sequence[Any]) -> list[Any]:
    """A smaller heading and what follows it, kept together at the start."""
    room = 20 + (opening(body[0], width) if body else 0)
    return [CondPageBreak(room), text(title, "subheading"), gap(2), *body, gap(8)]


def opening(piece: Any, width: float) -> float:
    """The height a piece needs before it may be broken.

    A short table is kept whole, a long one needs its headings and two rows, a text its first lines.
    """
    if isinstance(piece, CondPageBreak):
        return float(min(piece.height, _MOST_ROOM))
    _, height = piece.wrap(width, 10_000)
    rows = getattr(piece, "_rowHeights", None)
    if rows:
        height = height if height <= _KEPT_WHOLE else sum(rows[: piece.repeatRows + 2])
    elif not isinstance(piece, DrawnPiece):
        height = min(height, _LEAST_ROOM)
    return float(min(height, _MOST_ROOM))
