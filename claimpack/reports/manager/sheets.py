"""The manager report as lists: every table whole, for a spreadsheet or another program."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from claimpack.core.values.money import plain
from claimpack.lists.ledger_sheets import Cell, Sheet
from claimpack.reports.manager import section
from claimpack.reports.manager.section import Report, ReportTable


def report_sheets(report: Report) -> dict[str, Sheet]:
    """A sheet a table, by the table's name, in the order of the report; totals are left to the spreadsheet."""
    return {table.name: _sheet(table) for part in report.sections for table in part.tables}


def _sheet(table: ReportTable) -> Sheet:
    headings = [column.heading for column in table.columns]
    return Sheet(table.name, headings, [[_cell(cell) for cell in row] for row in table.rows])


def _cell(cell: section.Cell) -> Cell:
    return Decimal(cell) if isinstance(cell, int) else cell


def report_as_json(report: Report) -> list[dict[str, Any]]:
    """The sections as scripts read them: findings, and every table with its rows; amounts are decimal text."""
    return [
        {
            "section": part.key,
            "heading": part.heading,
            "finding": part.finding,
            "tables": [_table_as_json(table) for table in part.tables],
        }
        for part in report.sections
    ]


def _table_as_json(table: ReportTable) -> dict[str, Any]:
    headings = [column.heading for column in table.columns]
    return {"name": table.name, "caption": table.caption, "rows": list(_rows(table, headings))}


def _rows(table: ReportTable, headings: list[str]) -> Iterator[dict[str, Any]]:
    for row in table.rows:
        yield {heading: _plain(cell) for heading, cell in zip(headings, row, strict=True)}


def _plain(cell: section.Cell) -> Any:
    if isinstance(cell, Decimal):
        return plain(cell)
    return cell.isoformat() if isinstance(cell, dt.date) else cell
