"""A report's sections before they are drawn: words, tables and pictures, the same for paper, page and spreadsheet."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable, Iterable, Sequence
from decimal import Decimal
from typing import NamedTuple, Protocol

from claimpack.reports.charts.picture import ChartPicture

EN_DASH = "\N{EN DASH}"
"""From one number to another, as print has it."""

CURRENCY = "Currency"
"""The heading of a column of currencies."""

REST = "The report's spreadsheet (--xlsx) has them all."
"""Where the rest of a long table is, whatever of the report was asked for."""

CODE = re.compile(r"(?<![\w-])(?=[\w-]*\d)\w+(?:-\w+)+(?:/\w+)?", re.ASCII)
"""Letters and figures with hyphens between them, a figure among them: a claim's number, a day."""

Cell = str | int | Decimal | dt.date | None
"""A text, a count, an amount, a day, or nothing."""


class ReportColumn(NamedTuple):
    """A column: its heading, its share of the width; shown is false where only a spreadsheet needs it.

    Narrow is false where a screen as narrow as a phone's has no room for it.
    """

    heading: str
    share: float = 1.0
    right: bool = False
    shown: bool = True
    narrow: bool = True


class InACurrency(Protocol):
    """Whatever is told in a currency."""

    @property
    def currency(self) -> str:
        """The currency; empty where none is known."""


def in_currency(some: Iterable[InACurrency]) -> tuple[ReportColumn, str]:
    """The column of currencies, which people are shown where there are several, and the end of a caption for one."""
    found = {one.currency for one in some}
    alone = "".join(found) if len(found) == 1 else ""
    return ReportColumn(CURRENCY, 0.9, shown=len(found) > 1), f", {alone}" if alone else ""


class ReportTable(NamedTuple):
    """A table: every row for a spreadsheet, of which the first `most` are shown; totals stand below.

    Args:
        name: the name of the file or the spreadsheet's page it goes into; small letters and hyphens.
        caption: what it lists.
        columns: the columns.
        rows: a cell a column.
        totals: rows that add up the others.
        most: how many rows a person is shown.
        more: what to do to see the rest.
    """

    name: str
    caption: str
    columns: tuple[ReportColumn, ...]
    rows: Sequence[Sequence[Cell]]
    totals: Sequence[Sequence[Cell]] = ()
    most: int = 12
    more: str = ""

    def visible(self) -> list[tuple[int, ReportColumn]]:
        """The columns a person is shown, with their places."""
        return [(place, column) for place, column in enumerate(self.columns) if column.shown]

    def evened(self) -> ReportTable:
        """The table with as many decimals all down a column as its finest number has, so that points stand in line.

        Where several currencies share a column each keeps its own coins.
        """
        if any(column.heading == CURRENCY and column.shown for column in self.columns):
            return self
        finest = [_finest(column) for column in zip(*self.rows, *self.totals, strict=True)]
        rows, totals = ([_with_decimals(row, finest) for row in some] for some in (self.rows, self.totals))
        return self._replace(rows=rows, totals=totals)

    def rest(self) -> str:
        """What is said where rows are left out; empty where none is."""
        if len(self.rows) <= self.most:
            return ""
        return f"The first {self.most:,} of {len(self.rows):,} are shown. {self.more}".strip()


class Chart(NamedTuple):
    """A picture that can be drawn at any width; the title is its finding, the description says what it shows."""

    key: str
    title: str
    description: str
    draw: Callable[[float], ChartPicture]


class Figure(NamedTuple):
    """A number that stands large: what it is, the number, and what it is about in a few words."""

    label: str
    amount: str
    about: str


class Section(NamedTuple):
    """A section: its heading, its finding in a sentence, pictures, tables, and what must be known to read them.

    Figures stand before all of these; a section that has some stands before everything else in the report.
    """

    key: str
    heading: str
    finding: str
    charts: tuple[Chart, ...] = ()
    tables: tuple[ReportTable, ...] = ()
    notes: tuple[str, ...] = ()
    figures: tuple[Figure, ...] = ()


class Report(NamedTuple):
    """A whole report: title, whose, the day, what it is about in words, its sections."""

    title: str
    shop: str
    today: dt.date
    about: tuple[str, ...]
    sections: tuple[Section, ...]

    @property
    def opening(self) -> tuple[Section, ...]:
        """The sections that stand before what is said in short."""
        return tuple(section for section in self.sections if section.figures)

    @property
    def others(self) -> tuple[Section, ...]:
        """The sections behind it."""
        return tuple(section for section in self.sections if not section.figures)


def cell_text(cell: Cell) -> str:
    """A cell as a person reads it: numbers with commas, days as 2026-03-01."""
    if cell is None:
        return ""
    if isinstance(cell, (int, Decimal)):
        return f"{cell:,f}" if isinstance(cell, Decimal) else f"{cell:,}"
    return cell.isoformat() if isinstance(cell, dt.date) else cell


def _finest(column: Sequence[Cell]) -> Decimal:
    """The unit of the finest number of a column."""
    units = (Decimal(1).scaleb(int(cell.as_tuple().exponent)) for cell in column if isinstance(cell, Decimal))
    return min(units, default=Decimal(1))


def _with_decimals(row: Sequence[Cell], finest: Sequence[Decimal]) -> list[Cell]:
    return [cell.quantize(unit) if isinstance(cell, Decimal) else cell for cell, unit in zip(row, finest, strict=True)]
