from __future__ import annotations

import io

import pypdf
import pytest
from inked import ink_on, page_of, words_on
from printed import page_texts
from reportlab.platypus import SimpleDocTemplate

from claimpack.printing.kept.reading_order import Element, ReadableCanvas
from claimpack.printing.kept.table_parts import TableParts
from claimpack.printing.lettering import text
from claimpack.printing.palette import ACCENT, INK, RULE
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


def levels(page) -> list[tuple[float, float, str]]:
    """How high and how broad the level lines of a page are and of which colour, from the top."""
    found = {(round(one.top, 1), round(one.broad, 2), one.colour) for one in ink_on(page) if one.is_level}
    return sorted(found, reverse=True)


def test_a_packets_table_has_a_firm_line_under_its_titles_thin_ones_under_rows_and_one_over_its_total():
    table = ruled_table(COLUMNS, [["Block", "10.00"], ["Gasket", "2.00"]], 300, ["Total", "12.00"])
    page = page_of(table, 300)
    lines = levels(page)
    assert [(broad, colour) for _, broad, colour in lines if colour != RULE] == [(1.0, ACCENT), (1.0, INK)]
    said = {one.words: one for one in words_on(page)}
    titles, total = (height for height, _, colour in lines if colour != RULE)
    assert said["Block"].top < titles < said["What"].bottom
    assert said["Total"].top < total < said["Gasket"].bottom
    thin = [height for height, broad, colour in lines if (broad, colour) == (0.25, RULE)]
    assert sum(said["Gasket"].top < height < said["Block"].bottom for height in thin) == 1
    ground = next(one for one in ink_on(page) if one.is_filled)
    assert (ground.left, ground.right, ground.top) == pytest.approx((0, 300, total), abs=0.2)
    assert ground.bottom < said["Total"].bottom


def test_rows_of_a_dense_table_stand_closer():
    loose, dense = (
        ruled_table(COLUMNS, [["Block", "1.00"]] * 3, 300, dense=dense).wrap(300, 500)[1] for dense in (False, True)
    )
    assert dense == loose - 3 * 2


def test_lines_asked_to_be_strong_are_under_their_rows():
    page = page_of(ruled([[text(f"row {n}")] for n in range(4)], [200], titled=1, strong=(2,)), 200)
    said = {one.words: one for one in words_on(page)}
    strong = [height for height, broad, colour in levels(page) if (broad, colour) == (1.0, INK)]
    assert [sum(one.bottom > height for one in said.values()) for height in strong] == [1, 3]


def test_of_a_fact_the_value_begins_where_the_labels_end_and_a_line_parts_it_from_the_next():
    page = page_of(facts_table([("Model", "CS-70"), ("Use", "rental"), ("Kind", "saw")], 200, 60), 200)
    said = {one.words: one for one in words_on(page)}
    assert [said[word].left for word in ("CS-70", "rental", "saw")] == [pytest.approx(60.5, abs=0.6)] * 3
    assert [said[word].left for word in ("Model", "Use", "Kind")] == [pytest.approx(0.5, abs=0.6)] * 3
    heights = [height for height, *_ in levels(page)]
    assert [sum(one.bottom > height for one in said.values()) for height in heights] == [2, 4]
    assert {(one.left, one.right) for one in ink_on(page)} == {(0, 200)}


def test_rows_may_all_be_of_one_height():
    assert grid([[text("a")], [text("b\nc")]], [200], [], height=40).wrap(200, 500)[1] == 80


def cells(piece) -> list[Element]:
    """The cells of a table as those are told of them who have the page read aloud."""
    canvas = ReadableCanvas(io.BytesIO())
    piece.wrapOn(canvas, 300, 500)
    piece.drawOn(canvas, 0, 0)
    tables = [part for part in canvas.document.holds if part.role == "Table"]
    return [cell for table in tables for row in table.holds for cell in row.holds]


def roles(piece) -> list[str]:
    return [f"{cell.role} {cell.heads}".strip() for cell in cells(piece)]


@pytest.mark.parametrize(
    ("how", "told"),
    [
        ({}, []),
        ({"titled": 1}, ["TH Column", "TH Column", "TD", "TD"]),
        ({"labels": (0,)}, ["TH Row", "TD", "TH Row", "TD"]),
        ({"titled": 2}, ["TH Column", "TH Column", "TH Column", "TH Column"]),
        ({"titled": 1, "labels": (0,)}, ["TH Column", "TH Column", "TH Row", "TD"]),
    ],
)
def test_what_has_titles_or_labels_is_read_as_a_table(how, told):
    assert roles(ruled([[text("a"), text("b")], [text("c"), text("d")]], [100, 100], **how)) == told


@pytest.mark.parametrize(
    "beside", [TableColumn("Paid by", 20), TableColumn("h", 20, close=True), TableColumn("Rate", 20, right=True)]
)
def test_only_words_that_are_no_unit_stand_further_from_the_figures_before_them(beside):
    table = ruled_table((TableColumn("Amount", 20, right=True), beside), [["10.00", "owner"]], 200)
    figure, words = (one for one in words_on(page_of(table, 200)) if one.words in ("10.00", "owner"))
    assert figure.right == pytest.approx(97, abs=1)
    if not beside.right:
        assert words.left == pytest.approx(103.5 if beside.close else 112.5, abs=1)
    else:
        assert words.right == pytest.approx(197, abs=1)


def test_a_cell_that_runs_over_several_columns_is_told_as_so_broad():
    rows = [[text("Parts"), text("Paid by"), ""], [text("coil"), text("maker"), text("owner")]]
    table = grid(rows, [50, 50, 50], [("SPAN", (1, 0), (2, 0))], parts=TableParts(1))
    assert [cell.across for cell in cells(table)] == [1, 2, 1, 1, 1]


@pytest.mark.parametrize(("height", "is_torn"), [(240, 0), (241, 1)])
def test_only_rows_higher_than_240_points_may_be_torn(height, is_torn):
    assert grid([[text("one")]], [200], [], height=height).splitInRow == is_torn


def test_a_column_is_flush_left_and_at_ease_unless_it_is_told_otherwise():
    table = ruled_table((TableColumn("What", 1),), [["Block"]], 300)
    said = next(one for one in words_on(page_of(table, 300)) if one.words == "Block")
    assert said.left == pytest.approx(3, abs=1)
    assert (
        table.wrap(300, 500)[1]
        == ruled_table((TableColumn("What", 1),), [["Block"]], 300, dense=False).wrap(300, 500)[1]
    )
