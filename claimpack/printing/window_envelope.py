"""The address of a letter where the window of an envelope shows it, however the folded sheet slides in it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from reportlab.platypus import Flowable

from claimpack.printing.kept.reading_order import Element, ink_of
from claimpack.printing.lettering import shortened, width_of
from claimpack.printing.palette import INK, QUIET
from claimpack.printing.papers import MM, PAPERS, Page
from claimpack.printing.typeface import REGULAR, printable

_INCH = 72.0
_SIZE, _LEAST, _SMALL = 10.5, 6.5, 6.5
_LEADING = 1.2


class AddressArea(NamedTuple):
    """Where an address may stand, in points from the upper left corner of the sheet, and where the text below begins.

    `small_at` is the line kept for the sender's own address, above the other; None where there is no room for one.
    """

    left: float
    top: float
    width: float
    height: float
    below: float
    small_at: float | None


_A4 = AddressArea(left=25 * MM, top=62.7 * MM, width=75 * MM, height=27.3 * MM, below=98.5 * MM, small_at=61.5 * MM)
"""The address zone of form B: the field begins 45 mm from the top and 20 mm from the left, is 85 mm wide, and its
first 17.7 mm are for the sender and remarks. Source: DIN 5008:2020, form B; ISO 11180:1993."""

_NO_10 = AddressArea(
    left=1.0 * _INCH, top=2.52 * _INCH, width=3.3 * _INCH, height=0.62 * _INCH, below=3.75 * _INCH, small_at=None
)
"""What the window of a US no. 10 envelope shows of a sheet folded in three, wherever it lies in the envelope: the
envelope is 9.5 by 4.125 inches, the window 4.5 by 1.125, 0.875 from the left and 0.5 from the bottom.

Source: common practice, no source; sizes of envelopes as they are sold."""


_NO_10_OF_LEGAL = _NO_10._replace(height=0.46 * _INCH)
"""A sheet of 14 inches is folded in four, and moves further in the envelope."""


def place_on(page: Page) -> AddressArea:
    """Where the address stands on a sheet of this size."""
    if page == PAPERS["legal"]:
        return _NO_10_OF_LEGAL
    return _A4 if page == PAPERS["a4"] else _NO_10


class WindowAddress(Flowable):  # type: ignore[misc]
    """The address at its place, whatever stands above it, and room down to where the text begins."""

    def __init__(self, lines: Sequence[str], sender: str, page: Page, bottom: float, left: float) -> None:
        super().__init__()
        self._lines, self._sender, self._page = list(lines), sender, page
        self._bottom, self._left = bottom, left
        self._place = place_on(page)

    def wrap(self, available_width: float, available_height: float) -> tuple[float, float]:
        """As high as it takes to come down to the text below."""
        left_then = self._page[1] - self._place.below - self._bottom
        self.width, self.height = available_width, max(available_height - left_then, 0.0)
        return self.width, self.height

    def draw(self) -> None:
        """Every line at its place on the sheet; set smaller where there are many, or one is long."""
        place, canvas = self._place, self.canv
        lines = [printable(line) for line in self._lines]
        widest = max((width_of(line, REGULAR, _SIZE) for line in lines), default=1.0)
        size = min(_SIZE, _SIZE * place.width / max(widest, 1.0), place.height / (len(lines) * _LEADING))
        size = max(size, _LEAST)
        with ink_of(canvas, Element("P")):
            for nth, line in enumerate(lines):
                down = place.top + size * (1 + nth * 1.2)
                self._line(canvas, shortened(line, REGULAR, size, place.width), size, down)
        if place.small_at is not None and self._sender:
            # the head of the letter says it already
            said = shortened(self._sender, REGULAR, _SMALL, place.width)
            self._line(canvas, said, _SMALL, place.small_at, QUIET)

    def _line(self, canvas: Any, line: str, size: float, from_top: float, ink: str = INK) -> None:
        canvas.setFont(REGULAR, size)
        canvas.setFillColor(ink)
        # the canvas begins at the lower left of this piece, which ends where the text below begins
        canvas.drawString(self._place.left - self._left, self._place.below - from_top, line)
