from __future__ import annotations

import io

import pypdf
import pytest
from reportlab.platypus import SimpleDocTemplate

from claimpack.printing.lettering import text
from claimpack.printing.tables import framed, grid, padded, side_by_side

TALL = " ".join(f"word{n}." for n in range(3000))


def printed(*pieces) -> list[str]:
    stream = io.BytesIO()
    SimpleDocTemplate(stream).build(list(pieces))
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(stream).pages]


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
    assert all(f"word{n}." in said for n in range(3000))


def test_titles_are_repeated_on_every_page():
    rows = [[text("Title")], *([text(f"row {n}")] for n in range(120))]
    pages = printed(grid(rows, [200], [], titles=1))
    assert len(pages) > 1
    assert all(said.startswith("Title") for said in pages)


def test_a_row_that_fits_on_a_page_is_not_torn():
    rows = [[text("Title")], *([text(f"row {n} " + "and so on " * 30)] for n in range(40))]
    pages = printed(grid(rows, [200], [], titles=1))
    assert [said.count("Title") for said in pages] == [1] * len(pages)
