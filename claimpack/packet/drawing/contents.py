"""The contents of a packet at the foot of its cover: every section and its page, each of which leads there."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from claimpack.packet.drawing.draft import Draft
from claimpack.packet.drawing.layout import Section
from claimpack.printing.kept.reading_order import ink_of, leading
from claimpack.printing.lettering import width_of
from claimpack.printing.palette import QUIET
from claimpack.printing.typeface import REGULAR, printable

_SIZE, _LINE = 6.5, 8.0
_APART = 9.0
# Room for a page of three figures.
_NUMBER = " 000"


def contents(canvas: Any, draft: Draft, shown: Sequence[Section]) -> None:
    """Every section but the cover under the body of this page; the pages are written when they are known."""
    left, bottom, width, _ = draft.layout.body
    x, y = left, bottom - 7.5
    for section in shown:
        wide = width_of(_title(draft, section) + _NUMBER, REGULAR, _SIZE)
        if x > left and x + wide > left + width:
            x, y = left, y - _LINE
        canvas.saveState()
        canvas.translate(x, y)
        # a form that is filled in later: on the first page no page number is known yet
        with leading(canvas, section, _title(draft, section), (wide, _SIZE)) as link, ink_of(canvas, link):
            canvas.doForm(_form(section))
        canvas.restoreState()
        x += wide + _APART


def write_contents(canvas: Any, draft: Draft, shown: Sequence[Section]) -> None:
    """The names and pages of the sections, now that all of them are drawn."""
    for section in shown:
        canvas.beginForm(_form(section), lowery=-_SIZE)
        canvas.setFillColor(QUIET)
        canvas.setFont(REGULAR, _SIZE)
        # a maker's form in front of the packet is counted
        page = canvas.pages[section] + draft.evidence.before
        canvas.drawString(0, 0, f"{_title(draft, section)} {page}")
        canvas.endForm()


def _title(draft: Draft, section: Section) -> str:
    return printable(draft.title_of(section))


def _form(section: Section) -> str:
    return f"contents-{section}"
