import pytest
from reportlab.pdfgen.canvas import Canvas

from claimpack.errors import BadInput
from claimpack.lists.pdf_lines import MOST_PAGES, PdfCell, lines_of_pdf, under
from claimpack.lists.statement_files import cells_of

HEAD = ("Claim", "Our Ref", "Serial", "Net Amount")


def a_pdf(path, *pages):
    """Pages of lines; the last cell of each is flush right, empty ones leave their place free."""
    canvas = Canvas(str(path))
    for lines in pages:
        for nth, line in enumerate(lines):
            *words, amount = line
            for place, word in enumerate(words):
                canvas.drawString(60 + place * 120, 780 - nth * 16, word)
            canvas.drawRightString(530, 780 - nth * 16, amount)
        canvas.showPage()
    canvas.save()
    return path


def test_a_statement_on_pages_is_read_as_rows_under_its_headings(tmp_path):
    first = [
        ("Credit memo CM-4471", ""),
        HEAD,
        ("26-0001", "", "HC70-118-20417", "1,147.20"),
        ("26-0002", "R-7", "", "9.00"),
    ]
    second = [HEAD, ("26-0003", "", "HC70 9", "(20.00)"), ("Page 2 of 2", "")]
    rows = [cells for _, cells in cells_of(a_pdf(tmp_path / "memo.pdf", first, second), "memo.pdf")]
    assert rows == [
        ["Credit memo CM-4471"],
        list(HEAD),
        ["26-0001", "", "HC70-118-20417", "1,147.20"],
        ["26-0002", "R-7", "", "9.00"],
        ["26-0003", "", "HC70 9", "(20.00)"],
    ]


def test_a_pdf_without_text_is_refused(tmp_path):
    with pytest.raises(BadInput, match="no text"):
        cells_of(a_pdf(tmp_path / "scan.pdf", []), "scan.pdf")


def test_what_is_no_pdf_is_refused(tmp_path):
    (tmp_path / "memo.pdf").write_bytes(b"%PDF-1.7 and nothing more")
    with pytest.raises(BadInput):
        cells_of(tmp_path / "memo.pdf", "memo.pdf")


def test_what_stands_a_little_higher_or_hangs_lower_is_in_its_line_and_words_are_one_cell(tmp_path):
    canvas = Canvas(str(tmp_path / "memo.pdf"))
    canvas.drawString(60, 780, 'Paid by "Gypsy" pump')
    canvas.drawString(260, 782, "yes")
    canvas.drawString(60, 766, "next, quay")
    canvas.showPage()
    canvas.showPage()
    canvas.save()
    lines = [[cell.text for cell in line] for line in lines_of_pdf(tmp_path / "memo.pdf", "memo.pdf").lines]
    assert lines == [['Paid by "Gypsy" pump', "yes"], ["next, quay"]]


def test_a_cell_goes_from_its_first_letter_to_its_last(tmp_path):
    (heading, amount), *_ = lines_of_pdf(a_pdf(tmp_path / "memo.pdf", [("Claim", "1,147.20")]), "memo.pdf").lines
    assert (round(heading.left), heading.right < amount.left, round(amount.right)) == (60, True, 530)


@pytest.mark.parametrize("pages", [MOST_PAGES, MOST_PAGES + 1])
def test_a_statement_has_at_most_so_many_pages(tmp_path, pages):
    path = a_pdf(tmp_path / "memo.pdf", *[[]] * pages)
    try:
        many = lines_of_pdf(path, "memo.pdf").lines != []
    except BadInput:
        many = True
    assert many == (pages > MOST_PAGES)


@pytest.mark.parametrize(("left", "right", "place"), [(95, 130, 1), (70, 105, 0)])
def test_a_piece_under_two_headings_goes_under_the_one_in_whose_middle_it_is(left, right, place):
    headings = [PdfCell(0, 100, "a"), PdfCell(100, 200, "b")]
    assert under(headings, [[PdfCell(left, right, "x")]])[0][place] == "x"


@pytest.mark.parametrize(("left", "place"), [(60, 0), (100, 0), (120, 1), (400, 1)])
def test_a_piece_goes_under_the_nearest_heading(left, place):
    headings = [PdfCell(50, 80, "a"), PdfCell(150, 200, "b")]
    assert under(headings, [[PdfCell(left, left + 10, "x")]])[0][place] == "x"
