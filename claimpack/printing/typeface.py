"""The typefaces that packets, tags and reports are set in, and what they can print."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from functools import cache
from importlib.resources import as_file, files

REGULAR = "Claim"
BOLD = "Claim-Bold"
ITALIC = "Claim-Italic"
MONO = "Claim-Mono"

_FILES = {
    REGULAR: "NotoSans-Regular.ttf",
    BOLD: "NotoSans-Bold.ttf",
    ITALIC: "NotoSans-Italic.ttf",
    MONO: "NotoSansMono-Regular.ttf",
}


@cache
def register() -> None:
    """Make the typefaces known to the PDF engine; they are embedded as subsets."""
    from reportlab.lib.fonts import addMapping
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    for name, file in _FILES.items():
        with as_file(files("claimpack") / "fonts" / file) as path:
            pdfmetrics.registerFont(TTFont(name, str(path)))
    for bold, italic, name in ((0, 0, REGULAR), (1, 0, BOLD), (0, 1, ITALIC), (1, 1, BOLD)):
        addMapping(REGULAR, bold, italic, name)


def typeface_file(face: str) -> str:
    """The path of a typeface's file."""
    from reportlab.pdfbase import pdfmetrics

    register()
    return str(pdfmetrics.getFont(face).face.filename)


@cache
def _characters() -> frozenset[int]:
    from reportlab.pdfbase import pdfmetrics

    register()
    return frozenset(pdfmetrics.getFont(REGULAR).face.charToGlyph)


def unprintable(texts: Iterable[str]) -> list[str]:
    """The characters no typeface has, each once, in the order of the alphabet."""
    known = _characters()
    found = {mark for text in texts for mark in text if ord(mark) not in known and mark not in "\n\t"}
    return sorted(found)


def printable(text: str) -> str:
    """The text with every character that no typeface has shown by its number, as in [U+4E2D]."""
    known = _characters()
    return "".join(mark if ord(mark) in known or mark in "\n\t" else f"[U+{ord(mark):04X}]" for mark in text)


def described(mark: str) -> str:
    """A character by its number and name, for a message."""
    return f"U+{ord(mark):04X} {unicodedata.name(mark, 'without a name')}"
