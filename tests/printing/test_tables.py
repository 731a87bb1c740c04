from __future__ import annotations

import io

import pypdf
import pytest
from printed import page_texts
from reportlab.platypus import SimpleDocTemplate

from claimpack.printing.lettering import text
from claimpack.printing.tables import TableColumn, facts_table, framed, grid, padded, ruled, ruled_table, side_by_side

MANY = 1500
"""More words than a page takes."""

TALL = " ".join(f"word{n}." for n in range(MANY))
COLUMNS = (TableColumn("What", 60), TableColumn("Amount", 20, right=True))


def printed(*pieces) -> list[str]:
    stream = io.BytesIO()
    SimpleDocTemplate(stream).build(list(pieces))
    return page_texts(stream.getvalue())


def test_titles_rows_and_total_follow_each_other():
    table = ruled_table(COLUMNS, [["Block", "10.00"], ["Gasket", "2.00"]], 300, ["Total", "12.00"])
    assert printed(table) == ["What Amount Block 10.00 Gasket 2.00 Total 12.00"]


def test_columns_take_their_share_of_the_width():
    table = ruled_table(COLUMNS, [["Block", "10.00"]], 400)
    assert table.wrap(400, 1000)[0] == 400


def test_a_table_that_breaks_repeats_its_titles():
    pages = printed(ruled_table(COLUMNS, [[f"Part {n}", "1.00"] for n in range(100)], 300))
    assert ["What Amount" in said for said in pages] == [True] * len(pages)


def test_a_table_that_goes_on_overleaf_says_so_there():
    pages = printed(ruled_table(COLUMNS, [[f"Part {n}", "1.00"] for n in range(100)], 300, continued="sigue"))
    assert [said.startswith("sigue What Amount") for said in pages] == [False] + [True] * (len(pages) - 1)


def test_the_total_never_stands_alone_overleaf():
    pages = [printed(ruled_table(COLUMNS, [["Block", "1.00"]] * n, 300, ["Total", "9.00"])) for n in range(25, 45)]
    assert all("Block" in found[-1] for found in pages)


def test_rows_taller_than_a_page_are_torn():
    rows = [["word " * MANY, "1.00"] for _ in range(4)]
    assert len(printed(ruled_table(COLUMNS, rows, 400, ["Total", "4.00"]))) > 4


def test_words_stand_clear_of_the_figures_before_them():
    table = ruled_table((TableColumn("Amount", 20, right=True), TableColumn("Paid by", 20)), [["10.00", "owner"]], 200)
    stream = io.BytesIO()
    SimpleDocTemplate(stream).build([table])
    places = {}
    page = pypdf.PdfReader(stream).pages[0]
    page.extract_text(visitor_text=lambda said, cm, tm, *_: places.update({said.strip(): cm[4] + tm[4]}))
    assert places["owner"] - places["10.00"] > 32


def test_facts_are_a_line_each():
    assert printed(facts_table([("Model", "CS-70"), ("Use", "rental")], 200)) == ["Model CS-70 Use rental"]


@pytest.mark.parametrize(
    "piece",
    [
        lambda: grid([[text(TALL), ""]], [200, 100], padded(1, 1, 1, 1)),
        lambda: framed([text("one"), text(TALL)], 300),
        lambda: side_by_side([[text("left")], [text(TALL)]], [100, 200]),
        lambda: side_by_side([grid([[text(TALL)]], [200], []), ""], [220, 100]),
    ],
    ids=["a cell", "a frame", "a column", "a grid in a grid"],
)
def test_a_cell_taller_than_a_page_goes_on_overleaf_whole(piece):
    said = " ".join(printed(piece()))
    assert all(f"word{n}." in said for n in range(MANY))


def test_titles_are_repeated_on_every_page():
    rows = [[text("Title")], *([text(f"row {n}")] for n in range(120))]
    pages = printed(grid(rows, [200], [], titles=1))
    assert len(pages) > 1
    assert all(said.startswith("Title") for said in pages)


def test_a_row_that_fits_on_a_page_is_not_torn():
    rows = [[text("Title")], *([text(f"row {n} " + "and so on " * 30)] for n in range(40))]
    pages = printed(grid(rows, [200], [], titles=1))
    assert [said.count("Title") for said in pages] == [1] * len(pages)


def test_a_ruled_row_taller_than_a_page_goes_on_overleaf():
    assert len(printed(ruled([[text(TALL)]], [200]))) > 1
