"""How long payment takes, drawn: the rising curve with its band, and a range for every maker."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from decimal import Decimal

from claimpack.core.reporting.payment_speed import CurveStep, MakerSpeed, PaymentCurve
from claimpack.core.values.numbers_said import how_many
from claimpack.printing.papers import Point
from claimpack.reports.charts.picture import ChartPicture, Dot, Lettering, Line, Patch, Shape, fitted, width_of

_At = Callable[[float, Decimal | float], Point]

_HEIGHT = 140.0
_GUTTER = 40.0
# A few claims that were paid years late would squeeze all others into the left edge.
_NEARLY_ALL = Decimal("0.98")


def last_day_shown(curve: PaymentCurve) -> int:
    """Where the axis ends: past the day by which nearly all payments known had come, in whole months."""
    whole = sum(step.paid for step in curve.steps)
    seen = 0
    for step in curve.steps:
        seen += step.paid
        if seen and seen >= whole * _NEARLY_ALL:
            return -(-(step.day + 3) // 30) * 30
    return 30


def curve_chart(curve: PaymentCurve, width: float) -> ChartPicture:
    """The share paid by days since filing, with its 95 % band as a tint, the median marked."""
    last = last_day_shown(curve)
    steps = [step for step in curve.steps if step.day <= last]
    top, floor = 12.0, 12.0 + _HEIGHT
    right = width - 12

    def at(day: float, share: Decimal | float) -> Point:
        return _GUTTER + (right - _GUTTER) * day / last, floor - _HEIGHT * float(share)

    shapes: list[Shape] = [Patch(_band(steps, at(0, 0), at, last))]
    for share in (0, 25, 50, 75, 100):
        y = at(0, share / 100)[1]
        shapes.append(Line(((_GUTTER, y), (right, y)), "thin" if share == 0 else "rule"))
        shapes.append(Lettering(f"{share} %", (_GUTTER - 6, y + 3), "end", quiet=True))
    every = _every(last, width)
    for day in range(0, last + 1, every):
        x = at(day, 0)[0]
        shapes.append(Line(((x, floor), (x, floor + 4)), "thin"))
        shapes.append(Lettering(str(day), (x, floor + 15), "middle", quiet=True))
    shapes.append(Lettering("days since filing", ((_GUTTER + right) / 2, floor + 30), "middle", quiet=True))
    shapes.append(Line(_stairs([(step.day, 1 - step.unpaid) for step in steps], at, last)))
    if curve.median is not None and curve.median <= last:
        shapes += _median(curve.median, at, right)
    return ChartPicture(width, top + _HEIGHT + 36, tuple(shapes))


def _median(median: int, at: _At, right: float) -> list[Shape]:
    x, y = at(median, Decimal("0.5"))
    said = f"half within {how_many(median, 'day')}"
    leftwards = x + 10 + width_of(said, strong=True) > right
    return [
        Line((at(median, 0), (x, y)), "dashed"),
        Dot((x, y)),
        Lettering(said, (x - 8, y - 6) if leftwards else (x + 8, y + 14), "end" if leftwards else "start", strong=True),
    ]


def _stairs(points: Sequence[tuple[int, Decimal]], at: _At, last: int) -> tuple[Point, ...]:
    """A line that rises on each day, from nothing on the day of filing to the axis's end."""
    found = [at(0, 0)]
    share = Decimal(0)
    for day, after in points:
        found += [at(day, share), at(day, after)]
        share = after
    return (*found, at(last, share))


def _band(steps: Sequence[CurveStep], start: Point, at: _At, last: int) -> tuple[Point, ...]:
    known = [
        (step.day, 1 - step.high, 1 - step.low) for step in steps if step.low is not None and step.high is not None
    ]
    end = next((step.day for step in steps if step.low is None), last)
    low = _stairs([(day, least) for day, least, _ in known], at, end)
    high = _stairs([(day, most) for day, _, most in known], at, end)
    return (start, *high, *reversed(low))


def _every(last: int, width: float) -> int:
    """The days between two marks on the axis, so that they have room."""
    wanted = last * 44 / (width - _GUTTER)
    return next((step for step in (5, 10, 15, 30, 60, 90, 180, 360) if step >= wanted), 720)


def range_chart(makers: Sequence[MakerSpeed], width: float) -> ChartPicture:
    """A line a maker from the day a quarter is paid to the day three quarters are, a dot where half is."""
    known = [day for maker in makers for day in (maker.quarter, maker.median, maker.three_quarters) if day is not None]
    last = -(-(max(known, default=1) + 5) // 30) * 30
    is_narrow = width < 400
    gutter = 8.0 if is_narrow else min(max(width_of(maker.maker) for maker in makers) + 14, width * 0.36)
    row = 36.0 if is_narrow else 24.0
    scale = (width - gutter - max(width_of(_half(maker), strong=True) for maker in makers) - 7) / last
    floor = 4 + len(makers) * row
    shapes: list[Shape] = []
    for place, maker in enumerate(makers):
        y = 4 + place * row + (26 if is_narrow else 13)
        room = width if is_narrow else gutter - 12
        shapes.append(Lettering(fitted(maker.maker, room), (0, y - 12) if is_narrow else (0, y + 3)))
        shapes += _range(maker, gutter, scale, y, last)
    shapes.append(Line(((gutter, floor), (gutter + last * scale, floor)), "thin"))
    for day in range(0, last + 1, _every(last, width - gutter)):
        x = gutter + day * scale
        shapes.append(Line(((x, floor), (x, floor + 4)), "thin"))
        shapes.append(Lettering(str(day), (x, floor + 15), "middle", quiet=True))
    shapes.append(Lettering("days since filing", (gutter + last * scale / 2, floor + 29), "middle", quiet=True))
    return ChartPicture(width, floor + 36, tuple(shapes))


def _range(maker: MakerSpeed, left: float, scale: float, y: float, last: int) -> list[Shape]:
    if maker.quarter is None:
        return [Lettering("fewer than a quarter paid so far", (left + 4, y + 3), quiet=True)]
    end = left + (maker.three_quarters if maker.three_quarters is not None else last) * scale
    start = left + maker.quarter * scale
    shapes: list[Shape] = [Line(((start, y), (end, y))), Line(((start, y - 5), (start, y + 5)))]
    if maker.three_quarters is None:
        shapes.append(Line(((end - 5, y - 4), (end, y), (end - 5, y + 4))))
    else:
        shapes.append(Line(((end, y - 5), (end, y + 5))))
    if maker.median is not None:
        shapes.append(Dot((left + maker.median * scale, y)))
    return [*shapes, Lettering(_half(maker), (end + 7, y + 3), strong=maker.median is not None)]


def _half(maker: MakerSpeed) -> str:
    return f"half by day {maker.median}" if maker.median is not None else "under half paid"
