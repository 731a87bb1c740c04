"""Text made to fit its room: broken between words, and cut only with a mark."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import lru_cache

from claimpack.core.values.wording.lines import unbroken

Fits = Callable[[str], bool]
"""Whether a line is narrow enough."""


_KEPT = "\N{NO-BREAK SPACE}"


def cut(line: str, fits: Fits) -> str:
    """The line as far as it fits, ending in a mark where something is left out."""
    if fits(line):
        return line
    low, high = 0, len(line)
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if fits(line[:middle] + "…") else (low, middle - 1)
    return line[:low].rstrip() + "…"


def wrapped(text: str, fits: Fits, anywhere: bool = False) -> list[str] | None:
    """The text in lines that fit, broken between words, or anywhere at need; None where a word is too wide."""
    lines: list[str] = []
    for words in _words(text):
        line = ""
        for piece in _pieces(words, fits, anywhere):
            if line and not fits((line + piece).rstrip()):
                lines.append(line.rstrip())
                line = ""
            line += piece
            if not fits(line.rstrip()):
                return None
        lines.append(line.rstrip())
    return [line.replace(_KEPT, " ") for line in lines]


@lru_cache(maxsize=1000)
def _words(text: str) -> tuple[list[str], ...]:
    """The words of each paragraph with the blank after them; a text is tried in many sizes."""
    return tuple(re.findall(rf"[\S{_KEPT}]+[^\S{_KEPT}]*", paragraph) for paragraph in unbroken(text).split("\n"))


def _pieces(words: list[str], fits: Fits, anywhere: bool) -> Iterator[str]:
    """Words; one too wide in pieces after '-', '/' and ',', then anywhere at need."""
    for word in words:
        if fits(word.rstrip()):
            yield word
            continue
        for piece in re.findall(r"[^-/,]*[-/,]+\s*|[^-/,]+", word):
            if anywhere and not fits(piece.rstrip()):
                yield from piece
            else:
                yield piece
