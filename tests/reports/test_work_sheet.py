import csv
import io
import re
from decimal import Decimal

import pypdf
import pypdfium2
import pytest
from printed import overprinted, places_of

from claimpack.reports.work_sheet import SheetLine, WorkSheet, work_sheet_csv, work_sheet_pdf


def a_sheet(count=3, unit="CS-70 HC70-1"):
    lines = tuple(SheetLine(f"26-{index:04}", unit, Decimal("159.70"), "USD") for index in range(1, count + 1))
    facts = (("Shop", "Quarry Road Small Engine"), ("Seed", "2026-03-01-0123456789ab"))
    return WorkSheet("Audit work sheet", facts, lines, "Then: claimpack audit conclude --population 200")


def pages(content):
    return [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(content)).pages]


def test_the_sheet_names_every_claim_its_unit_and_amount():
    text = pages(work_sheet_pdf(a_sheet()))[0]
    assert all(said in text for said in ("26-0001", "26-0003", "CS-70 HC70-1", "159.70 USD"))


def test_the_sheet_says_how_to_draw_it_again_and_what_to_do_then():
    text = pages(work_sheet_pdf(a_sheet()))[0]
    assert "2026-03-01-0123456789ab" in text
    assert "claimpack audit conclude --population 200" in text


def test_an_amount_has_the_coins_of_its_currency():
    line = SheetLine("26-0001", "CS-70", Decimal("94.9"), "USD")
    assert "94.90 USD" in pages(work_sheet_pdf(a_sheet()._replace(lines=(line,))))[0]


def test_every_page_names_the_sheet_and_the_shop():
    assert all("Audit work sheet" in text and "Quarry Road" in text for text in pages(work_sheet_pdf(a_sheet(60))))


def test_claims_go_on_overleaf_each_once():
    sheets = pages(work_sheet_pdf(a_sheet(60)))
    found = [number for text in sheets for number in text.split() if number.startswith("26-0")]
    assert len(sheets) > 1
    assert found == [f"26-{index:04}" for index in range(1, 61)]


def test_every_page_repeats_the_titles_and_counts_itself():
    sheets = pages(work_sheet_pdf(a_sheet(60)))
    assert all("Papers" in text and f"page {place} of {len(sheets)}" in text for place, text in enumerate(sheets, 1))


def test_the_last_page_alone_says_what_to_do_then():
    assert ["conclude" in text for text in pages(work_sheet_pdf(a_sheet(30)))] == [False, True]


def test_the_lines_to_sign_on_lie_below_the_words_before_them():
    page, bases = pypdf.PdfReader(io.BytesIO(work_sheet_pdf(a_sheet()))).pages[0], {}
    page.extract_text(visitor_text=lambda text, _, place, *__: bases.setdefault(text.strip(), place[5]))
    lines = re.findall(rb"96 (\S+) m 266 (\S+) l", page.get_contents().get_data())
    assert [float(height) < bases["Looked at by"] for height in lines[0]] == [True, True]


@pytest.mark.parametrize(("paper", "size"), [("letter", (792, 612)), ("a4", (842, 595))])
def test_the_sheet_lies_across_its_paper(paper, size):
    box = pypdf.PdfReader(io.BytesIO(work_sheet_pdf(a_sheet(), paper))).pages[0].mediabox
    assert (round(box.width), round(box.height)) == size


def test_the_same_sheet_gives_the_same_bytes():
    assert work_sheet_pdf(a_sheet()) == work_sheet_pdf(a_sheet())


def test_a_unit_too_long_for_its_column_is_cut_with_a_mark():
    assert "…" in pages(work_sheet_pdf(a_sheet(1, "CS-70 " * 40)))[0]


def test_a_sheet_without_claims_is_a_page():
    assert len(pages(work_sheet_pdf(a_sheet(0)))) == 1


def rows(content):
    return list(csv.reader(io.StringIO(content.decode("utf-8-sig"), newline="")))


def test_the_spreadsheet_has_a_line_a_claim_and_room_to_fill_in():
    found = rows(work_sheet_csv(a_sheet()))
    assert found[1] == ["26-0001", "CS-70 HC70-1", "159.70", "USD", "", "", "", "", ""]
    assert len(found) == 4


def test_the_spreadsheet_names_its_columns():
    assert rows(work_sheet_csv(a_sheet(0))) == [
        ["claim", "unit", "amount", "currency", "papers seen", "part seen", "photos seen", "error yes/no", "note"]
    ]


@pytest.mark.parametrize("unit", ["=1+1", "+1", "-1", "@a"])
def test_text_is_never_a_formula(unit):
    assert rows(work_sheet_csv(a_sheet(1, unit)))[1][1] == f"'{unit}"


def test_lines_end_as_spreadsheets_expect():
    assert work_sheet_csv(a_sheet(1)).count(b"\r\n") == 2


def test_every_page_but_the_first_says_that_the_table_goes_on():
    first, *others = pages(work_sheet_pdf(a_sheet(60)))
    assert "continued" not in first
    assert all("continued" in text for text in others)


@pytest.mark.parametrize(("paper", "size"), [("letter", (792, 612)), ("legal", (1008, 612)), ("a4", (841.89, 595.28))])
def test_the_sheet_lies_across_on_every_paper(paper, size):
    box = pypdf.PdfReader(io.BytesIO(work_sheet_pdf(a_sheet(), paper))).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx(size, abs=0.01)


LONG = tuple((f"Label {place}", "a long value " * 20) for place in range(4))


def test_no_words_of_a_sheet_stand_on_others():
    for sheet in (a_sheet(), a_sheet(1, "CS-70 " * 40), a_sheet()._replace(title="A title " * 60, facts=LONG)):
        assert overprinted(work_sheet_pdf(sheet)) == []


def test_a_fact_stands_behind_its_label_and_ends_ten_points_before_the_next():
    places = places_of(pypdfium2.PdfDocument(work_sheet_pdf(a_sheet()._replace(facts=LONG)))[0])
    label, value, beside = [place for said, place in places if said.startswith(("Label", "a long"))][:3]
    assert value[0] - label[0] == pytest.approx(100, abs=1)
    assert 10 <= beside[0] - value[2] < 20
