"""How text is set in the packet: sizes, inks, and user text that is never read as markup."""

from __future__ import annotations

from functools import cache
from typing import Any
from xml.sax.saxutils import escape

from reportlab.lib.colors import HexColor
from reportlab.lib.enums import TA_LEFT, TA_RIGHT
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.platypus import Paragraph

from claimpack.typeface import BOLD, ITALIC, MONO, REGULAR, printable, register

INK = HexColor(0x16191B)
QUIET = HexColor(0x4B5358)
RULE = HexColor(0xA9B2B6)
TINT = HexColor(0xEEF2F3)
ACCENT = HexColor(0x1D5163)
WHITE = HexColor(0xFFFFFF)

_STYLES: dict[str, tuple[str, float, float, Any]] = {
    "body": (REGULAR, 9.5, 13, INK),
    "strong": (BOLD, 9.5, 13, INK),
    "cell": (REGULAR, 8.5, 11, INK),
    "cell-strong": (BOLD, 8.5, 11, INK),
    "small": (REGULAR, 7.5, 9.8, QUIET),
    "small-italic": (ITALIC, 7.5, 9.8, QUIET),
    "label": (BOLD, 7, 9, QUIET),
    "mono": (MONO, 7.5, 9.8, INK),
    "file": (REGULAR, 7.5, 9.8, INK),
    "heading": (BOLD, 14, 18, ACCENT),
    "subheading": (BOLD, 10.5, 14, INK),
    "number": (BOLD, 27, 31, INK),
    "number-long": (BOLD, 12.5, 16, INK),
    "amount": (BOLD, 19, 23, INK),
    "verdict": (BOLD, 19, 23, INK),
    "verdict-white": (BOLD, 19, 23, WHITE),
    "answer": (REGULAR, 10.5, 14, INK),
    "answer-white": (REGULAR, 10.5, 14, WHITE),
    "strip-white": (BOLD, 10.5, 14, WHITE),
    "shout": (BOLD, 10.5, 14, INK),
}


@cache
def style(name: str, right: bool = False) -> Any:
    """A named way to set text, flush left or right; words too long for a line are broken."""
    register()
    face, size, leading, ink = _STYLES[name]
    return ParagraphStyle(
        name,
        fontName=face,
        fontSize=size,
        leading=leading,
        textColor=ink,
        alignment=TA_RIGHT if right else TA_LEFT,
        splitLongWords=1,
        allowWidows=0,
        allowOrphans=0,
    )


def escaped(text: str) -> str:
    """User text as markup that prints it literally, line breaks and tabs kept."""
    shown = escape(printable(text)).replace("\t", "\u00a0" * 4)
    return "<br/>".join(_indent_kept(line) for line in shown.split("\n"))


def _indent_kept(line: str) -> str:
    bare = line.lstrip(" ")
    return "\u00a0" * (len(line) - len(bare)) + bare


def text(content: str, name: str = "body", right: bool = False) -> Any:
    """A paragraph that prints the content literally."""
    return Paragraph(escaped(content), style(name, right))


def marked_up(markup: str, name: str = "body", right: bool = False) -> Any:
    """A paragraph of our own markup; every piece of user text in it has gone through escaped()."""
    return Paragraph(markup, style(name, right))


def width_of(content: str, face: str, size: float) -> float:
    """How wide a line of text is, in points."""
    register()
    return float(stringWidth(content, face, size))


def shortened(content: str, face: str, size: float, room: float) -> str:
    """The line as far as it fits in the room, ending in a mark where something is left out."""
    content = printable(" ".join(content.split()))
    if width_of(content, face, size) <= room:
        return content
    low, high = 0, len(content)
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if width_of(content[:middle] + "…", face, size) <= room else (low, middle - 1)
    return content[:low].rstrip() + "…"
