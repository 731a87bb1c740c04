"""Fields drawn: each as a page of a small PDF, with the typefaces embedded, to be put where the field is shown."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO
from typing import Any, NamedTuple

from claimpack.forms.looks import Ink, Look
from claimpack.forms.setting import Setting
from claimpack.printing.typeface import REGULAR, binary_streams, register

# Of the smaller side of a box: how far its cross stays from its edges, and how thick its strokes are.
_INSET, _STROKE = 0.2, 0.11
_THINNEST = 0.75


class Drawn(NamedTuple):
    """What stands in the room of a field: a text as it is set, or a box ticked or not."""

    look: Look
    setting: Setting | None
    tick: bool


def as_pages(drawn: Sequence[Drawn]) -> bytes:
    """A PDF with a page for each, of the size of its room; the same bytes for the same input."""
    from claimpack.printing.scripts.canvas import LetteringCanvas

    register()
    stream = BytesIO()
    canvas = LetteringCanvas(stream, invariant=1, pageCompression=1, initialFontName=REGULAR)
    with binary_streams():
        for each in drawn:
            canvas.setPageSize((each.look.width, each.look.height))
            _draw(canvas, each)
            canvas.showPage()
        canvas.save()
    return stream.getvalue()


def _draw(canvas: Any, drawn: Drawn) -> None:
    look = drawn.look
    _ground(canvas, look)
    _fill(canvas, look.ink)
    if drawn.setting:
        for run in drawn.setting.runs:
            canvas.setFont(look.face, drawn.setting.size)
            canvas.drawString(run.x, run.y, run.text)
    elif drawn.tick:
        _cross(canvas, look)


def _ground(canvas: Any, look: Look) -> None:
    if look.fill:
        _fill(canvas, look.fill)
        canvas.rect(0, 0, look.width, look.height, stroke=0, fill=1)
    if look.rule and look.border:
        canvas.setLineWidth(look.border)
        _stroke(canvas, look.rule)
        half = look.border / 2
        canvas.rect(half, half, look.width - look.border, look.height - look.border, stroke=1, fill=0)
        for place in range(1, look.comb):
            x = look.width / look.comb * place
            canvas.line(x, 0, x, look.height)


def _cross(canvas: Any, look: Look) -> None:
    side = min(look.width, look.height) * (1 - 2 * _INSET)
    left, bottom = (look.width - side) / 2, (look.height - side) / 2
    canvas.setLineCap(1)
    canvas.setLineWidth(max(min(look.width, look.height) * _STROKE, _THINNEST))
    _stroke(canvas, look.ink)
    canvas.line(left, bottom, left + side, bottom + side)
    canvas.line(left, bottom + side, left + side, bottom)


def _fill(canvas: Any, ink: Ink) -> None:
    if len(ink) == 4:
        canvas.setFillColorCMYK(*ink)
    elif len(ink) == 3:
        canvas.setFillColorRGB(*ink)
    else:
        canvas.setFillGray(ink[0])


def _stroke(canvas: Any, ink: Ink) -> None:
    if len(ink) == 4:
        canvas.setStrokeColorCMYK(*ink)
    elif len(ink) == 3:
        canvas.setStrokeColorRGB(*ink)
    else:
        canvas.setStrokeGray(ink[0])
