"""The dates to keep, and what the claim still lacks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from claimpack.core.judging.conditions.missing_items import MissingItem, absent_and_wrong
from claimpack.core.judging.deadlines import Deadline
from claimpack.packet.drawing.draft import Draft
from claimpack.printing.drawn import gap, section, subsection
from claimpack.printing.lettering import text
from claimpack.printing.tables import TableColumn


def dates_section(draft: Draft) -> list[Any]:
    """The dates to keep, the nearest first; nothing where there are none."""
    deadlines = draft.assessment.deadlines
    if not deadlines:
        return []
    words = draft.words
    columns = (
        TableColumn(words.on, 15),
        TableColumn(words.what, 30),
        TableColumn(words.time_title, 24),
        TableColumn(words.why, 54),
    )
    rows = [
        [
            text(deadline.on.isoformat(), "cell-strong"),
            draft.said(deadline.what),
            _left(draft, deadline),
            draft.said(deadline.because),
        ]
        for deadline in deadlines
    ]
    return section("dates", words.dates, draft.width, [draft.table(columns, rows)])


def _left(draft: Draft, deadline: Deadline) -> str:
    if deadline.days_left == 0:
        return draft.words.last_day_today
    period = draft.period(f"P{abs(deadline.days_left)}D")
    return (draft.words.time_left if deadline.days_left > 0 else draft.words.time_past).format(period=period)


def missing_section(draft: Draft) -> list[Any]:
    """What blocks filing, then what is worth a look."""
    body = _lacking(draft) or [text(draft.words.nothing_missing)]
    return section("missing", draft.title_of("missing"), draft.width, body)


def tells_something_missing(draft: Draft) -> bool:
    """Whether the section about what is missing names anything."""
    return bool(_lacking(draft))


def _lacking(draft: Draft) -> list[Any]:
    words, lacking = draft.words, draft.assessment.missing
    absent, wrong = absent_and_wrong(lacking)
    blocking = [*absent, *wrong]
    others = [item for item in lacking if not item.blocks_filing]
    body: list[Any] = []
    asked = [draft.spoken(fact) for fact in draft.assessment.asks]
    if asked:
        body += subsection(words.to_decide, draft.width, [text(fact) for fact in asked])
    if absent and wrong and draft.assessment.anyway:
        body += [_table(draft, absent), *subsection(words.not_as_asked, draft.width, [_table(draft, wrong)]), gap(8)]
    elif blocking and (draft.assessment.anyway or draft.assessment.need_not_be_filed):
        # What is filed all the same, or need not be filed, needs nothing before filing.
        body += [_table(draft, blocking), gap(8)]
    elif blocking:
        body += subsection(words.before_filing, draft.width, [_table(draft, blocking)])
    # the shop's own doubts would be read as admissions by a maker
    if others and draft.layout.tells_doubts:
        body += subsection(words.worth_a_look, draft.width, [_table(draft, others)])
    return body


def _table(draft: Draft, lacking: Sequence[MissingItem]) -> Any:
    columns = (TableColumn(draft.words.what, 40), TableColumn(draft.words.why, 60))
    rows = [[draft.said(item.what), draft.said(item.why)] for item in lacking]
    return draft.table(columns, rows)
