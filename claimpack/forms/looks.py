"""How a field looks: its size, type, colour and boxes, as the form says, or as a place on a page is given."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

import pikepdf
from pikepdf import Array, Dictionary

from claimpack.forms.fields import PdfField, taken_over
from claimpack.forms.writings import PageArea, Writing
from claimpack.printing.typeface import BOLD, MONO, REGULAR

_SHOWN_AS = re.compile(r"/(\S+)\s+(-?[\d.]+)\s+Tf")
_COLOUR = re.compile(r"((?:[\d.]+\s+){1,4})(g|rg|k)\b")
_ALIGN = ("left", "centre", "right")
_LARGEST = 72.0

Ink = tuple[float, ...]
"""A colour as one, three or four parts of 1: grey, red-green-blue, or cyan-magenta-yellow-black."""


@dataclass(frozen=True, slots=True)
class Look:
    """The room of a text or mark and how it is set there, in points; size 0 is as large as fits well.

    Comb is the number of boxes, 0 for none; turned is by how many degrees the room stands turned on its page,
    anticlockwise. Fill and rule are the colours of ground and border, empty for none; border is how wide that is.
    """

    width: float
    height: float
    face: str = REGULAR
    size: float = 0.0
    ink: Ink = (0.0,)
    align: str = "left"
    comb: int = 0
    lines: bool = False
    turned: int = 0
    fill: Ink = ()
    rule: Ink = ()
    border: float = 0.0
    column: str = ""


def look_of(pdf: pikepdf.Pdf, field: PdfField, widget: Any, writing: Writing) -> Look:
    """The look of a field where a widget shows it.

    Source: ISO 32000-1:2008 12.5.6.19 (what a widget looks like), 12.7.3.3 (default appearance, alignment).
    """
    left, bottom, right, top = (float(edge) for edge in widget["/Rect"])
    width, height = abs(right - left), abs(top - bottom)
    marks = widget.get("/MK", Dictionary())
    turned = int(marks.get("/R", 0)) % 360
    if turned % 180:
        width, height = height, width
    # a field may leave its type to the form as a whole
    told = str(taken_over(widget, "/DA") or pdf.Root.AcroForm.get("/DA", ""))
    named = _SHOWN_AS.search(told)
    across = taken_over(widget, "/Q")
    across = int(pdf.Root.AcroForm.get("/Q", 0) if across is None else across)
    rule = _ink(marks.get("/BC"))
    return Look(
        width=width,
        height=height,
        face=_face(named[1]) if named else REGULAR,
        size=writing.size or (min(abs(float(named[2])), _LARGEST) if named else 0.0),
        ink=_ink_said(told),
        align=writing.align or _ALIGN[across if across in range(3) else 0],
        comb=field.told.most if field.told.comb else 0,
        lines=field.told.lines,
        turned=turned,
        fill=_ink(marks.get("/BG")),
        rule=rule,
        # without a colour a border has a width and is not drawn
        border=float(widget.get("/BS", Dictionary()).get("/W", 1)) if rule else 0.0,
        column=writing.column,
    )


def look_of_place(place: PageArea, writing: Writing) -> Look:
    """The look of what stands in a place that was given on a page."""
    return Look(
        width=place.width,
        height=place.height,
        size=writing.size,
        align=writing.align or "left",
        comb=place.comb,
        lines=place.lines,
        column=writing.column,
    )


def _face(name: str) -> str:
    """The nearest of the program's typefaces, which are embedded and have the letters of most languages."""
    folded = name.casefold()
    # names as in CourierNew, and as the short ones that forms use: CoBo
    if "cour" in folded or "mono" in folded or folded.startswith("co"):
        return MONO
    return BOLD if "bold" in folded or folded in ("hebo", "tibo") else REGULAR


def _ink_said(told: str) -> Ink:
    found = _COLOUR.search(told)
    return tuple(min(float(part), 1.0) for part in found[1].split()) if found else (0.0,)


def _ink(parts: Any) -> Ink:
    return tuple(min(max(float(part), 0.0), 1.0) for part in parts) if isinstance(parts, Array) else ()
