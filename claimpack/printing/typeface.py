"""The typefaces that packets, tags and reports are set in, and what they can print."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from functools import cache
from importlib.resources import as_file, files
from io import BytesIO
from itertools import groupby

from claimpack.printing.scripts.found import file_of
from claimpack.printing.scripts.lines import face_of
from claimpack.printing.scripts.which import SCRIPTS, called

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


@contextmanager
def binary_streams() -> Iterator[None]:
    """The PDF engine without its text encoding of binary data, which is slower and a fifth larger, for a while."""
    from reportlab import rl_config

    # a setting of the whole library, which others may draw with, so it is put back
    before, rl_config.useA85 = rl_config.useA85, 0
    try:
        yield
    finally:
        rl_config.useA85 = before


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


def typeface_file(face: str) -> str | BytesIO:
    """A typeface's file for the program that draws pictures: its path, or the file itself."""
    from reportlab.pdfbase import pdfmetrics

    register()
    return str(pdfmetrics.getFont(face).face.filename) if face in _FILES else file_of(face)


@cache
def _characters() -> frozenset[int]:
    from reportlab.pdfbase import pdfmetrics

    register()
    return frozenset(pdfmetrics.getFont(REGULAR).face.charToGlyph)


def unprintable(texts: Iterable[str]) -> list[str]:
    """What no typeface has, each script or sign once by its name, in the order of the alphabet."""
    found = {called(mark) for text in texts for mark in _lacking(text)}
    return sorted(found)


def printable(text: str) -> str:
    """The text with everything that no typeface has told by its name, as in [Japanese]; a run of letters once."""
    lacking = _lacking(text)
    if not lacking:
        return text
    runs = groupby(text, key=lambda mark: called(mark) if mark in lacking else "")
    return "".join(f"[{name}]" if name else "".join(run) for name, run in runs)


def not_printed(name: str) -> str:
    """The sentence that says what is not printed, and what would help."""
    if name in SCRIPTS:
        return f"no typeface for {name} was found, so [{name}] stands in its place; the extra `fonts` brings one"
    return f"no typeface has {name}, so [{name}] stands in its place"


def _lacking(text: str) -> set[str]:
    known = _characters()
    return {mark for mark in text if ord(mark) not in known and mark not in "\n\t" and not face_of(mark, text)}
