"""Bars: lying ones stacked by kind with a label each, and standing ones side by side by month."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from decimal import Decimal
from typing import NamedTuple

from claimpack.reports.charts.picture import FILLS, Box, ChartPicture, Fill, Lettering, Line, Shape, fitted, width_of

Said = Callable[[Decimal], str]

_KEY_ROW = 18.0
_ROW = 21.0
_BAR = 14.0
_STANDING = 116.0


class Bar(NamedTuple):
    """A bar: what it stands for, and an amount a kind; said stands at its end."""

    label: str
    amounts: tuple[Decimal, ...]
    said: str

    @property
    def whole(self) -> Decimal:
        """How long it is."""
        return sum((amount for amount in self.amounts if amount > 0), Decimal(0))


def lying_bars(bars: Sequence[Bar], kinds: Sequence[str], width: float) -> ChartPicture:
    """A bar under the other, each stacked by kind from light to dark; narrow pictures set the label over its bar."""
    fills = FILLS[len(kinds)] if len(kinds) > 1 else ("full",)
    is_narrow = width < 400
    key, top = _key(kinds, fills, width) if len(kinds) > 1 else ([], 2.0)
    gutter = 0.0 if is_narrow else min(max(width_of(bar.label) for bar in bars) + 10, width * 0.36)
    end = max(width_of(bar.said, strong=True) for bar in bars) + 8
    row = _ROW + 14 if is_narrow else _ROW
    longest = max(*(bar.whole for bar in bars), Decimal(1) / 1000)
    scale = (width - gutter - end) / float(longest)
    shapes: list[Shape] = [*key]
    for place, bar in enumerate(bars):
        y = top + place * row + (14 if is_narrow else 0)
        room = width if is_narrow else gutter - 10
        label_at = (0.0, y - 3) if is_narrow else (0.0, y + 11)
        shapes.append(Lettering(fitted(bar.label, room), label_at))
        x = gutter
        for amount, fill in zip(bar.amounts, fills, strict=True):
            if amount > 0:
                shapes.append(Box(x, y, float(amount) * scale, _BAR, fill))
                x += float(amount) * scale
        shapes.append(Lettering(bar.said, (x + 5, y + 11), strong=True))
    if not is_narrow:
        shapes.append(Line(((gutter, top - 2), (gutter, top + len(bars) * row - 4)), "thin"))
    return ChartPicture(width, top + len(bars) * row, tuple(shapes))


def _key(kinds: Sequence[str], fills: Sequence[Fill], width: float) -> tuple[list[Shape], float]:
    """What the fills stand for, as many in a row as there is room for; and where the picture goes on below."""
    shapes: list[Shape] = []
    x, y = 0.0, 2.0
    for kind, fill in zip(kinds, fills, strict=True):
        wide = 22 + width_of(kind)
        if x and x + wide > width:
            x, y = 0.0, y + _KEY_ROW
        shapes += [Box(x, y, 14, 10, fill), Lettering(kind, (x + 19, y + 8.6))]
        x += wide + 16
    return shapes, y + _KEY_ROW + 8


class Pillars(NamedTuple):
    """Bars side by side that share a label below: one a kind."""

    label: str
    amounts: tuple[Decimal, ...]


def standing_bars(groups: Sequence[Pillars], kinds: Sequence[str], width: float, said: Said) -> ChartPicture:
    """Groups of bars on an axis from zero, the last groups where not all have room."""
    fills = FILLS[len(kinds)]
    shown = groups[-room_for(width) :]
    shapes, top = _key(kinds, fills, width)
    highest = max((amount for group in shown for amount in group.amounts), default=Decimal(0))
    ticks = nice_ticks(highest)
    gutter = max(width_of(said(tick)) for tick in ticks) + 8
    floor, height = top + _STANDING + 8, _STANDING
    scale = height / float(ticks[-1])
    for tick in ticks:
        y = floor - float(tick) * scale
        shapes.append(Line(((gutter, y), (width, y)), "thin" if tick == 0 else "rule"))
        shapes.append(Lettering(said(tick), (gutter - 6, y + 3), "end", quiet=True))
    step = (width - gutter) / len(shown)
    bar = min(step * 0.8 / len(kinds), 22)
    for place, group in enumerate(shown):
        middle = gutter + step * (place + 0.5)
        left = middle - bar * len(kinds) / 2
        for kind, (amount, fill) in enumerate(zip(group.amounts, fills, strict=True)):
            tall = max(float(amount), 0) * scale
            if tall:
                shapes.append(Box(left + kind * bar, floor - tall, bar, tall, fill))
        shapes.append(Lettering(group.label, (middle, floor + 13), "middle", quiet=True, size=7.5))
    return ChartPicture(width, floor + 20, tuple(shapes))


def room_for(width: float) -> int:
    """How many groups of standing bars a picture of a width has room for."""
    return max(int((width - 50) // 36), 3)


def nice_ticks(highest: Decimal, most: int = 5) -> list[Decimal]:
    """Round numbers from zero to just above the highest, at most so many steps.

    Source: common practice, no source.
    """
    highest = max(highest, Decimal(1))
    unit = Decimal(1).scaleb(highest.adjusted() - 1)
    steps = (unit * factor for factor in (1, 2, 5, 10, 20, 25, 50, 100))
    step = next(step for step in steps if highest / step <= most)
    count = int(-(-highest // step))
    return [step * place for place in range(count + (count * step < highest) + 1)]
