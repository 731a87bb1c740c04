"""The reasons: the plan and the days first, then every window with its own, the one cited before the others."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reportlab.platypus import Table, TableStyle

from claimpack.core.money import plain
from claimpack.core.reasons import Outcome, Reason
from claimpack.core.windows import WindowJudgement
from claimpack.packet.draft import Draft, day
from claimpack.packet.drawn import gap, opening, section
from claimpack.packet.lettering import ACCENT, INK, QUIET, RULE, TINT, WHITE, escaped, marked_up, text
from claimpack.packet.signs import sign
from claimpack.packet.timeline import in_order, state_of
from claimpack.packet.timeline_drawing import standing

from reportlab.platypus import CondPageBreak


def reasons_section(draft: Draft) -> list[Any]:
    """Every window with its reasons."""
    general = [reason for reason in draft.assessment.reasons if not reason.window]
    body = _group(draft, _title(draft.words.plan_and_days), general, cited=False)
    for window in in_order(draft.assessment):
        cited = draft.assessment.window is not None and window.id == draft.assessment.window.id
        block = _group(draft, _window_title(draft, window), window.reasons, cited)
        body += [CondPageBreak(opening(block[0], draft.width)), *block]
    return section("reasons", draft.words.reasons, draft.width, body)


def _title(title: str) -> list[Any]:
    return [text(title, "cell-strong")]


def _window_title(draft: Draft, window: WindowJudgement) -> list[Any]:
    words = draft.words
    stands = standing(draft, state_of(window, draft.assessment.window))
    facts = [f"{day(window.starts)} → {day(window.ends)}".replace("→", "–")]
    if window.hours_limit is not None:
        facts.append(words.hour_limit.format(hours=plain(window.hours_limit)))
    lines = [
        marked_up(f"<b>{escaped(window.title)}</b> · {escaped(stands)}", "cell"),
        text(" · ".join(facts), "small"),
    ]
    if window.cites:
        lines.append(text(f"{words.cites}: {window.cites}", "small-italic"))
    return lines


def _group(draft: Draft, title: list[Any], reasons: Sequence[Reason], cited: bool) -> list[Any]:
    rows: list[list[Any]] = [[title, "", ""]]
    for reason in reasons:
        rows.append([sign(reason.outcome, 9), text(_word(draft, reason.outcome), "small"), _said(draft, reason)])
    widths = [16, 62, draft.width - 78]
    table = Table(rows, colWidths=widths, repeatRows=1, splitInRow=1, hAlign="LEFT")
    table.setStyle(TableStyle(_ruling(cited)))
    return [table, gap(8)]


def _word(draft: Draft, outcome: Outcome) -> str:
    words = draft.words
    return {"pass": words.met, "fail": words.not_met, "unknown": words.open_question}[outcome]


def _said(draft: Draft, reason: Reason) -> Any:
    return text(draft.said(reason.says), "cell-strong" if reason.outcome == "fail" else "cell")


def _ruling(cited: bool) -> list[tuple[Any, ...]]:
    return [
        ("SPAN", (0, 0), (-1, 0)),
        ("BACKGROUND", (0, 0), (-1, 0), TINT),
        ("LINEBEFORE", (0, 0), (0, -1), 3 if cited else 1, ACCENT if cited else RULE),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("TOPPADDING", (0, 0), (-1, -1), 2),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2.5),
        ("LEFTPADDING", (0, 0), (-1, -1), 6),
        ("RIGHTPADDING", (0, 0), (-1, -1), 2),
        ("RIGHTPADDING", (0, 1), (0, -1), 0),
        ("LINEBELOW", (0, 1), (-1, -1), 0.25, RULE),
    ]
