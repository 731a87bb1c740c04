from datetime import date
from io import BytesIO

import pypdfium2
import pytest
from inked import ink_on, place_of, words_on
from printed import overprinted
from pypdf import PdfReader

from claimpack.core.payment.letters.letter import Letter, Sender
from claimpack.printing.document import FRAME_LEFT, MARGIN
from claimpack.printing.papers import PAPERS
from claimpack.reports.letter import letter_pdf

LETTER = Letter(
    sender=Sender(name="Quarry Road", address="18 Quarry Road\nAshby", phone="555-0142"),
    on=date(2026, 3, 20),
    to="Halden",
    subject="Warranty claim 26-0001: request for payment",
    facts=(("Our claim number", "26-0001"), ("Filed on", "2 January 2026"), ("Last day to pay", "18 March 2026")),
    amounts=(("Claimed", "150.00 USD"), ("Outstanding", "130.00 USD")),
    paragraphs=("We filed this claim.", "As we read Code 1, it is to be paid."),
    ask="Please pay 130.00 USD by 3 April 2026.",
    closing="With our thanks.",
    small_print="It is not legal advice.",
)


def read(letter=LETTER, paper="letter"):
    return PdfReader(BytesIO(letter_pdf(letter, PAPERS[paper])))


def words(reader):
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split())


@pytest.mark.parametrize(
    "part",
    [
        "Quarry Road",
        "Ashby",
        "20 March 2026",
        "Halden",
        "18 March 2026",
        "130.00 USD",
        "We filed",
        "Please pay",
        "thanks",
    ],
)
def test_everything_in_the_letter_is_printed(part):
    assert part in words(read())


def test_the_shop_and_the_date_come_first_and_the_small_print_last():
    said = words(read())
    order = [
        "Quarry Road",
        "20 March",
        "request for payment",
        "We filed",
        "Please pay",
        "Signature",
        "not legal advice",
    ]
    assert [said.index(part) for part in order] == sorted(said.index(part) for part in order)


def test_there_is_room_to_sign():
    said = words(read())
    assert all(line in said for line in ("Signature", "Name", "Date"))


@pytest.mark.parametrize(("paper", "size"), [("letter", (612, 792)), ("a4", (595, 842))])
def test_the_letter_is_one_page_of_the_paper(paper, size):
    pages = read(paper=paper).pages
    box = pages[0].mediabox
    assert (len(pages), round(float(box.width)), round(float(box.height))) == (1, *size)


def test_the_same_letter_is_the_same_bytes():
    assert letter_pdf(LETTER, PAPERS["a4"]) == letter_pdf(LETTER, PAPERS["a4"])


def test_the_document_names_its_subject():
    assert read().metadata.title == LETTER.subject


def test_text_is_printed_as_it_is():
    assert "<b>R&D</b> Żółć" in words(read(LETTER._replace(to="<b>R&D</b> Żółć")))


def test_a_shop_without_a_name_writes_letters_too():
    assert "Please pay" in words(read(LETTER._replace(sender=Sender())))


def test_a_long_letter_goes_on_overleaf():
    assert len(read(LETTER._replace(paragraphs=("Again and again. " * 300,))).pages) > 1


@pytest.mark.parametrize("lines", range(24, 44, 2))
def test_a_signature_never_stands_on_a_page_without_what_is_asked(lines):
    pages = read(LETTER._replace(paragraphs=("We filed this claim.",) * lines)).pages
    signed = next(said for said in (page.extract_text() for page in pages) if "Signature" in said)
    assert "Please pay" in signed


@pytest.mark.parametrize("lines", [22, 23, 24])
def test_a_page_of_a_letter_that_ends_overleaf_is_a_third_full(lines):
    letter = LETTER._replace(paragraphs=("We filed this claim.",) * lines)
    *_, last = pypdfium2.PdfDocument(letter_pdf(letter, PAPERS["letter"]))
    picture = last.render(scale=0.25, grayscale=True).to_pil().point(lambda shade: 255 * (shade < 240))
    top, foot = (MARGIN - 10) * 0.25, (792 - MARGIN) * 0.25
    assert picture.crop((0, int(top), picture.width, int(foot))).getbbox()[3] >= (foot - top) / 3


def test_the_end_of_a_letter_overleaf_does_not_tear_its_whole_list_along():
    rows = tuple((f"26-000{n}; " + "not answered, and so accepted; " * 24, "", "9.00 USD") for n in range(3))
    pages = read(LETTER._replace(paragraphs=("What we wait for is listed below.",), rows=rows)).pages
    assert (len(pages), "26-0002" in pages[0].extract_text()) == (2, True)


def test_lines_without_a_measure_have_its_room():
    line = "26-0001, CS-70 cut-off saw; filed on 2 January 2026, not answered by then"
    printed = read(LETTER._replace(rows=((line, "", "9.00 USD"),))).pages[0].extract_text()
    assert line in printed


def test_a_letter_that_a_little_less_room_fits_on_a_page_stands_on_it():
    facts = tuple((f"Fact {n}", "known") for n in range(18))
    long = LETTER._replace(address=("Halden", "40 Foundry Lane"), facts=facts, paragraphs=("We filed this claim.",) * 4)
    assert len(read(long).pages) == 1


def test_the_lines_of_a_letter_that_go_on_overleaf_say_so_there():
    rows = tuple((f"Part {n}", "1", "12.00 USD") for n in range(60))
    assert "continued" in read(LETTER._replace(rows=rows)).pages[1].extract_text()


def test_no_words_of_a_letter_stand_on_others():
    assert overprinted(letter_pdf(LETTER, PAPERS["letter"])) == []


@pytest.mark.parametrize("lines", range(20, 30, 3))
def test_the_greeting_never_stands_at_the_foot_of_a_page_without_the_letter(lines):
    pages = read(LETTER._replace(paragraphs=("We filed it. " * 30,) * (lines // 4))).pages
    greeted = next(said for said in (page.extract_text() for page in pages) if "To whom" in said)
    assert "We filed it." in greeted


@pytest.mark.parametrize(("count", "lines"), [*((4, lines) for lines in range(2, 16, 2)), (12, 10), (16, 6)])
def test_a_sum_never_stands_on_a_page_without_a_line_of_its_estimate(count, lines):
    rows = tuple((f"Coil {n}", "1", "9.00 USD") for n in range(count))
    pages = read(LETTER._replace(paragraphs=("We filed this claim.",) * lines, rows=rows)).pages
    summed = next(said for said in (page.extract_text() for page in pages) if "Outstanding" in said)
    assert f"Coil {count - 1}" in summed


@pytest.mark.parametrize("lines", [15, 20])
def test_six_lines_of_an_estimate_are_not_parted(lines):
    rows = tuple((f"Coil {n}", "1", "9.00 USD") for n in range(6))
    pages = [
        page.extract_text() for page in read(LETTER._replace(paragraphs=("We filed it.",) * lines, rows=rows)).pages
    ]
    assert {sum(f"Coil {n}" in page for n in range(6)) for page in pages} <= {0, 6}


RIGHT = 612 - FRAME_LEFT


def first_page(**changes):
    return pypdfium2.PdfDocument(letter_pdf(LETTER._replace(**changes), PAPERS["letter"]))[0]


@pytest.mark.parametrize(
    "rows", [(), (("Coil", "", "9.00 USD"),), (("Coil", "2", "9.00 USD"),)], ids=["no lines", "lines", "with a measure"]
)
def test_all_amounts_of_a_letter_end_under_each_other(rows):
    ends = [word.right for word in words_on(first_page(rows=rows)) if word.words.endswith("USD")]
    assert ends == pytest.approx([ends[0]] * len(ends), abs=0.1)
    assert (len(ends), ends[0] <= RIGHT) == (2 + len(rows), True)


def test_the_sum_alone_has_a_broad_line_under_it():
    page = first_page()
    (broad,) = [line for line in ink_on(page) if line.broad >= 1]
    assert 0 < place_of(page, "Outstanding")[1] - broad.top < 8


def test_every_rule_of_a_letter_ends_where_its_text_does():
    lines = [line for line in ink_on(first_page(rows=(("Coil", "2", "9.00 USD"),))) if line.is_level]
    assert {(round(line.left), round(line.right)) for line in lines} == {(FRAME_LEFT, RIGHT)}


def test_how_to_reach_the_shop_stands_at_the_right():
    reach = [word for word in words_on(first_page()) if word.words in ("18 Quarry Road", "Ashby", "555-0142")]
    assert [RIGHT - word.right for word in reach] == pytest.approx([0.5] * 3, abs=0.5)


def test_the_greater_half_of_the_facts_stands_on_the_left_and_the_rest_from_the_middle_on():
    lefts = {word.words: word.left for word in words_on(first_page())}
    labels = [lefts[label] for label in ("Our claim number", "Filed on", "Last day to pay")]
    assert labels == pytest.approx([FRAME_LEFT, FRAME_LEFT, (FRAME_LEFT + RIGHT) / 2], abs=1)
