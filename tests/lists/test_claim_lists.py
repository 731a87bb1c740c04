import datetime as dt

import pytest
from builders import a_plan

from claimpack.errors import BadInput
from claimpack.lists.claim_lists import ListMapping, ListReading, guessed, in_a_row, mapping_from, mapping_text, rows_of
from claimpack.lists.spreadsheets import SheetRead, SheetRow

READING = ListReading([a_plan()], "USD", "", dt.date(2026, 3, 1))
HEAD = ("Claim no", "Maker", "Model", "Date in", "Status", "Amount", "Currency")
COLUMNS = dict(zip(("number", "maker", "model", "presented", "state", "claimed", "currency"), HEAD, strict=True))
ROW = ("25-1", "Halden", "CS-70", "2025-11-03", "draft", "", "")


def a_list(*rows, headings=HEAD):
    told = [SheetRow(place, dict(zip(headings, cells, strict=True))) for place, cells in enumerate(rows, 2)]
    return SheetRead("claims.csv", headings, tuple(told))


def read(*rows, reading=READING, headings=HEAD, **mapping):
    sheet = a_list(*rows, headings=headings)
    return rows_of(sheet, ListMapping(columns=guessed(sheet).columns, **mapping), reading)


def only(found):
    """The one claim that was read, nothing being wrong."""
    ((_, taken),) = found.rows
    assert not found.problems
    return taken


def test_columns_are_taken_by_their_headings():
    assert guessed(a_list()).columns == COLUMNS


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('[columns]\nnumbre = "Claim no"\n', ("key numbre", "number")),
        ('[values]\nmakr = "halden"\n', ("key makr", "maker")),
        ('[columns]\nnumber = "Claim nr"\n', ("no column 'Claim nr'", "Claim no")),
    ],
)
def test_a_mapping_that_names_what_is_not_there_is_told_the_nearest(tmp_path, text, told):
    (tmp_path / "map.toml").write_text(text)
    with pytest.raises(BadInput) as caught:
        mapping_from(tmp_path / "map.toml", a_list())
    assert [said for said in told if said not in f"{caught.value}{caught.value.why}{caught.value.do}"] == []


def test_a_mapping_written_down_has_every_key_once_the_open_ones_as_comments():
    lines = mapping_text(ListMapping(columns={"number": "Claim no"})).splitlines()
    assert [line for line in lines if "number = " in line] == ['number = "Claim no"']
    assert [line for line in lines if "serial = " in line] == ['# serial = ""', '# engine_serial = ""']


@pytest.mark.parametrize("number", ["", "Total", "Grand total:", "SUM"])
def test_a_row_without_a_claims_number_is_left_out_and_told(number):
    found = read(ROW, (number, *ROW[1:]))
    assert (len(found.rows), len(found.left_out), found.problems) == (1, 1, ())


def test_where_no_column_numbers_the_claims_a_row_lacks_its_number_and_is_not_left_out():
    found = read(ROW[1:], ROW[1:], headings=HEAD[1:], values={"number": ""})
    assert ([place for place, _ in found.problems], found.left_out) == ([2, 3], ())


@pytest.mark.parametrize(
    ("cell", "state"), [("Approved", "accepted"), ("PAID", "paid"), ("denied", "refused"), ("held", "filed")]
)
def test_a_state_is_read_in_the_words_of_lists_and_of_the_shop(cell, state):
    days = {"filed": "2025-11-05", "answered": "2025-11-06", "paid_on": "2025-11-07", "because": "wear"}
    values = {**days, "accepted": "90.00", "paid": "90.00"}
    assert only(read((*ROW[:4], cell, "90.00", ""), values=values, states={"Held": "filed"})).state == state


def test_what_the_mapping_says_of_all_rows_holds_where_a_cell_is_blank():
    blank = (ROW[0], "", *ROW[2:])
    assert only(read(blank, values={"maker": "Halden"})).maker == "halden"


def test_a_cell_wins_over_what_the_mapping_says_of_all_rows():
    assert only(read(ROW, values={"model": "TP-2"})).model == "CS-70"


def test_a_day_may_have_a_midnight_behind_it():
    assert only(read((*ROW[:3], "2025-11-03 00:00:00", *ROW[4:]))).presented == dt.date(2025, 11, 3)


@pytest.mark.parametrize(("shop", "cell", "currency"), [("USD", "", "USD"), ("USD", "JPY", "JPY"), ("", "", None)])
def test_the_currency_is_the_rows_else_the_shops_else_none(shop, cell, currency):
    assert only(read((*ROW[:6], cell), reading=READING._replace(currency=shop))).currency == currency


def test_what_is_wrong_with_what_the_mapping_says_is_told_by_the_mapping():
    ((place, told),) = read((ROW[0], *ROW[2:]), headings=(HEAD[0], *HEAD[2:]), values={"maker": "Quarl"}).problems
    assert (place, told.startswith("row 2, maker of the mapping: ")) == (2, True)


def test_a_cell_that_cannot_be_read_is_told_once_and_not_as_missing_too():
    found = read((*ROW[:3], "2025-02-30", *ROW[4:]))
    assert [told.partition(": ")[0] for _, told in found.problems] == ["row 2, column 'Date in'"]


def test_a_state_that_cannot_be_read_leaves_open_what_else_the_row_has_to_say():
    found = read((*ROW[:4], "open", "", ""))
    assert [told.partition(": ")[0] for _, told in found.problems] == ["row 2, column 'Status'"]


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("serial: it is odd", "row 4: it is odd (no column says serial)"),
        ("model: it is odd", "row 4, column 'Model': it is odd"),
        ("weather: it is odd", "row 4: weather: it is odd"),
        ("model", "row 4: model"),
    ],
)
def test_a_fault_of_a_row_is_told_by_its_column_or_the_lack_of_one(said, told):
    assert in_a_row(4, said, ListMapping(columns=COLUMNS)) == told


def test_an_amount_is_read_in_the_currency_of_its_row():
    # in the countries of the euro a comma may part coins, in those of the dollar it parts thousands alone
    row = (*ROW[:4], "filed", "1,234", "USD")
    found = only(read(row, reading=READING._replace(currency="EUR"), values={"filed": "2025-11-05"}))
    assert (found.claimed, found.currency) == (1234, "USD")


def test_a_state_without_the_day_that_goes_with_it_is_told():
    ((place, told),) = read((*ROW[:4], "filed", "90.00", "")).problems
    assert (place, "filed" in told) == (2, True)


def test_a_day_that_a_state_wants_and_that_cannot_be_read_is_told_once():
    found = read((*ROW[:4], "filed", "90.00", ""), values={"filed": "2025-02-30"})
    assert [told.partition(": ")[0] for _, told in found.problems] == ["row 2, filed of the mapping"]
