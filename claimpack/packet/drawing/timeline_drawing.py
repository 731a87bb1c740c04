"""The time line as a picture: events on poles over the axis, a bar a window under it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from reportlab.lib.utils import simpleSplit

from claimpack.core.windows.judged import WindowJudgement
from claimpack.packet.drawing.draft import Draft, day
from claimpack.packet.drawing.timeline import (
    DayOnLine,
    Flag,
    Scale,
    WindowState,
    events,
    flags,
    on_the_line,
    scale_for,
    state_of,
    ticks,
)
from claimpack.printing.drawn import DrawnPiece, drawn
from claimpack.printing.lettering import shortened, width_of
from claimpack.printing.palette import ACCENT, INK, QUIET, RULE, TINT, WHITE
from claimpack.printing.typeface import BOLD, REGULAR, printable

MOST_WINDOWS = 7

_GUTTER = 158.0
_DATE_ROOM = 62.0
_ROW = 19.5
_TITLE_LINE = 8.5
_TITLE_SIZE = 7.5
_LEVEL = 11.0
_AXIS = 15.0
_BAR = 8.0
_SIZE = 7.0


@dataclass(frozen=True, slots=True)
class _Row:
    """A window under the axis: the lines of its title, where its row begins at the foot, and how high that is."""

    window: WindowJudgement
    state: WindowState
    title: tuple[str, ...]
    bottom: float
    height: float

    @property
    def bar(self) -> float:
        """Where the bar's lower edge lies."""
        return self.bottom + 5.5 + (self.height - _ROW) / 2


def _rows(draft: Draft, windows: Sequence[WindowJudgement]) -> list[_Row]:
    """The rows from the top, at 0, downwards."""
    found, bottom = [], 0.0
    for window in windows:
        state = state_of(window, draft.assessment.window)
        title = _title(window.title, BOLD if state == "cited" else REGULAR)
        height = _ROW + (len(title) - 1) * _TITLE_LINE
        bottom -= height
        found.append(_Row(window, state, title, bottom, height))
    return found


def _title(title: str, face: str) -> tuple[str, ...]:
    """A window's title in two lines at most."""
    first, *rest = simpleSplit(printable(" ".join(title.split())), face, _TITLE_SIZE, _GUTTER - 10)
    lines = (first, " ".join(rest)) if rest else (first,)
    return tuple(shortened(line, face, _TITLE_SIZE, _GUTTER - 10) for line in lines)


def timeline_picture(draft: Draft) -> DrawnPiece:
    """The picture of the cited window, its neighbours and what happened, as wide as the page's body."""
    windows = on_the_line(draft.assessment)[:MOST_WINDOWS]
    scale = scale_for(draft.assessment, windows, _GUTTER, draft.width - _DATE_ROOM)
    happened = events(draft.assessment)
    labels = [_label(draft, event) for event in happened]
    poles = [scale.at(event.on) for event in happened]
    flown = flags(poles, [width_of(label, BOLD, _SIZE) + 4 for label in labels], draft.width)
    levels = max((flag.level for flag in flown), default=0) + 1
    rows = _rows(draft, windows)
    height = levels * _LEVEL + _AXIS + sum(row.height for row in rows)

    def pen(canvas: Any, width: float, top: float) -> None:
        axis = top - levels * _LEVEL
        _axis(canvas, scale, axis, width)
        placed = [replace(row, bottom=axis - _AXIS + row.bottom) for row in rows]
        for row in placed:
            _row(canvas, draft, row)
            _bar(canvas, row, scale)
        _poles(canvas, happened, flown, axis)
        for row in placed:
            _last_day(canvas, draft, row, scale)
        for flag, label, event in zip(flown, labels, happened, strict=True):
            canvas.setFillColor(INK)
            canvas.setFont(BOLD if event.judged else REGULAR, _SIZE)
            left = flag.left + 2.5 if flag.left >= flag.pole else flag.left
            canvas.drawString(left, axis + flag.level * _LEVEL + 3.5, label)

    return drawn(draft.width, height, pen, _in_words(draft, labels, rows))


def _in_words(draft: Draft, labels: Sequence[str], rows: Sequence[_Row]) -> str:
    """What the picture shows, for those who cannot see it."""
    words = draft.words
    windows = [
        f"{row.window.title}: {_standing(draft, row.window, row.state)}, "
        f"{day(row.window.starts, words.start_unknown)} / {day(row.window.ends, words.end_unknown)}"
        for row in rows
    ]
    return "; ".join((*labels, *windows))


def _label(draft: Draft, event: DayOnLine) -> str:
    words = draft.words
    names = {
        "start": words.cover_starts,
        "failed": words.failed.lower(),
        "presented": words.presented.lower(),
        "repaired": words.repaired.lower(),
    }
    said = ", ".join(names[role] for role in event.roles)
    return f"{event.on.isoformat()} {said}" + (f" ({words.judged})" if event.judged else "")


def _axis(canvas: Any, scale: Scale, axis: float, width: float) -> None:
    canvas.setStrokeColor(INK)
    canvas.setLineWidth(1)
    canvas.line(_GUTTER, axis, width - _DATE_ROOM, axis)
    canvas.setFont(REGULAR, 6.5)
    for on, label in ticks(scale, 42):
        x = scale.at(on)
        canvas.setStrokeColor(INK)
        canvas.setLineWidth(0.6)
        canvas.line(x, axis, x, axis - 3)
        canvas.setFillColor(QUIET)
        canvas.drawCentredString(x, axis - 10, label)


def _poles(canvas: Any, happened: list[DayOnLine], flown: list[Flag], axis: float) -> None:
    for event, flag in zip(happened, flown, strict=True):
        canvas.setStrokeColor(INK)
        canvas.setLineWidth(0.6)
        canvas.line(flag.pole, axis, flag.pole, axis + flag.level * _LEVEL + 10)
        canvas.setFillColor(INK)
        canvas.circle(flag.pole, axis, 2.2, stroke=0, fill=1)
        canvas.setLineWidth(0.9 if event.judged else 0.5)
        canvas.setDash(*(() if event.judged else (1.2, 1.8)))
        canvas.line(flag.pole, axis - 12, flag.pole, 1)
        canvas.setDash()


def _row(canvas: Any, draft: Draft, row: _Row) -> None:
    canvas.setFillColor(QUIET if row.state == "not for it" else INK)
    canvas.setFont(BOLD if row.state == "cited" else REGULAR, _TITLE_SIZE)
    for place, line in enumerate(row.title):
        canvas.drawString(0, row.bottom + row.height - 9 - place * _TITLE_LINE, line)
    canvas.setFillColor(QUIET)
    canvas.setFont(REGULAR, 6.5)
    said = _standing(draft, row.window, row.state)
    canvas.drawString(0, row.bottom + 3, shortened(said, REGULAR, 6.5, _GUTTER - 10))
    canvas.setStrokeColor(RULE)
    canvas.setLineWidth(0.25)
    canvas.line(0, row.bottom, draft.width, row.bottom)


def _standing(draft: Draft, window: WindowJudgement, state: WindowState) -> str:
    said = standing(draft, state)
    if window.hours_limit is None:
        return said
    return f"{said} · {draft.words.hour_limit.format(hours=draft.number(window.hours_limit))}"


def standing(draft: Draft, state: WindowState) -> str:
    """How a window stands, in the layout's words."""
    words = draft.words
    return {
        "cited": words.state_cited,
        "open": words.state_open,
        "closed": words.state_closed,
        "not for it": words.state_not_for_it,
        "unknown": words.state_unknown,
    }[state]


def _bar(canvas: Any, row: _Row, scale: Scale) -> None:
    window, state, bottom, height = row.window, row.state, row.bar, _BAR
    left, right = _span(window, scale)
    if state == "not for it":
        canvas.setStrokeColor(RULE)
        canvas.setLineWidth(0.8)
        canvas.line(left, bottom + height / 2, right, bottom + height / 2)
        return
    full = {"cited": ACCENT, "open": ACCENT, "closed": TINT}.get(state, WHITE)
    canvas.setFillColor(full)
    canvas.setStrokeColor(ACCENT if state in ("cited", "open") else QUIET)
    canvas.setLineWidth(0.8)
    if state == "unknown":
        canvas.setDash(2, 2)
    canvas.rect(left, bottom, right - left, height, stroke=0, fill=1)
    canvas.line(left, bottom, right, bottom)
    canvas.line(left, bottom + height, right, bottom + height)
    # an end that is not known has no edge: the bar stays open there
    if window.starts:
        canvas.line(left, bottom, left, bottom + height)
    if window.ends:
        canvas.setDash()
        canvas.setLineWidth(1.6)
        canvas.line(right, bottom - 1.5, right, bottom + height + 1.5)
    canvas.setDash()


def _last_day(canvas: Any, draft: Draft, row: _Row, scale: Scale) -> None:
    window, bottom = row.window, row.bar
    right = _span(window, scale)[1]
    label = window.ends.isoformat() if window.ends else draft.words.end_unknown
    if not window.starts:
        label = draft.words.start_unknown
    canvas.setFont(BOLD if row.state == "cited" else REGULAR, _SIZE)
    canvas.setFillColor(WHITE)
    canvas.rect(right + 2.5, bottom - 1, width_of(label, BOLD, _SIZE) + 3, _BAR + 2, stroke=0, fill=1)
    canvas.setFillColor(QUIET if row.state == "not for it" else INK)
    canvas.drawString(right + 4, bottom + 1.6, shortened(label, BOLD, _SIZE, draft.width - right - 4))


def _span(window: WindowJudgement, scale: Scale) -> tuple[float, float]:
    """Where a bar begins and ends; an unknown day leaves it open to the end of the axis."""
    left = scale.at(window.starts) if window.starts else scale.left
    return left, max(scale.at(window.ends), left + 1) if window.ends else scale.right
