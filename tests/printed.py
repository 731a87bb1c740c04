"""What a PDF says, read back by a reader of another make."""

from __future__ import annotations

from contextlib import closing
from pathlib import Path

from pypdfium2 import PdfDocument


def page_texts(pdf: bytes | Path) -> list[str]:
    """What each page says, blanks and line ends made one blank."""
    with closing(PdfDocument(pdf)) as document:
        return [" ".join(page.get_textpage().get_text_range().split()) for page in document]


def words_of(pdf: bytes | Path) -> str:
    """What the pages say, one after the other."""
    return " ".join(page_texts(pdf))
