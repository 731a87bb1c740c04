"""Text made to fit its room: broken between words, and cut only with a mark."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from functools import lru_cache

Fits = Callable[[str], bool]
"""Whether a line is narrow enough."""


_UNITS = (
    "psi kPa MPa bar mm cm m km µm in ft V mV A mA Ah W kW Wh N Nm rpm Hz Ω kg g lb oz l L ml h hr s min px °C °F % "
    "hours? days? weeks? months? years? miles? cycles? claims? units? parts? payments? times? "
    "horas? días? semanas? meses mes años? millas? "
    "January February March April May June July August September October November December"
)
# also between a code of law and its section, as in 49 CFR 173.220; a dot that parts two things ends a line
_TOGETHER = re.compile(
    rf"(?<=\d) (?=(?:{'|'.join(_UNITS.split())}|[A-Z]{{3}})(?![\w]))|(?<=\b[A-Z]{{3}}) (?=\d)| (?=· )"
)
_KEPT = "\N{NO-BREAK SPACE}"


def unbroken(said: str) -> str:
    """A text in which no line ends between a number and its unit, its currency, or what it counts."""
    return _TOGETHER.sub(_KEPT, said)


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
