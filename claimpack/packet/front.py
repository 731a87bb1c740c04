"""Pages that stand before the packet's own, as they are: the maker's own form, filled."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import replace
from typing import Protocol

import pikepdf

from claimpack.packet.drawing.evidence import DrawnPages, PaperSheet, PaperSlot
from claimpack.printing.kept.reading_order import Element, Ink


class FrontPages(Protocol):
    """A paper that goes in front; what it is called must be no file of the claim."""

    @property
    def file(self) -> str:
        """What it is called."""

    @property
    def pages(self) -> Sequence[PaperSheet]:
        """Its pages, in order."""


def with_front(drawn: DrawnPages, front: FrontPages, title: str) -> DrawnPages:
    """The drawn pages with whole pages left free in front of them, and a bookmark that leads there.

    Args:
        drawn: the packet's own pages.
        front: what is to go in front, in the size of its own pages.
        title: the bookmark's.
    """
    count = len(front.pages)
    slots = [
        PaperSlot(number, 0.0, 0.0, sheet.width, sheet.height, front.file, number)
        for number, sheet in enumerate(front.pages)
    ]
    document = drawn.document.later(count)
    # read first, as they stand first
    document.holds[:0] = [
        Element("Figure", f"{title}, {number + 1}/{count}", holds=[Ink(number, 0)]) for number in range(count)
    ]
    stream = io.BytesIO()
    with pikepdf.open(io.BytesIO(drawn.pdf)) as pdf:
        # each is put first, so the last one goes in first
        for sheet in reversed(front.pages):
            blank = pikepdf.Dictionary(
                Type=pikepdf.Name.Page,
                MediaBox=pikepdf.Array([0, 0, sheet.width, sheet.height]),
                Resources=pikepdf.Dictionary(),
                Contents=pdf.make_stream(b""),
            )
            pdf.pages.insert(0, pikepdf.Page(pdf.make_indirect(blank)))
        with pdf.open_outline() as outline:
            outline.root.insert(0, pikepdf.OutlineItem(title, 0))
        pdf.save(stream)
    later = [replace(slot, page_index=slot.page_index + count) for slot in drawn.slots]
    pages = drawn.page_count + count
    return replace(drawn, pdf=stream.getvalue(), slots=(*slots, *later), page_count=pages, document=document)
