"""The held parts: where each lies, until when it is kept, and what to mind when handling it."""

from __future__ import annotations

from typing import Any

from reportlab.platypus import CondPageBreak

from claimpack.core.holding.tags import TagFacts
from claimpack.packet.drawing.draft import Draft, day
from claimpack.printing.drawn import gap, section
from claimpack.printing.lettering import escaped, marked_up, text
from claimpack.printing.palette import QUIET
from claimpack.printing.tables import TableColumn

# The cautions begin where some of their lines find room too, in points.
_SOME_LINES = 36.0


def held_section(draft: Draft) -> list[Any]:
    """Every part the shop keeps; nothing where it keeps none."""
    tags = draft.assessment.tags
    if not tags:
        return []
    words = draft.words
    columns = (
        TableColumn(words.part, 30),
        TableColumn(words.number, 22),
        TableColumn(words.shelf, 10),
        TableColumn(words.boxed, 11),
        TableColumn(words.drained, 12),
        TableColumn(words.held_since, 17),
        TableColumn(words.hold_until, 40),
    )
    rows = [_row(draft, tag) for tag in tags]
    body = [draft.table(columns, rows), gap(6), CondPageBreak(_SOME_LINES), text(words.caution, "cell-strong")]
    body += [text(said, "cell") for said in _cautions(draft)]
    return section("held", words.held, draft.width, body)


def _row(draft: Draft, tag: TagFacts) -> list[Any]:
    numbers = "\n".join(number for number in (tag.part_number, tag.part_serial) if number)
    part = marked_up(f'{escaped(tag.part)}<br/><font size="7.5" color="{QUIET}">{escaped(tag.code)}</font>', "cell")
    # what never held fuel is not asked whether it was drained
    drained = draft.yes_or_no(tag.drained) if tag.hazard == "fuel" or tag.drained else ""
    return [part, numbers, tag.shelf, draft.yes_or_no(tag.boxed), drained, day(tag.held_since), _until(draft, tag)]


def _until(draft: Draft, tag: TagFacts) -> Any:
    terms = hold_terms(draft)
    if tag.hold_until is None:
        return text(terms, "cell")
    said = f'<b>{day(tag.hold_until)}</b><br/><font size="7.5" color="{QUIET}">{escaped(terms)}</font>'
    return marked_up(said, "cell")


def hold_terms(draft: Draft) -> str:
    """How long failed parts are kept, in the layout's words."""
    rule = draft.assessment.hold.rule
    if not rule.of:
        return draft.words.hold_until_released
    return draft.words.hold_terms.format(period=draft.period(rule.period), day=draft.spoken(rule.of))


def _cautions(draft: Draft) -> list[str]:
    words = draft.words
    by_hazard = {
        "fuel": words.hazard_fuel,
        "lithium battery": words.hazard_lithium,
        "wet battery": words.hazard_wet_battery,
    }
    hazards = dict.fromkeys(tag.hazard for tag in draft.assessment.tags)
    said = [by_hazard[hazard] for hazard in hazards if hazard in by_hazard]
    return [*said, words.caution_broken, words.caution_defer]
