"""The time line: start, failure, presentation, repair and every window's last day, to scale and without overlaps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import product
from typing import Literal

from claimpack.core.judging.assessment import Assessment
from claimpack.core.windows.judged import WindowJudgement

DayRole = Literal["start", "failed", "presented", "repaired"]
WindowState = Literal["cited", "open", "closed", "not for it", "unknown"]

_APART = 5.0


@dataclass(frozen=True, slots=True)
class DayOnLine:
    """A day something happened; several on one day are one event. Judged tells whether the claim is judged on it."""

    on: date
    roles: tuple[DayRole, ...]
    judged: bool


@dataclass(frozen=True, slots=True)
class Scale:
    """Days to points: the first day stands at left, the last at right."""

    first: date
    last: date
    left: float
    right: float

    def at(self, day: date) -> float:
        """Where a day stands, in points."""
        days = max((self.last - self.first).days, 1)
        return self.left + (self.right - self.left) * (day - self.first).days / days


@dataclass(frozen=True, slots=True)
class Flag:
    """A label over the axis: its pole, where its text begins and ends, and how high it flies, 0 the lowest."""

    pole: float
    left: float
    right: float
    level: int


def state_of(window: WindowJudgement, cited: WindowJudgement | None) -> WindowState:
    """How a window stands: the one cited, open, closed, for something else, or not known yet."""
    if cited is not None and window.id == cited.id and window.holds:
        return "cited"
    if window.holds:
        return "open"
    if window.applies is False:
        return "not for it"
    return "closed" if window.inside is False else "unknown"


def in_order(assessment: Assessment) -> list[WindowJudgement]:
    """The windows: the one cited, then those that apply or may apply, then the others, each in the plan's order."""
    rank: dict[WindowState, int] = {"cited": 0, "open": 1, "unknown": 2, "closed": 3, "not for it": 4}
    return sorted(assessment.windows, key=lambda window: rank[state_of(window, assessment.window)])


def on_the_line(assessment: Assessment) -> list[WindowJudgement]:
    """The windows that are drawn, in order: those that apply or may apply; all of them where none does."""
    windows = in_order(assessment)
    # a line of bars for other machines would hide the one that counts; where there is none else, they are shown
    return [window for window in windows if window.applies is not False] or windows


def events(assessment: Assessment) -> list[DayOnLine]:
    """What happened, the earliest first."""
    dates = assessment.claim.dates
    named: list[tuple[DayRole, date | None]] = [
        ("start", assessment.starts),
        ("failed", dates.failed),
        ("presented", dates.presented),
        ("repaired", dates.repaired),
    ]
    days = sorted({on for _, on in named if on})
    return [
        DayOnLine(day, tuple(role for role, on in named if on == day), judged=day == assessment.judged_on)
        for day in days
    ]


def scale_for(assessment: Assessment, windows: Sequence[WindowJudgement], left: float, right: float) -> Scale:
    """A scale from the first day that is known to the latest last day."""
    happened = [event.on for event in events(assessment)]
    known = happened + [day for window in windows for day in (window.starts, window.ends) if day]
    return Scale(min(known), max(known), left, right)


def flags(poles: Sequence[float], widths: Sequence[float], edge: float) -> list[Flag]:
    """Labels placed so that no text overlaps another and no pole crosses a text, as low as can be.

    Args:
        poles: where the events stand, in points, the earliest first.
        widths: how wide each label is.
        edge: where the room ends at the right; it begins at 0.
    """
    count = len(poles)
    best: list[Flag] = []
    least = float("inf")
    for levels in product(range(count), repeat=count):
        # fewer rows before lower labels
        height = max(levels, default=0) * 100 + sum(levels)
        if height >= least:
            continue
        for rightward in product((True, False), repeat=count):
            placed = _placed(poles, widths, levels, rightward)
            if _within(placed, edge) and _clear(placed):
                best, least = placed, height
                break
    return best or _stacked(poles, widths, edge)


def _placed(
    poles: Sequence[float], widths: Sequence[float], levels: Sequence[int], rightward: Sequence[bool]
) -> list[Flag]:
    return [
        Flag(pole, pole, pole + width, level) if to_right else Flag(pole, pole - width, pole, level)
        for pole, width, level, to_right in zip(poles, widths, levels, rightward, strict=True)
    ]


def _within(placed: Sequence[Flag], edge: float) -> bool:
    return all(flag.left >= -0.01 and flag.right <= edge + 0.01 for flag in placed)


def _clear(placed: Sequence[Flag]) -> bool:
    for number, flag in enumerate(placed):
        for other in placed[number + 1 :]:
            # the other stands further right, whichever way it flies
            if flag.level == other.level and other.left < flag.right + _APART:
                return False
            low, high = sorted((flag, other), key=lambda one: one.level)
            # a pole rises through every row below its label
            if low.level < high.level and low.left < high.pole < low.right:
                return False
    return True


def _stacked(poles: Sequence[float], widths: Sequence[float], edge: float) -> list[Flag]:
    """Labels one over the other, pushed inside the edges; poles may then pass behind a text."""
    found = []
    for level, (pole, width) in enumerate(zip(poles, widths, strict=True)):
        left = max(0.0, min(pole, edge - width))
        found.append(Flag(pole, left, left + width, level))
    return found


def ticks(scale: Scale, apart: float) -> list[tuple[date, str]]:
    """First days of months or years along the axis, at least so many points apart, with what is written there."""
    days = max((scale.last - scale.first).days, 1)
    a_month = (scale.right - scale.left) * 30.4 / days
    step = next((months for months in (1, 2, 3, 6, 12, 24, 60, 120) if months * a_month >= apart), 1200)
    # on whole years and quarters, and not counted from whatever day is the first
    month = scale.first.year * 12
    month += -month % step
    found = []
    while month < 9999 * 12 and (on := date(month // 12, month % 12 + 1, 1)) <= scale.last:
        if on >= scale.first:
            found.append((on, f"{on.year}" if step % 12 == 0 else f"{on.year}-{on.month:02d}"))
        month += step
    return found
