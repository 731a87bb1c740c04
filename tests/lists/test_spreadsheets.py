import datetime as dt

import pytest
import xlsxwriter
from openpyxl import Workbook

from claimpack.errors import BadInput, NotFound
from claimpack.lists.spreadsheets import MOST_COLUMNS, MOST_LETTERS, MOST_ROWS, read_cells, read_sheet, workbook_cells


def sheet(path, content):
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return read_sheet(path, path.name)


@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_cells_go_by_the_headings_whatever_parts_them(tmp_path, mark):
    read = sheet(tmp_path / "a.csv", f'\ufeffnumber{mark}name\n70-1{mark}"Coil{mark} new"\n\n70-2\n')
    assert [(row.place, row.cells["name"]) for row in read.rows] == [(2, f"Coil{mark} new"), (4, "")]


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("number,\n70-1,x\n", "row 2"),
        ("a,A\n1,2\n", "two columns are called"),
        (",b\n1,2\n", "column 1 has no heading"),
        ("", "no rows"),
        ('a\n"x', "line 2"),
    ],
)
def test_what_is_no_list_is_refused_by_its_place(tmp_path, text, named):
    with pytest.raises(BadInput, match=named):
        sheet(tmp_path / "a.csv", text)


def test_a_workbook_reads_as_it_was_typed(tmp_path):
    book = Workbook()
    for row in (("number", "filed", "amount", "paid"), ("26-1", dt.date(2026, 2, 5), 147.2, True), (None, None, 7)):
        book.active.append(row)
    book.save(tmp_path / "a.xlsx")
    read = read_sheet(tmp_path / "a.xlsx", "a.xlsx")
    assert [tuple(row.cells.values()) for row in read.rows] == [
        ("26-1", "2026-02-05", "147.2", "yes"),
        ("", "", "7", ""),
    ]


def test_what_is_no_workbook_is_refused(tmp_path):
    with pytest.raises(BadInput, match="as a workbook"):
        sheet(tmp_path / "a.xlsx", b"PK\x03\x04 no workbook")


def test_a_workbook_that_is_not_there_is_told(tmp_path):
    with pytest.raises(NotFound):
        read_sheet(tmp_path / "none.xlsx", "none.xlsx")


def test_every_kind_of_cell_is_the_text_a_person_would_have_typed(tmp_path):
    with xlsxwriter.Workbook(tmp_path / "a.xlsx") as book:
        page, day = book.add_worksheet(), book.add_format({"num_format": "yyyy-mm-dd hh:mm"})
        page.write_row(0, 0, ["text", 147.2, 12.0, True, False, None])
        page.write_datetime(0, 6, dt.date(2026, 2, 5), day)
        page.write_datetime(0, 7, dt.datetime.fromisoformat("2026-02-05 14:30"), day)
        page.write_formula(0, 8, "=1+1", value=2)
    ((place, cells),) = workbook_cells(tmp_path / "a.xlsx", "a.xlsx").rows
    texts = ["text", "147.2", "12", "yes", "no", "", "2026-02-05", "2026-02-05 14:30:00", "2"]
    assert (place, cells) == (1, texts)


ONE_OVER = [["1"] * (MOST_ROWS + 2), ["," * MOST_COLUMNS + "1"], ["1" * (MOST_LETTERS + 1)]]
AT_MOST = [["1"] * (MOST_ROWS + 1), ["," * (MOST_COLUMNS - 1) + "1"], ["1" * MOST_LETTERS]]


@pytest.mark.parametrize(("lines", "much"), [(AT_MOST, False), (ONE_OVER, True)], ids=["at most", "one over"])
def test_a_list_has_at_most_so_many_rows_columns_and_letters(tmp_path, lines, much):
    refused = []
    for nth, each in enumerate(lines):
        (tmp_path / "a.csv").write_text("\n".join(each))
        try:
            read_cells(tmp_path / "a.csv", "a.csv")
        except BadInput:
            refused.append(nth)
    assert refused == ([0, 1, 2] if much else [])


@pytest.mark.parametrize(("broken", "never_closed"), [('"7-100,1.00', True), ('"7-100" x,1.00', False)])
def test_a_broken_quotation_mark_is_told_by_the_line_it_stands_on(tmp_path, broken, never_closed):
    (tmp_path / "list.csv").write_text(f"number,cost\n7-099,1.00\n{broken}\n7-101,2.00\n7-102,3.00\n")
    with pytest.raises(BadInput) as caught:
        read_cells(tmp_path / "list.csv", "list.csv")
    assert (caught.value.what.startswith("list.csv, line 3:"), broken in caught.value.why) == (True, True)
    assert ("never closed" in caught.value.what) == never_closed
