"""Pictures as SVG for a page: no script, no style of their own, every word escaped."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from claimpack.core.values.harmless import harmless
from claimpack.printing.palette import ACCENT, BAND, CHART_RULE, INK, QUIET, WHITE
from claimpack.printing.papers import Point
from claimpack.reports.charts.picture import Box, ChartPicture, Dot, Fill, Lettering, Line, Patch, Shape, width_of

_STROKES = {
    "firm": f'stroke="{ACCENT}" stroke-width="1.6"',
    "thin": f'stroke="{INK}" stroke-width="0.8"',
    "rule": f'stroke="{CHART_RULE}" stroke-width="0.5"',
    "dashed": f'stroke="{INK}" stroke-width="0.9" stroke-dasharray="3 2.5"',
}
_FILLS: dict[Fill, str] = {
    "blank": WHITE,
    "dots": "url(#dots)",
    "stripes": "url(#stripes)",
    "checks": "url(#checks)",
    "full": ACCENT,
    "band": BAND,
}

FILL_PATTERNS = (
    '<svg class="patterns" width="0" height="0" aria-hidden="true" focusable="false"><defs>'
    '<pattern id="dots" width="5" height="5" patternUnits="userSpaceOnUse"><rect width="5" height="5" fill="#fff"/>'
    f'<circle cx="2.5" cy="2.5" r="0.9" fill="{ACCENT}"/></pattern>'
    '<pattern id="stripes" width="4.5" height="4.5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    f'<rect width="4.5" height="4.5" fill="#fff"/><rect width="1.3" height="4.5" fill="{ACCENT}"/></pattern>'
    '<pattern id="checks" width="3.6" height="3.6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
    f'<rect width="3.6" height="3.6" fill="#fff"/><rect width="1.4" height="3.6" fill="{ACCENT}"/>'
    f'<rect width="3.6" height="1.4" fill="{ACCENT}"/></pattern></defs></svg>'
)
"""What areas are filled with; it stands once on a page, before the pictures."""


def as_svg(picture: ChartPicture, key: str, title: str, description: str) -> str:
    """A picture as one element, named and described for those who cannot see it; key makes its names unique."""
    drawn = "".join(_shape(shape) for shape in picture.shapes)
    return (
        f'<svg class="{key.rpartition("-")[2]}" role="img" aria-labelledby="{key}-title {key}-desc" '
        f'viewBox="0 0 {_n(picture.width)} {_n(picture.height)}">'
        f'<title id="{key}-title">{escape(harmless(title))}</title>'
        f'<desc id="{key}-desc">{escape(harmless(description))}</desc>{drawn}</svg>'
    )


def _shape(shape: Shape) -> str:
    if isinstance(shape, Box):
        where = f'x="{_n(shape.left)}" y="{_n(shape.top)}" width="{_n(shape.width)}" height="{_n(shape.height)}"'
        return f'<rect {where} fill="{_FILLS[shape.fill]}" stroke="{ACCENT}" stroke-width="0.8"/>'
    if isinstance(shape, Line):
        return f'<polyline points="{_points(shape.points)}" fill="none" {_STROKES[shape.stroke]}/>'
    if isinstance(shape, Patch):
        return f'<polygon points="{_points(shape.points)}" fill="{_FILLS[shape.fill]}"/>'
    if isinstance(shape, Dot):
        return f'<circle cx="{_n(shape.at[0])}" cy="{_n(shape.at[1])}" r="{_n(shape.radius)}" fill="{INK}"/>'
    return _words(shape)


def _words(words: Lettering) -> str:
    weight = ' font-weight="600"' if words.strong else ""
    anchor = "" if words.side == "start" else f' text-anchor="{words.side}"'
    ink = QUIET if words.quiet else INK
    where = f'x="{_n(words.at[0])}" y="{_n(words.at[1])}" font-size="{_n(words.size)}"'
    # whatever typeface the reader's machine has, the words take the room that was kept for them
    if words.said:
        where += f' textLength="{_n(width_of(words.said, words.size, words.strong))}" lengthAdjust="spacingAndGlyphs"'
    return f'<text {where} fill="{ink}"{weight}{anchor}>{escape(harmless(words.said))}</text>'


def _points(points: Sequence[Point]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in points)


def _n(number: float) -> str:
    """A length with a tenth of a point, which no eye tells from more."""
    return f"{number:.1f}".removesuffix(".0")
