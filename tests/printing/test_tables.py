from __future__ import annotations

import io

import pypdf
from reportlab.platypus import SimpleDocTemplate

from claimpack.printing.tables import Column, facts_table, ruled_table

COLUMNS = (Column("What", 60), Column("Amount", 20, right=True))


def printed(piece) -> list[str]:
    stream = io.BytesIO()
    SimpleDocTemplate(stream).build([piece])
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(stream).pages]


def test_titles_rows_and_total_follow_each_other():
    table = ruled_table(COLUMNS, [["Block", "10.00"], ["Gasket", "2.00"]], 300, ["Total", "12.00"])
    assert printed(table) == ["What Amount Block 10.00 Gasket 2.00 Total 12.00"]


def test_columns_take_their_share_of_the_width():
    table = ruled_table(COLUMNS, [["Block", "10.00"]], 400)
    assert table.wrap(400, 1000)[0] == 400


def test_a_table_that_breaks_repeats_its_titles():
    pages = printed(ruled_table(COLUMNS, [[f"Part {n}", "1.00"] for n in range(100)], 300))
    assert [said.startswith("What Amount") for said in pages] == [True] * len(pages)


def test_the_total_never_stands_alone_overleaf():
    pages = [printed(ruled_table(COLUMNS, [["Block", "1.00"]] * n, 300, ["Total", "9.00"])) for n in range(25, 45)]
    assert all("Block" in found[-1] for found in pages)


def test_rows_taller_than_a_page_are_torn():
    rows = [["word " * 2500, "1.00"] for _ in range(4)]
    assert len(printed(ruled_table(COLUMNS, rows, 400, ["Total", "4.00"]))) > 4


def test_words_stand_clear_of_the_figures_before_them():
    table = ruled_table((Column("Amount", 20, right=True), Column("Paid by", 20)), [["10.00", "owner"]], 200)
    stream = io.BytesIO()
    SimpleDocTemplate(stream).build([table])
    places = {}
    page = pypdf.PdfReader(stream).pages[0]
    page.extract_text(visitor_text=lambda text, cm, tm, *_: places.update({text.strip(): cm[4] + tm[4]}))
    assert places["owner"] - places["10.00"] > 32


def test_facts_are_a_line_each():
    assert printed(facts_table([("Model", "CS-70"), ("Use", "rental")], 200)) == ["Model CS-70 Use rental"]
