"""What is written where: a mapping and the facts of a claim turned into the writings of each sheet."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from claimpack.core.judging.assessment import Assessment
from claimpack.core.pricing.lines import PricedLine
from claimpack.core.values.words import folded
from claimpack.errors import BadInput
from claimpack.forms.facts import Facts, in_words, is_said
from claimpack.forms.mapping import ROW, Form, FormEntry, FormRows, pieces_of

_KINDS = {"parts": "part", "labour": "labour", "extras": "extra"}
_PARTING = ",;/·"
_PARTED_TWICE = re.compile(rf"(?:[{_PARTING}]\s*)+(?=[{_PARTING}])")


@dataclass(frozen=True, slots=True)
class PageArea:
    """A rectangle on a page, in points from its upper left corner as it is read; the first page is 1.

    Comb is the number of boxes it is divided into, 0 for none; lines says whether text may take several.
    """

    page: int
    x: float
    y: float
    width: float
    height: float
    comb: int = 0
    lines: bool = False


@dataclass(frozen=True, slots=True)
class Writing:
    """What goes into one field, or into a place of that name: a text, or whether a box is ticked.

    Align is left, centre, right, or empty as the field says; size is that of type, 0 as the field says. Texts of one
    column are set in one size.
    """

    field: str
    text: str = ""
    tick: bool | None = None
    align: str = ""
    size: float = 0.0
    column: str = ""
    place: PageArea | None = None


Sheets = tuple[tuple[Writing, ...], ...]
"""The writings of each sheet, in their order."""


def claims_nothing(assessment: Assessment) -> bool:
    """Whether nothing is asked of the maker: no plan says what is claimed, or it is not covered."""
    return assessment.amounts is None or assessment.amounts.would_be is not None


def refuse_unpriced(assessment: Assessment) -> None:
    """Refuse a claim from which nothing is asked: a form would ask for it all the same.

    Raises:
        BadInput: nothing is asked.
    """
    number = assessment.claim.number
    if claims_nothing(assessment):
        raise BadInput(
            f"claim {number}: the maker's form is not filled, for nothing is claimed",
            str(assessment.headline),
            f"See why: claimpack check {number}",
        )


def writings(form: Form, facts: Facts) -> Sheets:
    """What each sheet says; a further sheet where the lines of the claim are more than the rows of one.

    Raises:
        BadInput: a text asks for a key that is not there.
    """
    lines = facts.assessment.price.lines if facts.assessment.price else ()
    tables = [(table, _lines_of(table, lines)) for table in form.rows]
    # rounded up: one line more than the rows of a sheet begins another
    sheets = max([1, *(-(-len(found) // table.rows) for table, found in tables)])
    return tuple(
        tuple(_sheet(form, tables, facts._replace(sheet=sheet, sheets=sheets))) for sheet in range(1, sheets + 1)
    )


def left_empty(sheets: Sheets) -> tuple[str, ...]:
    """The fields outside of rows that nothing is said for, in the order of the mapping."""
    return tuple(each.field for each in sheets[0] if not each.column and each.tick is None and not each.text)


def _lines_of(table: FormRows, lines: tuple[PricedLine, ...]) -> list[PricedLine]:
    kinds = {_KINDS[of] for of in table.of}
    shown = [line for line in lines if line.kind in kinds and line.payer in table.payers]
    # 1.5 above 1.25 would not stand with its point under the other
    hours = max((_decimals(line.quantity) for line in shown if line.kind == "labour"), default=0)
    return [_as_written(line, hours) for line in shown]


def _as_written(line: PricedLine, decimals: int) -> PricedLine:
    """A line as a person writes it: hours under each other with as many decimals, and a price of nothing in coins."""
    if line.kind == "labour":
        line = line._replace(quantity=line.quantity.quantize(Decimal(1).scaleb(-decimals)))
    # a part sent at no charge has a price of 0.00 rather than a blank
    return line if line.unit_price else line._replace(unit_price=line.amount)


def _decimals(number: Decimal) -> int:
    return max(-int(number.as_tuple().exponent), 0)


def _sheet(form: Form, tables: list[tuple[FormRows, list[PricedLine]]], facts: Facts) -> Iterator[Writing]:
    which = {"first": facts.sheet == 1, "last": facts.sheet == facts.sheets, "every": True}
    for name, entry in form.fields.items():
        if which[entry.on]:
            yield _writing(name, entry, form, facts)
    for place, (table, lines) in enumerate(tables):
        shown = lines[(facts.sheet - 1) * table.rows : facts.sheet * table.rows]
        for row, line in enumerate(shown, 1):
            for name, entry in table.fields.items():
                down = (table.step or 0.0) * (row - 1)
                written = _writing(name.replace(ROW, str(row)), entry, form, facts._replace(line=line), down)
                yield _in_column(written, f"{place} {name}")


def _in_column(written: Writing, column: str) -> Writing:
    return Writing(written.field, written.text, written.tick, written.align, written.size, column, written.place)


def _writing(name: str, entry: FormEntry, form: Form, facts: Facts, down: float = 0.0) -> Writing:
    tick = is_said(in_words(facts.value(entry.check), form.dates), entry.is_) if entry.check else None
    text = "" if entry.check else _text(entry, form, facts)
    return Writing(name, text, tick, entry.align or "", entry.size or 0.0, place=place_of(entry, down))


def place_of(entry: FormEntry, down: float = 0.0) -> PageArea | None:
    """The place of an entry, so many points further down; None where it goes into a field."""
    if entry.page is None:
        return None
    x, y, width, height = entry.x or 0.0, entry.y or 0.0, entry.width or 0.0, entry.height or 0.0
    return PageArea(entry.page, x, y + down, width, height, entry.comb, entry.lines)


def text_of(template: str, facts: Facts, day_form: str = "YYYY-MM-DD") -> str:
    """What a text with keys in braces comes to; what nobody said is left out, with the marks around it.

    Raises:
        BadInput: it asks for a key that is not there.
        ValueError: a brace stands alone.
    """
    return "\n".join(_lines(template, day_form, facts))


def _text(entry: FormEntry, form: Form, facts: Facts) -> str:
    text = text_of(entry.text, facts, form.dates)
    text = {folded(said): word for said, word in entry.words.items()}.get(folded(text), text)
    return "".join(mark for mark in text if mark not in entry.without)


def _lines(template: str, day_form: str, facts: Facts) -> Iterator[str]:
    """The lines of a text: one that asks for facts alone that nobody gave is left out, with the marks between them."""
    for line in template.split("\n"):
        pieces = pieces_of(line)
        said = [facts.said(piece.key, piece.form or day_form) if piece.key else "" for piece in pieces]
        asked = [fact for piece, fact in zip(pieces, said, strict=True) if piece.key]
        whole = "".join(piece.before + fact for piece, fact in zip(pieces, said, strict=True))
        if all(asked):
            yield whole
        # what nobody said leaves two commas in a row, or one at an end
        elif any(asked):
            yield _PARTED_TWICE.sub("", whole).strip(f" {_PARTING}")
