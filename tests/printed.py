"""What a PDF says, read back by a reader of another make."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

from pypdfium2 import PdfDocument, PdfPage
from pypdfium2.raw import FPDF_PAGEOBJ_TEXT

_HAIR = 0.1


def page_texts(pdf: bytes | Path) -> list[str]:
    """What each page says, blanks and line ends made one blank."""
    with closing(PdfDocument(pdf)) as document:
        return [" ".join(page.get_textpage().get_text_range().split()) for page in document]


def words_of(pdf: bytes | Path) -> str:
    """What the pages say, one after the other."""
    return " ".join(page_texts(pdf))


def places_of(page: PdfPage) -> list[tuple[str, tuple[float, float, float, float]]]:
    """What is said on a page and where: left, bottom, right, top, in points from the lower left."""
    said = page.get_textpage().get_text_bounded
    places = [text.get_bounds() for text in page.get_objects(filter=[FPDF_PAGEOBJ_TEXT])]
    return [(words, place) for place in places if (words := said(*place).strip())]


def overprinted(pdf: bytes | Path) -> list[tuple[str, str]]:
    """Words that stand on others, or beyond the edge of their page."""
    with closing(PdfDocument(pdf)) as document:
        return [pair for page in document for pair in overprinted_on(page)]


def overprinted_on(page: PdfPage) -> list[tuple[str, str]]:
    """The same of one page."""
    return list(_clashes(page))


def _clashes(page: PdfPage) -> Iterator[tuple[str, str]]:
    found = places_of(page)
    for (said, one), (also, other) in itertools.combinations(found, 2):
        if all(one[side] + _HAIR < other[side + 2] and other[side] + _HAIR < one[side + 2] for side in (0, 1)):
            yield said, also
    width, height = page.get_size()
    for said, (left, bottom, right, top) in found:
        if left < 0 or bottom < 0 or right > width or top > height:
            yield said, "the edge"
