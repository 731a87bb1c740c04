import io
import re

import pypdf
import pypdfium2
import pytest
from filed import FiledClaim
from inked import ink_on, place_of
from printed import overprinted
from reported_claims import TODAY, a_report, paid, shelved, told

from claimpack.core.events.events import Event
from claimpack.core.payment.payment_dates import CHECK
from claimpack.printing.papers import page_of
from claimpack.reports.manager.pdf import report_pdf
from claimpack.reports.manager.sections import report_of

LETTER = page_of("letter")


@pytest.fixture(scope="module")
def content():
    return report_pdf(a_report(), LETTER)


@pytest.fixture(scope="module")
def reader(content):
    return pypdf.PdfReader(io.BytesIO(content))


def said(reader):
    return " ".join(" ".join(page.extract_text() for page in reader.pages).replace("\xa0", " ").split())


def test_every_finding_is_printed(reader):
    text = said(reader)
    assert all(section.finding in text for section in a_report().others)


def test_every_section_has_a_bookmark(reader):
    assert [entry["/Title"] for entry in reader.outline] == [
        "Monday report",
        *(section.heading for section in a_report().sections),
    ]


def test_a_bookmark_leads_to_the_page_of_its_section(reader):
    entry = next(entry for entry in reader.outline if entry["/Title"] == "Repeat failures")
    page = reader.pages[reader.get_destination_page_number(entry)]
    assert "Most often: the short block" in page.extract_text()


def test_every_page_says_which_of_how_many_it_is(reader):
    count = len(reader.pages)
    assert all(f"page {place} of {count}" in page.extract_text() for place, page in enumerate(reader.pages, 1))


def test_every_typeface_is_embedded(reader):
    fonts = [font.get_object() for page in reader.pages for font in page["/Resources"]["/Font"].values()]
    assert all("/FontFile2" in font["/FontDescriptor"].get_object() for font in fonts)


def test_the_day_is_printed(reader):
    assert "As of 2026-03-01" in said(reader)


def test_the_law_is_cited_with_the_advice_to_check_it(reader):
    assert CHECK in said(reader)


def test_text_of_a_user_is_never_markup():
    evil = "<b>&amp;</b> <img src=x>"
    claims = (paid("1", component=evil, unit="A"), paid("2", component=evil, unit="B"))
    report = report_of(told(claims, (FiledClaim(maker=evil),), shop=evil))
    assert evil in said(pypdf.PdfReader(io.BytesIO(report_pdf(report, LETTER))))


def test_the_longest_texts_a_claim_takes_find_room():
    longest = "W" * 300
    claims = [paid(f"{n}", maker=longest, model=longest, component=longest, unit=longest) for n in range(20)]
    refused = Event.model_construct(
        claim="1", what="answered", on=TODAY, why="word " * 4000, facts={"answer": "refused"}
    )
    part = shelved(part=longest, shelf=longest, maker=longest, model=longest, rule="r", because=longest)
    told_ = told(tuple(claims), (FiledClaim(maker=longest),), shop=longest, held=(part,) * 20, answers=(refused,))
    assert len(pypdf.PdfReader(io.BytesIO(report_pdf(report_of(told_), LETTER))).pages) > 3


@pytest.mark.parametrize(("letters", "is_whole"), [(160, True), (161, False)])
def test_a_text_in_a_table_is_cut_with_a_mark_where_it_is_longer_than_160_letters(letters, is_whole):
    why = f"{'w' * (letters - 1)}z"
    refused = Event.model_construct(claim="1", what="answered", on=TODAY, why=why, facts={"answer": "refused"})
    text = said(pypdf.PdfReader(io.BytesIO(report_pdf(report_of(told((paid("1"),), answers=(refused,))), LETTER))))
    assert ("wz" in text) is is_whole


def test_a_short_section_stands_whole_on_one_page():
    refused = [
        Event.model_construct(claim="1", what="answered", on=TODAY, why=f"{n}", facts={"answer": "refused"})
        for n in range(6)
    ]
    report = report_of(told((paid("1"),), tuple(FiledClaim(f"{n}") for n in range(9)), answers=tuple(refused)))
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(report_pdf(report, LETTER))).pages]
    assert any("none for form" in page and "Every refusal" in page for page in pages)


def test_the_same_report_gives_the_same_bytes(content):
    assert report_pdf(a_report(), LETTER) == content


def test_a_book_without_claims_is_two_pages_of_sentences():
    pages = pypdf.PdfReader(io.BytesIO(report_pdf(report_of(told()), LETTER))).pages
    assert len(pages) == 2


def test_paper_a4_is_a4():
    box = pypdf.PdfReader(io.BytesIO(report_pdf(a_report(), page_of("a4")))).pages[0].mediabox
    assert (round(box.width), round(box.height)) == (595, 842)


def test_no_ink_leaves_the_page(content):
    for page in pypdfium2.PdfDocument(content):
        picture = page.render(scale=1).to_pil().convert("L")
        edges = [picture.crop((0, 0, 20, picture.height)), picture.crop((picture.width - 20, 0, *picture.size))]
        assert all(edge.getextrema() == (255, 255) for edge in edges)


@pytest.mark.parametrize("many", range(1, 30, 6))
def test_no_page_is_empty_whatever_is_above_it(many):
    owed = tuple(FiledClaim(f"26-{index:04}") for index in range(many))
    pages = pypdf.PdfReader(io.BytesIO(report_pdf(a_report(owed=owed), page_of("letter")))).pages
    assert all(len(page.extract_text().splitlines()) > 2 for page in pages)


def test_no_day_in_a_table_is_broken_between_two_lines(reader):
    lines = [line.strip() for page in reader.pages for line in page.extract_text().splitlines()]
    assert not [line for line in lines if re.search(r"\b20\d\d-[01]\d-\d?$", line)]


@pytest.mark.parametrize("number", ["K26-0001", "KETTLE-2026-00001"])
def test_no_number_of_a_claim_is_broken_between_two_lines(number):
    report = report_of(told((paid(number),), owed=(FiledClaim(number),))._replace(whose={number: "kettle"}))
    lines = [
        line
        for page in pypdf.PdfReader(io.BytesIO(report_pdf(report, LETTER))).pages
        for line in page.extract_text().split()
    ]
    assert not any(number.startswith(line) and line != number for line in lines if len(line) > 2)
    assert number in lines


def test_no_heading_of_a_column_is_broken_inside_a_word(reader):
    lines = "\n".join(page.extract_text() for page in reader.pages)
    headings = {
        column.heading for section in a_report().sections for table in section.tables for _, column in table.visible()
    }
    words = {word for heading in headings for word in heading.split()}
    assert [word for word in sorted(words) if word not in lines and word in lines.replace("\n", "")] == []


def test_no_words_of_a_report_stand_on_others(content):
    assert overprinted(content) == []


@pytest.mark.parametrize("number", ["26-0001", "KETTLE-NORTH-2026-00001"])
def test_a_table_is_as_wide_as_the_text_and_no_wider_however_long_its_numbers_are(number):
    report = report_of(told(owed=(FiledClaim(number),)))
    opened, margin, paper = pypdfium2.PdfDocument(report_pdf(report, LETTER)), 38, 612
    texts = [page.get_textpage() for page in opened]
    rights = [text.get_charbox(place)[2] for text in texts for place in range(text.count_chars())]
    # the last of its columns stands at the right
    amounts = [text.get_charbox(text.get_text_range().rindex("100.00") + 5)[2] for text in texts[:2]]
    assert max(rights) <= paper - margin
    assert paper - margin - 14 < min(amounts)


def test_a_broad_line_parts_the_totals_of_a_table_from_its_rows(content):
    page = next(page for page in pypdfium2.PdfDocument(content) if "All makers" in page.get_textpage().get_text_range())
    total = place_of(page, "All makers")
    assert [line.broad for line in ink_on(page) if line.is_level and 0 < line.bottom - total[3] < 6][-1] == 1
