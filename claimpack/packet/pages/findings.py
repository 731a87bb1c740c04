"""Findings against their limits, with a small gauge where all of it is numbers."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from claimpack.core.claims.measurements import Measurement, against_limits, measurement, value_said
from claimpack.core.clauses.requires import RequiredFinding
from claimpack.core.facts.failure import Finding
from claimpack.core.values.wording.sentence import say
from claimpack.core.windows.findings import counts_as_failed, decided_by, limit_said
from claimpack.packet.drawing.draft import Draft, day
from claimpack.printing.drawn import DrawnPiece, drawn, gap, section, subsection
from claimpack.printing.lettering import text, under_points
from claimpack.printing.palette import ACCENT, INK, QUIET, TINT
from claimpack.printing.tables import TableColumn

_GAUGE = 104.0


def findings_section(draft: Draft) -> list[Any]:
    """What was measured; nothing where nothing was."""
    if not draft.claim.findings:
        return []
    words = draft.words
    columns = (
        TableColumn(words.finding, 28),
        TableColumn(words.value, 15, right=True),
        TableColumn("", 7, close=True),
        TableColumn(words.limits, 21),
        TableColumn("", 26),
        TableColumn("", 18),
    )
    values = under_points([value_said(each, draft.layout.language) for each in draft.claim.findings], "cell-strong")
    rows = [_row(draft, finding, value) for finding, value in zip(draft.claim.findings, values, strict=True)]
    return section("findings", words.findings, draft.width, [draft.table(columns, rows)])


def _row(draft: Draft, finding: Finding, value: Any) -> list[Any]:
    asked = decided_by(draft.claim, draft.assessment.plan, finding) if draft.assessment.plan else None
    found = measurement(finding) if asked is None else _by_the_plan(finding, asked)
    # "over range mm" would be nonsense
    unit = "" if finding.value[:1].isalpha() else text(finding.unit, "cell-strong")
    has_limits = found.low is not None or found.high is not None
    gauge = "" if found.value is None or not has_limits else _gauge(found, found.value)
    return [finding.what, value, unit, _limits(draft, finding, asked), gauge, _standing(draft, finding, asked)]


def _by_the_plan(finding: Finding, asked: RequiredFinding) -> Measurement:
    """What is drawn of a finding that the plan goes by: what counts as sound; nothing in another unit."""
    value = measurement(finding).value if counts_as_failed(finding, asked) is not None else None
    return Measurement(value, asked.at_most, asked.at_least)


def _limits(draft: Draft, finding: Finding, asked: RequiredFinding | None) -> str:
    if asked:
        return draft.said(say("failure.limit", **limit_said(asked)))
    if finding.low and finding.high:
        return draft.figures(f"{finding.low} \u2013 {finding.high} {finding.unit}".strip())
    if finding.low:
        return draft.words.at_least.format(limit=draft.figures(f"{finding.low} {finding.unit}".strip()))
    if finding.high:
        return draft.words.at_most.format(limit=draft.figures(f"{finding.high} {finding.unit}".strip()))
    return draft.words.no_limits


def _standing(draft: Draft, finding: Finding, asked: RequiredFinding | None) -> Any:
    if asked:
        has_failed = counts_as_failed(finding, asked)
        key = "failure.counts" if has_failed else "failure.none"
        return "" if has_failed is None else text(draft.said(say(key)), "cell-strong")
    words, stands = draft.words, against_limits(finding)
    if stands == "below":
        return text(words.below, "cell-strong")
    if stands == "above":
        return text(words.above, "cell-strong")
    return words.within if stands else ""


def gauge_span(found: Measurement) -> tuple[Decimal, Decimal]:
    """The lowest and highest number on a gauge, with room beside the limits and the value."""
    shown = [number for number in found if number is not None]
    low, high = min(shown), max(shown)
    # from nought on, or a value far above its limit would look near it
    if found.low is None:
        low = min(low, Decimal(0))
    # where all numbers are one, there is still a gauge to draw
    room = (high - low) / 5 or Decimal(1)
    return low - room, high + room


def _gauge(found: Measurement, value: Decimal) -> DrawnPiece:
    first, last = gauge_span(found)

    def at(number: Decimal, width: float) -> float:
        return float((number - first) / (last - first)) * width

    def pen(canvas: Any, width: float, _height: float) -> None:
        left = at(found.low, width) if found.low is not None else 0.0
        right = at(found.high, width) if found.high is not None else width
        canvas.setStrokeColor(QUIET)
        canvas.setLineWidth(0.6)
        canvas.line(0, 5, width, 5)
        canvas.setFillColor(TINT)
        canvas.setStrokeColor(ACCENT)
        canvas.rect(left, 2, right - left, 6, stroke=0, fill=1)
        canvas.setLineWidth(1)
        canvas.line(left, 2, right, 2)
        canvas.line(left, 8, right, 8)
        for limit, x in ((found.low, left), (found.high, right)):
            if limit is not None:
                canvas.line(x, 0.5, x, 9.5)
        _needle(canvas, at(value, width))

    return drawn(_GAUGE, 12, pen)


def _needle(canvas: Any, x: float) -> None:
    canvas.setFillColor(INK)
    path = canvas.beginPath()
    path.moveTo(x, 4)
    path.lineTo(x - 3.4, 11.5)
    path.lineTo(x + 3.4, 11.5)
    path.close()
    canvas.drawPath(path, stroke=0, fill=1)
    canvas.setStrokeColor(INK)
    canvas.setLineWidth(1)
    canvas.line(x, 1, x, 6)


def story_section(draft: Draft) -> list[Any]:
    """The three texts every maker asks for, as long as they are; then why a favour is asked, or why it was filed."""
    words, failures = draft.words, draft.claim.failures
    body: list[Any] = []
    for number, failure in enumerate(failures, start=1):
        about = ""
        if len(failures) > 1:
            about = draft.said(say("failure.title", failure=number, component=failure.word or number)) + " \u2013 "
        told = [(words.cause, failure.cause), (words.correction, failure.correction)]
        # one complaint may be about all that failed
        told = [(words.complaint, failure.complaint), *told] if number == 1 or failure.complaint else told
        if draft.claim.case == "campaign":
            told = [one for one in told if one[1]]
        for title, said in told:
            pieces = [text(part) for part in _paragraphs(said)] or [text(words.not_told, "small-italic")]
            body += subsection(f"{about}{title}", draft.width, pieces)
    asked = draft.assessment.goodwill
    anyway = draft.assessment.anyway if draft.layout.reader != "owner" else ""
    for title, said in ((words.goodwill, asked.because if asked else ""), (words.filed_anyway, anyway)):
        if said and not (asked and title == words.filed_anyway and said == asked.because):
            body += subsection(title, draft.width, [text(part) for part in _paragraphs(said)])
    asked_by_the_maker = _questions(draft) if draft.layout.reader != "owner" else []
    return section("story", words.story, draft.width, [*body, *asked_by_the_maker])


def _questions(draft: Draft) -> list[Any]:
    """What the maker asked and what the shop answered, in the order they came; nothing where nothing was asked."""
    words = draft.words
    body: list[Any] = []
    for one in draft.claim.questions:
        asked = [text(words.asked_on.format(day=day(one.asked)), "label"), *map(text, _paragraphs(one.text))]
        answered = [text(words.no_answer_yet, "small-italic")]
        if one.answer:
            on = text(words.answered_on.format(day=day(one.answered)), "label")
            answered = [on, *map(text, _paragraphs(one.answer))]
        body += subsection(words.question, draft.width, [*asked, gap(3), *answered])
    return body


def _paragraphs(said: str) -> list[str]:
    return [part.strip("\n") for part in said.split("\n\n") if part.strip()]
