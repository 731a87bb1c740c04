import csv
import datetime as dt
import io
import sys
from decimal import Decimal

import pytest
from builders import a_claim
from openpyxl import load_workbook

from claimpack.core.events.standing import Standing
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.core.payment.ledger import ledger_line
from claimpack.errors import NotInstalled
from claimpack.lists.ledger_sheets import Sheet, as_csv, as_workbook, as_xlsx, ledger_sheet, with_shops

DAY = dt.date(2026, 3, 1)
FORMULAS = ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1"]
LOOK_ALIKES = [
    "\uff1d1",
    "\uff0b1",
    "\uff0d1",
    "\uff20A1",
    "\ufe661",
    "\ufe621",
    "\u22121",
    "\u207c1",
    "\u202e=1",
    "\u3000=1",
]


def a_sheet(*cells):
    return Sheet("Claims", [f"c{index}" for index in range(len(cells))], [cells])


def read_csv(content, encoding="utf-8"):
    return list(csv.reader(io.StringIO(content.decode(encoding), newline="")))


def cells(*given):
    """The row below the headings, as another program reads it."""
    page = load_workbook(io.BytesIO(as_xlsx(a_sheet(*given), DAY)))["Claims"]
    return page[2]


def test_csv_gives_texts_numbers_and_days():
    assert read_csv(as_csv(a_sheet("Zoë", Decimal("-12.50"), DAY, None)))[1] == ["Zoë", "-12.50", "2026-03-01", ""]


def test_a_spreadsheet_has_a_page_a_list():
    sheets = [Sheet("one", ["a"], [["x"]]), Sheet("other", ["b"], [[Decimal(2)]])]
    book = load_workbook(io.BytesIO(as_workbook(sheets, DAY)))
    assert {page.title: page["A2"].value for page in book} == {"one": "x", "other": 2}


def test_csv_without_a_claim_has_its_headings():
    assert as_csv(Sheet("Claims", ["number", "state"], [])) == b"number,state\r\n"


def test_csv_begins_with_a_mark_when_asked():
    assert as_csv(a_sheet("Zoë"), bom=True)[:3] == b"\xef\xbb\xbf"
    assert read_csv(as_csv(a_sheet("Zoë"), bom=True), "utf-8-sig")[1] == ["Zoë"]


@pytest.mark.parametrize("text", [*FORMULAS, *LOOK_ALIKES])
def test_csv_has_no_cell_that_could_be_a_formula(text):
    assert read_csv(as_csv(a_sheet(text)))[1] == [f"'{text}"]


def test_a_spreadsheet_has_real_numbers_and_days():
    number, day = cells(Decimal("159.70"), DAY)
    assert (number.value, number.data_type, number.number_format) == (159.7, "n", "0.00")
    assert (day.value.date(), day.is_date, day.number_format) == (DAY, True, "yyyy-mm-dd")


@pytest.mark.parametrize(("amount", "shown"), [("20925", "0"), ("1.250", "0.000"), ("0.00", "0.00")])
def test_a_spreadsheet_shows_as_many_decimals_as_the_currency_has(amount, shown):
    assert cells(Decimal(amount))[0].number_format == shown


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(A1)", "https://example.com", "0012"])
def test_a_spreadsheets_text_is_text(text):
    (cell,) = cells(text)
    assert (cell.value, cell.data_type, cell.hyperlink) == (text, "s", None)


def test_a_spreadsheet_leaves_empty_what_is_not_known():
    assert cells("a", None, "b")[1].value is None


def test_the_largest_amount_keeps_its_cents():
    assert cells(Decimal("9999999999999.99"))[0].value == 9999999999999.99


def test_the_same_list_of_the_same_day_is_the_same_spreadsheet():
    assert as_xlsx(a_sheet("a", Decimal(1)), DAY) == as_xlsx(a_sheet("a", Decimal(1)), DAY)


def test_a_machine_without_a_writer_of_spreadsheets_says_what_to_install(monkeypatch):
    monkeypatch.setitem(sys.modules, "xlsxwriter", None)
    with pytest.raises(NotInstalled, match="writes spreadsheets"):
        as_xlsx(a_sheet("a"), DAY)


def test_the_ledger_has_a_claim_a_row():
    lines = [ledger_line(a_claim(number=number), Standing(), ClaimSummary()) for number in ("26-0001", "26-0002")]
    rows = read_csv(as_csv(ledger_sheet(lines)))
    assert [row[0] for row in rows] == ["number", "26-0001", "26-0002"]


@pytest.mark.parametrize("text", ["", "Zoë", "\u200f", "26-0001", "(=1)"])
def test_a_text_that_is_no_formula_stays_as_it_is(text):
    assert read_csv(as_csv(a_sheet(text, "x")))[1] == [text, "x"]


@pytest.mark.parametrize("heading", ["number", "claim"])
def test_a_list_of_several_shops_names_the_shop_of_each_row_last(heading):
    sheet = with_shops(Sheet("Claims", ["on", heading], [("1", "26-1"), ("26-1", "26-2")]), {"26-1": "Ashby"})
    assert (sheet.headings[-1], [row[-1] for row in sheet.rows]) == ("shop", ["Ashby", ""])


def test_a_list_of_one_shop_names_none():
    sheet = a_sheet("26-1")
    assert with_shops(sheet, None) is sheet


def test_headings_of_a_spreadsheet_are_bold_stay_in_sight_and_filter_every_row():
    page = load_workbook(io.BytesIO(as_xlsx(a_sheet("a", "b", "c"), DAY)))["Claims"]
    assert (page.freeze_panes, page.auto_filter.ref, page["A1"].font.bold, page["A2"].font.bold) == (
        *("B2", "A1:C2"),
        *(True, False),
    )


@pytest.mark.parametrize(("letters", "end"), [(32_767, "xx"), (32_768, "x…")])
def test_a_text_longer_than_a_cell_holds_ends_in_dots(letters, end):
    (cell,) = cells("x" * letters)
    assert (len(cell.value), cell.value[-2:]) == (32_767, end)


def test_a_column_of_a_spreadsheet_is_wider_than_its_heading():
    heading = "accepted by silence on"
    page = load_workbook(io.BytesIO(as_xlsx(Sheet("Claims", [heading], [["x"]]), DAY)))["Claims"]
    assert page.column_dimensions["A"].width > len(heading)
