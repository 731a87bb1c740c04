"""The two barcodes of a tag, as modules that a printer's dots can hold exactly."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

from claimpack.errors import BadInput

QUIET_128 = 10
"""Blank modules on each side of a Code 128."""

QUIET_QR = 4
"""Blank modules all round a QR code."""

# A bar of one printer dot vanishes where the print head is worn.
FINEST_DOTS = 2
# In millimetres: narrower bars are tried with the scanner first, and below the finest no scanner can be counted on.
SURE_MODULE_MM = 0.25
_FINEST_MM = 0.165
_MM_PER_INCH = 25.4

# The code characters of ISO/IEC 15417 that begin in a set, change to one, and end the symbol.
_START = {"A": 103, "B": 104, "C": 105}
# the symbols that change the set for all that follows
_SWITCH = {"A": 101, "B": 100, "C": 99}
_STOP = (2, 3, 3, 1, 1, 1, 2)
_WIDTHS = """
212222 222122 222221 121223 121322 131222 122213 122312 132212 221213 221312 231212 112232 122132 122231 113222
123122 123221 223211 221132 221231 213212 223112 312131 311222 321122 321221 312212 322112 322211 212123 212321
232121 111323 131123 131321 112313 132113 132311 211313 231113 231311 112133 112331 132131 113123 113321 133121
313121 211331 231131 213113 213311 213131 311123 311321 331121 312113 312311 332111 314111 221411 431111 111224
111422 121124 121421 141122 141221 112214 112412 122114 122411 142112 142211 241211 221114 413111 241112 134111
111242 121142 121241 114212 124112 124211 411212 421112 421211 212141 214121 412121 111143 111341 131141 114113
114311 411113 411311 113141 114131 311141 411131 211412 211214 211232
"""
_PATTERNS = tuple(re.findall(r"\d{6}", _WIDTHS))


@dataclass(frozen=True, slots=True)
class Code128:
    """A Code 128: its symbols from the start to the last one before the check, and the check."""

    symbols: tuple[int, ...]
    check: int

    @property
    def runs(self) -> tuple[int, ...]:
        """Widths in modules, a bar first, then spaces and bars in turn, without the quiet zones."""
        widths = [int(width) for symbol in (*self.symbols, self.check) for width in _PATTERNS[symbol]]
        return (*widths, *_STOP)

    @property
    def modules(self) -> int:
        """Modules from the first bar to the last, without the quiet zones."""
        return sum(self.runs)


def code128(text: str, sets: str = "BC") -> Code128:
    """The shortest Code 128 of a text.

    Args:
        text: what a scanner is to read.
        sets: the code sets that may be used; the first of two equally short ways is taken.

    Raises:
        BadInput: the text is empty, or has a character that the sets do not hold.

    Source: the symbol values and widths of ISO/IEC 15417.
    """
    if not text:
        raise BadInput("the barcode has no text", "A scanner could read nothing.", "Give the claim a number.")
    ways = [way for way in (_shortest(text, first, sets) for first in sets) if way is not None]
    if not ways:
        raise BadInput(
            f"{text!r} cannot be written as a Code 128",
            f"Code sets {sets} lack one of its characters.",
            "Use letters without accents, digits and '-' in claim numbers.",
        )
    symbols = min(ways, key=len)
    return Code128(symbols, check_value(symbols))


def check_value(symbols: Sequence[int]) -> int:
    """The check value of symbols, the start symbol first.

    Source: ISO/IEC 15417: the start plus each value times its place, modulo 103.
    """
    return (symbols[0] + sum(place * value for place, value in enumerate(symbols[1:], start=1))) % 103


def _shortest(text: str, first: str, sets: str) -> tuple[int, ...] | None:
    """The symbols from a start in the first set, or None if no way leads to the end."""

    @cache
    def rest(at: int, here: str) -> tuple[int, ...] | None:
        if at == len(text):
            return ()
        ways = []
        # staying first, as of two ways equally long the first is taken
        for chosen in (here, *(other for other in sets if other != here)):
            value, taken = _value(text, at, chosen)
            tail = rest(at + taken, chosen) if taken else None
            if tail is not None:
                ways.append((*(() if chosen == here else (_SWITCH[chosen],)), value, *tail))
        return min(ways, key=len, default=None)

    tail = rest(0, first)
    return None if tail is None else (_START[first], *tail)


def _value(text: str, at: int, chosen: str) -> tuple[int, int]:
    """The value of what stands there in a set, and how many characters it takes; none if the set lacks it."""
    mark = ord(text[at])
    if chosen == "C":
        pair = text[at : at + 2]
        return (int(pair), 2) if len(pair) == 2 and pair.isascii() and pair.isdigit() else (0, 0)
    if chosen == "B":
        return (mark - 32, 1) if 32 <= mark <= 127 else (0, 0)
    # set A has control characters after its capitals
    return ((mark - 32) % 96, 1) if mark <= 95 else (0, 0)


@lru_cache(maxsize=1000)
def qr_modules(text: str) -> tuple[tuple[bool, ...], ...]:
    """The rows of a QR code from the top, true where it is dark, without its quiet zone.

    At least level M; a higher level is taken where the code grows no larger by it.

    Source: ISO/IEC 18004, as the segno library draws it.
    """
    import segno

    return tuple(tuple(bool(cell) for cell in row) for row in segno.make_qr(text, error="m").matrix)


def dots_per_module(dpi: float, available: float, modules: int) -> int:
    """The largest whole number of printer dots for one module.

    Args:
        dpi: dots per inch of the printer.
        available: room for the code with its quiet zones, in points.
        modules: modules of the code with its quiet zones.

    Raises:
        BadInput: the code would need modules too fine to print.
    """
    # a room that is exact in millimetres may come out a hair short in points
    dots = int(available / 72 * dpi / modules + 1e-6)
    if dots < FINEST_DOTS or module_mm(dpi, dots) < _FINEST_MM:
        needed = modules * max(FINEST_DOTS / dpi, _FINEST_MM / _MM_PER_INCH) * 72
        raise BadInput(
            f"a barcode of {modules} modules does not fit in {available:.0f} pt at {dpi:g} dots per inch",
            f"It needs at least {needed:.0f} pt, or its bars are too fine to print and scan.",
            "Use a wider stock, a printer with finer dots, or shorter claim numbers.",
        )
    return dots


def module_mm(dpi: float, dots: int) -> float:
    """The width of a module in millimetres."""
    return dots / dpi * _MM_PER_INCH
