"""The reasons: the plan and the days first, then every window with its own, the one cited before the others."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reportlab.platypus import CondPageBreak

from claimpack.core.windows.judged import WindowJudgement
from claimpack.core.windows.reasons import Outcome, Reason
from claimpack.packet.drawing.draft import Draft, day
from claimpack.packet.drawing.timeline import WindowState, in_order, state_of
from claimpack.packet.drawing.timeline_drawing import standing
from claimpack.printing.drawn import gap, section
from claimpack.printing.lettering import escaped, marked_up, text
from claimpack.printing.palette import ACCENT, RULE, TINT
from claimpack.printing.signs import sign
from claimpack.printing.tables import Command, grid, padded

# A window's reasons go on overleaf only where they are taller than this, in points.
_KEPT_WHOLE = 170.0


def reasons_section(draft: Draft) -> list[Any]:
    """Every window with its reasons."""
    general = [reason for reason in draft.assessment.reasons if not reason.window]
    body = [_group(draft, [text(draft.words.plan_and_days, "cell-strong")], general, cited=False), gap(7)]
    if not draft.assessment.failures:
        body += _windows(draft, draft.assessment.windows, draft.assessment.window)
    for one in draft.assessment.failures:
        share = [text(draft.said(one.share), "cell")] if one.share else []
        title = [text(draft.said(one.title), "strong"), text(draft.said(one.headline), "cell"), *share, gap(4)]
        body += [CondPageBreak(_KEPT_WHOLE), *title]
        body += _windows(draft, one.judgement.windows, one.judgement.window)
    return section("reasons", draft.words.reasons, draft.width, body)


def _windows(draft: Draft, judged: tuple[WindowJudgement, ...], cited: WindowJudgement | None) -> list[Any]:
    """The windows judged for one failure, each with its reasons; those that do not apply last and small."""
    body: list[Any] = []
    windows = in_order(draft.assessment._replace(windows=judged, window=cited))
    for window in windows:
        if window.applies is not False:
            state = state_of(window, cited)
            body += _kept(draft, _group(draft, _title(draft, window, state), window.reasons, state == "cited"))
    others = [window for window in windows if window.applies is False]
    return body + (_kept(draft, _others(draft, others)) if others else [])


def _kept(draft: Draft, group: Any) -> list[Any]:
    _, height = group.wrap(draft.width, 10_000)
    return [CondPageBreak(min(height, _KEPT_WHOLE)), group, gap(7)]


def _others(draft: Draft, windows: Sequence[WindowJudgement]) -> Any:
    """The windows that do not apply, small and without a sign, each with why it does not."""
    rows: list[list[Any]] = [[[text(draft.words.not_applying, "small")], "", ""]]
    for window in windows:
        title = [text(window.title, "small"), *_cites(draft, window)]
        against = [reason for reason in window.reasons if reason.outcome == "fail" and reason.rule != "age"]
        rows.append(["", title, [text(draft.said(reason.says), "small") for reason in against]])
    return _grid(draft, rows, [17, 190, draft.width - 207], cited=False)


def _title(draft: Draft, window: WindowJudgement, state: WindowState) -> list[Any]:
    words = draft.words
    facts = [standing(draft, state)]
    if window.starts or window.ends:
        facts.append(f"{day(window.starts, '?')} / {day(window.ends, '?')}")
    if window.hours_limit is not None:
        facts.append(words.hour_limit.format(hours=draft.number(window.hours_limit)))
    told = "".join(f" · {escaped(fact)}" for fact in facts)
    return [marked_up(f"<b>{escaped(window.title)}</b>{told}", "cell"), *_cites(draft, window)]


def _cites(draft: Draft, window: WindowJudgement) -> list[Any]:
    return [text(f"{draft.words.cites}: {window.cites}", "small-italic")] if window.cites else []


def _group(draft: Draft, title: list[Any], reasons: Sequence[Reason], cited: bool) -> Any:
    rows: list[list[Any]] = [[title, "", ""]]
    rows += [
        [sign(reason.outcome, 8.5), text(_word(draft, reason.outcome), "small"), _said(draft, reason)]
        for reason in reasons
    ]
    return _grid(draft, rows, [17, 62, draft.width - 79], cited)


def _grid(draft: Draft, rows: list[list[Any]], widths: Sequence[float], cited: bool) -> Any:
    """Reasons under their title, which says on every page they go on to that they do."""
    table = grid(rows, widths, _ruling(cited), titles=1)
    table.continued = draft.words.continued
    return table


def _word(draft: Draft, outcome: Outcome) -> str:
    words = draft.words
    return {"pass": words.met, "fail": words.not_met, "unknown": words.open_question}[outcome]


def _said(draft: Draft, reason: Reason) -> Any:
    return text(draft.said(reason.says), "cell-strong" if reason.outcome == "fail" else "cell")


def _ruling(cited: bool) -> list[Command]:
    return [
        *padded(6, 2, 1.2, 1.8),
        ("SPAN", (0, 0), (-1, 0)),
        ("BACKGROUND", (0, 0), (-1, 0), TINT),
        ("LINEBEFORE", (0, 0), (0, -1), 3 if cited else 1, ACCENT if cited else RULE, 0),
        ("TOPPADDING", (0, 1), (0, -1), 2.6),
        ("RIGHTPADDING", (0, 1), (0, -1), 0),
        ("LINEBELOW", (0, 1), (-1, -1), 0.25, RULE),
    ]
