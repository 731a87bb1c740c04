"""Gives the shipped typefaces the signs that they lack and Noto Sans Mono has; run by hand, once: needs fonttools.

python tests/demo_world/signs_in_fonts.py claimpack/fonts
"""

from __future__ import annotations

import sys
from pathlib import Path

from fontTools.ttLib import TTFont
from fontTools.ttLib.tables.ttProgram import Program

GIVES = "NotoSansMono-Regular.ttf"
TAKE = ("NotoSans-Regular.ttf", "NotoSans-Bold.ttf", "NotoSans-Italic.ttf")
# Arrows, mathematical signs, boxes and circles.
SIGNS = (*range(0x2190, 0x2200), *range(0x2200, 0x2300), *range(0x25A0, 0x2600))


def give_signs(folder: Path) -> None:
    """Copy every sign that one of the typefaces lacks into it, without the hints that belong to the other."""
    giving = TTFont(folder / GIVES)
    has = giving.getBestCmap()
    for name in TAKE:
        taking = TTFont(folder / name)
        lacking = {code: has[code] for code in SIGNS if code in has and code not in taking.getBestCmap()}
        for code, glyph in lacking.items():
            _copy(giving, taking, glyph, f"uni{code:04X}", code)
        taking.save(folder / name)


def _copy(giving: TTFont, taking: TTFont, glyph: str, name: str, code: int) -> None:
    if name not in taking["glyf"].glyphs:
        shape = giving["glyf"][glyph]
        coordinates, ends, flags = shape.getCoordinates(giving["glyf"])
        # what is put together from other letters is copied as one outline
        outline = type(shape)()
        outline.numberOfContours = len(ends)
        outline.coordinates, outline.endPtsOfContours, outline.flags = coordinates.copy(), list(ends), flags
        outline.program = Program()
        outline.program.fromBytecode(b"")
        if ends:
            outline.recalcBounds(taking["glyf"])
        else:
            outline.numberOfContours = 0
        taking["glyf"][name] = outline
        taking["hmtx"][name] = giving["hmtx"][glyph]
        taking.setGlyphOrder(list(dict.fromkeys([*taking.getGlyphOrder(), name])))
    for table in taking["cmap"].tables:
        if table.isUnicode():
            table.cmap[code] = name


if __name__ == "__main__":
    give_signs(Path(sys.argv[1]))
