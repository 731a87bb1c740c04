"""Pages saved: where one would stay nearly empty, all is set again closer, and stays so if that takes a page less."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, Protocol, TypeVar

from reportlab.platypus import ActionFlowable, BaseDocTemplate, CondPageBreak, KeepTogether

from claimpack.printing.drawn import Gap, Unseen

LEAST_FULL = 1 / 3
"""A page filled less than this, of the room inside its margins, looks forgotten."""

# Headings still stand apart from what is above them at the closest.
_CLOSER, _CLOSEST = (0.7, 0.4), 0.3


class MeasuredPages(BaseDocTemplate):  # type: ignore[misc]  # the PDF engine has no types
    """A document that notes how far down each of its pages is filled, as a share of the room inside the margins."""

    def __init__(self, *given: Any, **named: Any) -> None:
        super().__init__(*given, **named)
        self.filled: list[float] = []
        self._share = 0.0

    def afterFlowable(self, flowable: Any) -> None:  # noqa: N802 - the engine's name
        """Note how far down a piece that leaves ink came."""
        if not isinstance(flowable, (Unseen, ActionFlowable, CondPageBreak)):
            frame = self.frame
            top = frame._y2 - frame._topPadding  # noqa: SLF001 - nothing public tells it
            self._share = (top - frame._y) / (top - frame._y1p)  # noqa: SLF001

    def afterPage(self) -> None:  # noqa: N802
        """Note the page."""
        self.filled.append(self._share)
        self._share = 0.0


class Setting(Protocol):
    """Pages as they were set."""

    @property
    def filled(self) -> Sequence[float]:
        """How far down each page is filled, as a share of the room inside its margins."""


Set = TypeVar("Set", bound=Setting)


def pages_saved(setting: Callable[[float], Set], under: float = LEAST_FULL) -> Set:
    """The pages with the usual room between pieces, or with less where a nearly empty page is saved by it.

    Args:
        setting: sets all pages anew, with so much of the usual room between pieces.
        under: a page filled less than this is worth a second try.
    """
    usual = setting(1.0)
    # nothing stands before the first page that could hold it
    if all(share >= under for share in usual.filled[1:]):
        return usual
    closest = setting(_CLOSEST)
    if len(closest.filled) >= len(usual.filled):
        return usual
    tries = (setting(share) for share in _CLOSER)
    return next((closer for closer in tries if len(closer.filled) < len(usual.filled)), closest)


def end_filled(setting: Callable[[int], Set], usual: Set, most: int, under: float) -> Set:
    """The pages as usual, or with more of the last pieces on the last page where that would stay nearly empty.

    Args:
        setting: sets all pages anew, with so many of the last pieces on one page.
        usual: the pages as they are without it.
        most: how many pieces there are.
        under: a last page filled less than this takes more.
    """
    if len(usual.filled) < 2 or usual.filled[-1] >= under:
        return usual
    tries = (setting(last) for last in range(2, most))
    # what leaves the page before emptier than the last has torn off a whole list
    fuller = (tried for tried in tries if under <= tried.filled[-1] <= tried.filled[-2])
    found = next(fuller, usual)
    return found if len(found.filled) == len(usual.filled) else usual


def end_kept(pieces: Sequence[Any], last: int) -> list[Any]:
    """The pieces, so many of the last on one page."""
    ends: list[Any] = []
    for piece in pieces[-last:]:
        ends += piece._content if isinstance(piece, KeepTogether) else [piece]  # noqa: SLF001 - nothing public gives it
    return [*pieces[:-last], KeepTogether(ends)]


def set_closer(pieces: Sequence[Any], share: float) -> None:
    """Leave only so much of the room between pieces, also between those kept on one page."""
    for piece in pieces:
        if isinstance(piece, Gap):
            piece.asked *= share
        elif isinstance(piece, KeepTogether):
            set_closer(piece._content, share)  # noqa: SLF001 - nothing public gives it
