"""The framed boxes side by side: how long to hold the part, where it lies, and whether it is drained."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from claimpack.core.holding.tags import TagFacts
from claimpack.printing.typeface import BOLD, REGULAR
from claimpack.tag.drawing import Area, Drawing, width_of
from claimpack.tag.fitting import PITCH, Style, fitted, write
from claimpack.tag.pictograms import tick_box
from claimpack.tag.stock import Block, Panel, TagWords

_LINE = 1.2
_PAD = 3.0
# The day until which a part is kept must stay large enough to be read from in front of the shelf.
_LEAST_DAY = 22.0
_TITLE = 6.5
# How much of a low panel the line for the day takes, and how small the rule under it may be set.
_LINE_SHARES = (0.5, 0.42, 0.36, 0.3)
_LEAST_RULE = 4.6


@dataclass(frozen=True, slots=True)
class _Title:
    """What a panel is about, and a word that may follow."""

    text: str
    after: str
    face: str

    def stacked(self, drawing: Drawing) -> list[str]:
        """The words one under the other."""
        return drawing.printable(f"{self.text} {self.after}").split()


def draw_panels(drawing: Drawing, tag: TagFacts, words: TagWords, block: Block) -> None:
    """Lay down the panels that have something to say, sharing the whole width."""
    shown = [panel for panel in block.panels if panel.what != "drained" or tag.hazard == "fuel"]
    room = block.width - block.gap * (len(shown) - 1)
    x = block.x
    for panel in shown:
        width = room * panel.share / sum(other.share for other in shown)
        _PANELS[panel.what](drawing, tag, words, panel, Area(x, block.y, width, block.height))
        x += width + block.gap


def _hold(drawing: Drawing, tag: TagFacts, words: TagWords, panel: Panel, area: Area) -> None:
    inside = _framed(drawing, area, 1.7 * _LINE)
    if tag.hold_until is None and tag.hold_terms:
        _to_be_dated(drawing, tag, words, panel, inside)
        return
    day = "" if tag.hold_until is None else str(tag.hold_until)
    terms = panel.least * 2.4
    if panel.terms and day and tag.hold_terms and inside.height > terms + _LEAST_DAY:
        lower = Area(inside.x, inside.bottom - terms, inside.width, terms)
        style = Style(REGULAR, 8, panel.least, down="bottom")
        write(drawing, *_first_whole([(rule, style) for rule in _rules(tag)], lower))
        inside = Area(inside.x, inside.y, inside.width, inside.height - terms - 1.5)
    _titled(drawing, inside, _Title(words.hold_until, "", BOLD), day, Style(BOLD, panel.size, panel.least, one_line=0))


def _to_be_dated(drawing: Drawing, tag: TagFacts, words: TagWords, panel: Panel, inside: Area) -> None:
    """A line for the day, to be filled in when it is known, over the rule it follows from, which is never cut."""
    least = min(panel.least, _LEAST_RULE)
    style = Style(REGULAR, max(least, min(9.0, inside.height * 0.4)), least, down="middle")
    ways = [(share, rule) for share in _LINE_SHARES for rule in _rules(tag)]

    def below(share: float) -> Area:
        return inside.below(inside.height * (share + 0.06))

    share, rule = next((way for way in ways if not fitted(way[1], below(way[0]), style).cut), ways[-1])
    upper = Area(inside.x, inside.y, inside.width, inside.height * share)
    title = write(drawing, words.hold_until, upper, Style(BOLD, min(10.0, upper.height * 0.85), 4, down="bottom"))
    start = width_of(title.lines[-1], BOLD, title.size) + 4
    drawing.fill(Area(upper.x + start, upper.bottom - 0.8, upper.width - start, 0.8))
    write(drawing, rule, below(share), style)


def _rules(tag: TagFacts) -> list[str]:
    return [rule for rule in (tag.hold_terms, tag.hold_in_short) if rule]


def _first_whole(ways: Sequence[tuple[str, Style]], room: Area) -> tuple[str, Area, Style]:
    """The first text and style that fits without being cut; the last one where none does."""
    text, style = next(((text, style) for text, style in ways if not fitted(text, room, style).cut), ways[-1])
    return text, room, style


def _shelf(drawing: Drawing, tag: TagFacts, words: TagWords, panel: Panel, area: Area) -> None:
    inside = _framed(drawing, area, _LINE)
    title = _Title(words.shelf, words.boxed if tag.boxed else "", REGULAR)
    _titled(drawing, inside, title, tag.shelf, Style(BOLD, panel.size, panel.least, across="middle"))


def _drained(drawing: Drawing, tag: TagFacts, words: TagWords, panel: Panel, area: Area) -> None:
    if tag.drained is False:
        drawing.fill(area)
        style = Style(BOLD, panel.size, panel.least, across="middle", down="middle", white=True)
        write(drawing, words.not_drained, area.inset(_PAD + 1, _PAD), style)
        return
    inside = _framed(drawing, area, _LINE)
    if tag.drained:
        box = min(inside.height * 0.62, inside.width * 0.2, panel.size * 1.2)
        text = _beside_box(drawing, inside, box, ticked=True)
        write(drawing, words.drained, text, Style(BOLD, panel.size, panel.least, down="middle"))
        return
    _to_be_drained(drawing, words, panel, inside)


def _to_be_drained(drawing: Drawing, words: TagWords, panel: Panel, inside: Area) -> None:
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
    return area.inset(line + _PAD, line + _PAD * 0.6)


def _titled(drawing: Drawing, room: Area, title: _Title, value: str, style: Style) -> None:
    """A value with its title above it or to its left, whichever leaves it larger; or a line to write on."""
    style = replace(style, down="middle")
    size = min(9.0, max(_TITLE, room.height * 0.2))
    under = room.below(size * 1.2)
    beside = title.stacked(drawing)
    right = room.after(max(width_of(line, title.face, _TITLE) for line in beside) + 4)
    if value and len(beside) * _TITLE * PITCH <= room.height and right.width > 0:
        text = drawing.printable(value)
        over, left = fitted(text, under, style), fitted(text, right, style)
        if not left.cut and (over.cut or left.size > over.size):
            column = Area(room.x, room.y, right.x - room.x, room.height)
            write(drawing, "\n".join(beside), column, Style(title.face, _TITLE, 4, down="middle"))
            write(drawing, value, right, style)
            return
    strip = Area(room.x, room.y, room.width, size * 1.1)
    found = write(drawing, title.text, strip, Style(title.face, size, 4))
    if title.after:
        begun = width_of(found.lines[0], title.face, found.size) + 4
        write(drawing, title.after, strip.after(begun), Style(REGULAR, size, 4, across="right"))
    if value:
        write(drawing, value, under, style)
    else:
        drawing.fill(Area(under.x, under.bottom - 2, under.width, 0.8))


_PANELS = {"hold": _hold, "shelf": _shelf, "drained": _drained}
