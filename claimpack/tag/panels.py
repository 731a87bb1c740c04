"""The framed boxes side by side: how long to hold the part, where it lies, and whether it is drained."""

from __future__ import annotations

from claimpack.core.holding import TagFacts
from claimpack.tag.drawing import Area, Drawing, width_of
from claimpack.tag.fitting import Style, write
from claimpack.tag.pictograms import tick_box
from claimpack.tag.stock import Block, Panel, Words
from claimpack.typeface import BOLD, REGULAR

_LINE = 1.2
_PAD = 3.0
_LABEL = 6.5


def draw_panels(drawing: Drawing, tag: TagFacts, words: Words, block: Block) -> None:
    """Lay down the panels that have something to say, sharing the whole width."""
    shown = [panel for panel in block.panels if panel.what != "drained" or tag.hazard == "fuel"]
    room = block.width - block.gap * (len(shown) - 1)
    x = block.x
    for panel in shown:
        width = room * panel.share / sum(other.share for other in shown)
        _PANELS[panel.what](drawing, tag, words, panel, Area(x, block.y, width, block.height))
        x += width + block.gap


def _hold(drawing: Drawing, tag: TagFacts, words: Words, panel: Panel, area: Area) -> None:
    inside = _framed(drawing, area, 2 * _LINE)
    day = "" if tag.hold_until is None else str(tag.hold_until)
    value = _labelled(drawing, inside, words.hold_until if day or not tag.hold_terms else words.hold, BOLD)
    if not day:
        smaller = min(panel.size, max(panel.least, inside.height * 0.3))
        _value(drawing, tag.hold_terms, value, Style(BOLD, smaller, panel.least, down="middle"))
        return
    if panel.terms and tag.hold_terms:
        terms = max(panel.least * 1.3, value.height * 0.3)
        lower = Area(value.x, value.bottom - terms, value.width, terms)
        write(drawing, tag.hold_terms, lower, Style(REGULAR, 8, panel.least, down="bottom"))
        value = Area(value.x, value.y, value.width, value.height - terms - 1.5)
    _value(drawing, day, value, Style(BOLD, panel.size, panel.least, down="middle"))


def _shelf(drawing: Drawing, tag: TagFacts, words: Words, panel: Panel, area: Area) -> None:
    inside = _framed(drawing, area, _LINE)
    value = _labelled(drawing, inside, words.shelf, REGULAR, words.boxed if tag.boxed else "")
    _value(drawing, tag.shelf, value, Style(BOLD, panel.size, panel.least, across="middle", down="middle"))


def _drained(drawing: Drawing, tag: TagFacts, words: Words, panel: Panel, area: Area) -> None:
    if tag.drained is False:
        drawing.fill(area)
        style = Style(BOLD, panel.size, panel.least, across="middle", down="middle", white=True)
        write(drawing, words.not_drained, area.inset(_PAD + 1, _PAD), style)
        return
    inside = _framed(drawing, area, _LINE)
    if tag.drained:
        box = min(inside.height * 0.62, inside.width * 0.25, panel.size * 1.2)
        text = _beside_box(drawing, inside, box, ticked=True)
        write(drawing, words.drained, text, Style(BOLD, panel.size, panel.least, down="middle"))
        return
    _to_be_drained(drawing, words, panel, inside)


def _to_be_drained(drawing: Drawing, words: Words, panel: Panel, inside: Area) -> None:
    upper = Area(inside.x, inside.y, inside.width, inside.height * 0.5)
    box = min(upper.height * 0.9, panel.size)
    style = Style(BOLD, min(panel.size, box), panel.least, down="middle")
    write(drawing, words.drained_question, _beside_box(drawing, upper, box, ticked=False), style)
    lower = inside.below(inside.height * 0.56)
    size = min(10.0, max(panel.least, lower.height * 0.6))
    by = write(drawing, words.by, lower, Style(REGULAR, size, 4, down="bottom"))
    start = width_of(by.lines[-1], REGULAR, by.size) + 3
    drawing.fill(Area(lower.x + start, lower.bottom - 0.8, lower.width - start, 0.8))


def _beside_box(drawing: Drawing, room: Area, box: float, ticked: bool) -> Area:
    """Lay down a tick box at the left of a room, and give back what is left."""
    tick_box(drawing, Area(room.x, room.y + (room.height - box) / 2, box, box), ticked)
    return room.after(box * 1.25)


def _framed(drawing: Drawing, area: Area, line: float) -> Area:
    drawing.frame(area, line)
    return area.inset(line + _PAD, line + _PAD * 0.7)


def _labelled(drawing: Drawing, room: Area, label: str, face: str, after: str = "") -> Area:
    size = min(9.0, max(_LABEL, room.height * 0.2))
    strip = Area(room.x, room.y, room.width, size * 1.1)
    found = write(drawing, label, strip, Style(face, size, 4))
    if after:
        begun = width_of(found.lines[0], face, found.size) + 4
        write(drawing, after, strip.after(begun), Style(REGULAR, size, 4, across="right"))
    return room.below(size * 1.2)


def _value(drawing: Drawing, value: str, room: Area, style: Style) -> None:
    """A value, or a line to write it on by hand."""
    if value:
        write(drawing, value, room, style)
    else:
        drawing.fill(Area(room.x, room.bottom - 2, room.width, 0.8))


_PANELS = {"hold": _hold, "shelf": _shelf, "drained": _drained}
