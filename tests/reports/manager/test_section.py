from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from claimpack.reports.manager.section import ReportColumn, ReportTable, cell_text

HIDDEN = ReportColumn("Currency", shown=False)


def a_table(rows, most=2, more="All: claimpack pending."):
    return ReportTable(
        "t", "", (ReportColumn("A"), HIDDEN, ReportColumn("B")), [(row, "", row) for row in range(rows)], (), most, more
    )


@pytest.mark.parametrize(
    ("cell", "said"),
    [
        (None, ""),
        ("", ""),
        (0, "0"),
        (-1204, "-1,204"),
        (Decimal("1234567.50"), "1,234,567.50"),
        (Decimal("1E+3"), "1,000"),
        (Decimal("-0.5"), "-0.5"),
        (date(2026, 3, 31), "2026-03-31"),
        ("<b>1000</b>", "<b>1000</b>"),
    ],
)
def test_a_cell_is_said_as_a_person_reads_it(cell, said):
    assert cell_text(cell) == said


@pytest.mark.parametrize(("rows", "said"), [(1, ""), (2, ""), (3, "The first 2 of 3 are shown. ")])
def test_rows_left_out_are_told_where_there_are_any(rows, said):
    assert a_table(rows).rest() == (said and f"{said}All: claimpack pending.")


def test_many_rows_are_counted_with_commas():
    assert a_table(1204, more="").rest() == "The first 2 of 1,204 are shown."


def test_a_column_for_spreadsheets_alone_leaves_the_others_their_places():
    assert [(place, column.heading) for place, column in a_table(0).visible()] == [(0, "A"), (2, "B")]


def test_numbers_of_a_column_have_the_decimals_of_the_finest():
    columns = (ReportColumn("Maker"), ReportColumn("Hours", right=True))
    rows = [("Halden", Decimal("40.8")), ("Tessaly", Decimal("31.25")), ("Orrin", None)]
    shown = ReportTable("t", "", columns, rows, totals=[("All", Decimal("72.05"))]).evened()
    assert [cell_text(hours) for _, hours in (*shown.rows, *shown.totals)] == ["40.80", "31.25", "", "72.05"]


def test_amounts_of_several_currencies_keep_their_own_coins():
    columns = (ReportColumn("Currency"), ReportColumn("Amount", right=True))
    rows = [("JPY", Decimal(20925)), ("USD", Decimal("147.20"))]
    assert ReportTable("t", "", columns, rows).evened().rows == rows
