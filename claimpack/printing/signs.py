"""Signs drawn beside a word, so that no meaning hangs on colour: met, not met, not known."""

from __future__ import annotations

from typing import Any

from claimpack.core.verdict.coverage import Verdict
from claimpack.core.windows.reasons import Outcome
from claimpack.printing.drawn import DrawnPiece, drawn
from claimpack.printing.palette import ACCENT, INK, WHITE
from claimpack.printing.typeface import BOLD

OUTCOME_OF: dict[Verdict, Outcome] = {"covered": "pass", "not covered": "fail", "undecided": "unknown"}


def sign(outcome: Outcome, size: float, white: bool = False) -> DrawnPiece:
    """A sign as a piece of its own."""
    return drawn(size, size, lambda canvas, width, _height: draw_sign(canvas, outcome, width, white))


def draw_sign(canvas: Any, outcome: Outcome, size: float, white: bool) -> None:
    """A tick in a full disc, a cross in a square, or a question mark in an open ring."""
    ground, ink = (WHITE, ACCENT) if white else (ACCENT, WHITE)
    half = size / 2
    canvas.setLineCap(1)
    canvas.setLineJoin(1)
    if outcome == "pass":
        canvas.setFillColor(ground)
        canvas.circle(half, half, half, stroke=0, fill=1)
        _strokes(canvas, ink, size * 0.13, [(0.26, 0.5), (0.44, 0.31), (0.75, 0.68)], size)
        return
    canvas.setStrokeColor(WHITE if white else INK)
    canvas.setLineWidth(size * 0.08)
    inset = size * 0.05
    if outcome == "fail":
        canvas.setFillColor(INK)
        canvas.rect(inset, inset, size - 2 * inset, size - 2 * inset, stroke=1, fill=1)
        _strokes(canvas, WHITE, size * 0.13, [(0.29, 0.29), (0.71, 0.71)], size)
        _strokes(canvas, WHITE, size * 0.13, [(0.29, 0.71), (0.71, 0.29)], size)
        return
    canvas.setDash(size * 0.16, size * 0.14)
    canvas.circle(half, half, half - inset, stroke=1, fill=0)
    canvas.setDash()
    canvas.setFillColor(WHITE if white else INK)
    canvas.setFont(BOLD, size * 0.66)
    canvas.drawCentredString(half, half - size * 0.24, "?")


def _strokes(canvas: Any, ink: Any, width: float, points: list[tuple[float, float]], size: float) -> None:
    canvas.setStrokeColor(ink)
    canvas.setLineWidth(width)
    path = canvas.beginPath()
    path.moveTo(points[0][0] * size, points[0][1] * size)
    for x, y in points[1:]:
        path.lineTo(x * size, y * size)
    canvas.drawPath(path, stroke=1, fill=0)
