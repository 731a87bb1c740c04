"""How text is set: two scales of sizes and inks, and user text that is never read as markup."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any
from xml.sax.saxutils import escape

from reportlab.lib.colors import HexColor
from reportlab.lib.enums import TA_LEFT, TA_RIGHT
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.platypus import Paragraph as SetParagraph

from claimpack.core.values.wording.lines import unbroken
from claimpack.printing.fitting import cut, wrapped
from claimpack.printing.kept.reading_order import Element, StructureRole, ink_of, leading, part
from claimpack.printing.palette import ACCENT, INK, QUIET, WHITE
from claimpack.printing.scripts.lines import in_faces, in_order
from claimpack.printing.scripts.which import LEFTWARD
from claimpack.printing.typeface import BOLD, ITALIC, MONO, REGULAR, printable, register

Scale = dict[str, tuple[str, float, float, str]]
"""Typeface, size, distance of the lines in points, and ink, by name."""

_PACKET: Scale = {
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

_PAGE: Scale = {
    "body": (REGULAR, 10.5, 15, INK),
    "strong": (BOLD, 10.5, 15, INK),
    "cell": (REGULAR, 9.5, 12.5, INK),
    "cell-strong": (BOLD, 9.5, 12.5, INK),
    "code": (MONO, 10, 13, INK),
    "label": (REGULAR, 8.5, 11, QUIET),
    "small": (REGULAR, 8, 10.5, QUIET),
    "figure": (REGULAR, 8, 10.2, INK),
    "figure-strong": (BOLD, 8, 10.2, INK),
    "figure-label": (BOLD, 7.5, 9.6, QUIET),
    "title": (BOLD, 17, 22, INK),
    "heading-large": (BOLD, 14, 19, INK),
    "heading": (BOLD, 11.5, 16, INK),
    "big": (BOLD, 26, 32, INK),
}

_ROLES: dict[str, StructureRole] = {"heading": "H1", "subheading": "H2", "number": "H1", "number-long": "H1"}
_PAGE_ROLES: dict[str, StructureRole] = {"title": "H1", "heading-large": "H2", "heading": "H2"}


# A line of so many times the size of its type has 80 to 95 characters, by how many narrow ones are among them.
_MEASURE = 42.0


class Paragraph(SetParagraph):  # type: ignore[misc]  # the PDF engine has no types
    """A paragraph that is one part of its document, also where it goes on overleaf."""

    part: Element | None = None
    leads_to = ""
    _room, _taken = 0.0, (0.0, 0.0)

    def draw(self) -> None:
        """Draw it, noted as what it is."""
        if self.part is None or not self.leads_to:
            with ink_of(self.canv, self.part):
                super().draw()
            return
        said = self.getPlainText()
        size = self.width, self.height
        with part(self.canv, self.part), leading(self.canv, self.leads_to, said, size) as link, ink_of(self.canv, link):
            super().draw()

    def wrap(self, width: float, height: float) -> Any:
        """The room it takes; its lines are no longer than an eye follows."""
        room = self.measure(width)
        # a table asks several times for the same width, and breaking lines is most of setting a page;
        # a paragraph that could not be parted has forgotten its lines
        if room != self._room or not hasattr(self, "blPara"):
            self._room, self._taken = room, super().wrap(room, height)
        return self._taken

    def measure(self, width: float) -> float:
        """How long its lines may be in so much room, in points; what is set flush right has it all.

        Source: common practice, no source: 45 to 95 characters.
        """
        if self.style.alignment == TA_RIGHT:
            return width
        return min(width, float(self.style.fontSize) * _MEASURE)

    def split(self, width: float, height: float) -> list[Any]:
        """The pieces for this page and the next, which are the same part."""
        pieces: list[Any] = super().split(width, height)
        for piece in pieces:
            piece.part, piece.leads_to = self.part, self.leads_to
        return pieces


class _Leftward(Paragraph):
    """A paragraph with letters that run to the left: its lines are ended first, then each is put in order."""

    content = ""

    def wrap(self, width: float, height: float) -> Any:
        """The room it takes."""
        if self.content:
            face, size = self.style.fontName, self.style.fontSize
            room = self.measure(width)
            lines = wrapped(self.content, lambda line: width_of(line, face, size) <= room, anywhere=True) or []
            told, self.content = self.part, ""
            look = self.style.clone("leftward", alignment=TA_RIGHT) if len(lines) > 1 else self.style
            # its lines are known only now
            self.__init__("<br/>".join(map(_in_faces, lines)), look)  # type: ignore[misc]
            self.part = told
        return super().wrap(width, height)


@cache
def style(name: str, right: bool = False, page: bool = False) -> Any:
    """A named way to set text, flush left or right; words too long for a line are broken.

    The packet's scale is small; letters, slips, lists and reports are set in that of a page.
    """
    register()
    face, size, leading, ink = (_PAGE if page else _PACKET)[name]
    return ParagraphStyle(
        name,
        fontName=face,
        fontSize=size,
        leading=leading,
        # as a colour, since the library reads its digits again for every line
        textColor=HexColor(ink),
        alignment=TA_RIGHT if right else TA_LEFT,
        splitLongWords=1,
        allowWidows=int(page),
        allowOrphans=0,
    )


def escaped(text: str) -> str:
    """User text as markup that prints it literally, line breaks and tabs kept."""
    shown = unbroken(printable(text)).replace("\t", "\u00a0" * 4)
    return "<br/>".join(_indent_kept(_in_faces(line)) for line in shown.split("\n"))


def _in_faces(line: str) -> str:
    """A line as markup, letters of other scripts in typefaces that have them."""
    runs = in_faces(in_order(line), "")
    return "".join(f'<font name="{face}">{escape(run)}</font>' if face else escape(run) for face, run in runs)


def _indent_kept(line: str) -> str:
    bare = line.lstrip(" ")
    return "\u00a0" * (len(line) - len(bare)) + bare


def text(content: str, name: str = "body", right: bool = False) -> Any:
    """A paragraph that prints the content literally."""
    return _literal(content, style(name, right), _ROLES.get(name, "P"))


def under_points(numbers: Sequence[str], name: str) -> list[Any]:
    """Figures flush right with their decimal points under each other, as precise as each was written down."""
    face, size, _, _ = _PACKET[name]
    after = [
        width_of(f".{tail}", face, size) if dot else 0.0 for _, dot, tail in (each.partition(".") for each in numbers)
    ]
    looks = [style(name, right=True).clone(name, rightIndent=max(after) - own) for own in after]
    return [_literal(number, look, "P") for number, look in zip(numbers, looks, strict=True)]


def page_text(content: str, name: str = "body", right: bool = False) -> Any:
    """The same in the scale of letters, slips, lists and reports."""
    return _literal(content, style(name, right, page=True), _PAGE_ROLES.get(name, "P"))


def marked_up(markup: str, name: str = "body") -> Any:
    """A paragraph of our own markup; every piece of user text in it has gone through escaped()."""
    return _paragraph(markup, style(name), "P")


def _literal(content: str, look: Any, role: StructureRole) -> Paragraph:
    if not LEFTWARD.search(content):
        return _paragraph(escaped(content), look, role)
    paragraph = _Leftward(escaped(content), look)
    paragraph.part, paragraph.content = Element(role, actual=content), printable(content)
    return paragraph


def _paragraph(markup: str, look: Any, role: StructureRole) -> Paragraph:
    paragraph = Paragraph(markup, look)
    paragraph.part = Element(role)
    return paragraph


def leading_to(where: str, paragraph: Paragraph) -> Paragraph:
    """The same paragraph, which leads to a bookmark or to `mailto:` an address when it is clicked."""
    paragraph.leads_to = where
    return paragraph


def width_of(content: str, face: str, size: float) -> float:
    """How wide a line of text is, in points."""
    register()
    return float(sum(stringWidth(run, one, size) for one, run in in_faces(in_order(content), face)))


def shortened(content: str, face: str, size: float, room: float) -> str:
    """The line as far as it fits in the room, ending in a mark where something is left out."""
    return cut(printable(" ".join(content.split())), lambda line: width_of(line, face, size) <= room)
