import csv
import io
import itertools
import re
from decimal import Decimal

import pikepdf
import pypdf
import pypdfium2
import pytest
from inked import ink_on
from printed import overprinted, places_of

from claimpack.printing.kept.structure import structure_of
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


def test_no_word_of_a_long_title_or_a_long_fact_reaches_into_the_margin():
    sheet = a_sheet(30)._replace(title="A title " * 60, facts=LONG, conclude="Then conclude. " * 60)
    for page in pypdfium2.PdfDocument(work_sheet_pdf(sheet)):
        places = [place for _, place in places_of(page)]
        assert max(place[2] for place in places) <= 792 - 40 + 0.1
        assert max(place[3] for place in places) <= 612 - 40


def test_what_to_do_in_the_end_stands_between_the_last_claim_and_who_looked(drawn):
    words, _, _ = drawn[1][-1]
    last, conclude, signed = (of_kind(words, said)[-1] for said in (r"26-\d{4}", "Then: .*", "Looked at by"))
    assert last[1] > conclude[3] > conclude[1] > signed[3]


def test_a_row_that_is_read_aloud_is_headed_by_its_claim():
    with pikepdf.open(io.BytesIO(work_sheet_pdf(a_sheet(2)))) as pdf:
        table = next(part for part in structure_of(pdf).holds if part.role == "Table")
    assert [[cell.role for cell in row.holds] for row in table.holds][1:] == [["TD", "TH", *["TD"] * 7]] * 2


def test_every_line_of_a_sheet_is_level():
    (page,) = pypdfium2.PdfDocument(work_sheet_pdf(a_sheet()))
    lines = [ink for ink in ink_on(page) if len(ink.points) == 2]
    assert [line.is_level for line in lines] == [True] * len(lines) != []


def test_a_fact_stands_behind_its_label_and_ends_ten_points_before_the_next():
    places = places_of(pypdfium2.PdfDocument(work_sheet_pdf(a_sheet()._replace(facts=LONG)))[0])
    label, value, beside = [place for said, place in places if said.startswith(("Label", "a long"))][:3]
    assert value[0] - label[0] == pytest.approx(100, abs=1)
    assert 10 <= beside[0] - value[2] < 20


@pytest.fixture(params=["letter", "legal", "a4"], scope="module")
def drawn(request):
    """The pages of a long sheet with three facts on each paper: their words and where, and their lines and boxes."""
    sheet = a_sheet(60)._replace(facts=(*a_sheet().facts, ("Drawn", "2026-03-02")))
    content = work_sheet_pdf(sheet, request.param)
    document = pypdfium2.PdfDocument(content)
    with pikepdf.open(io.BytesIO(content)) as pdf:
        drawings = [strokes(page) for page in pdf.pages]
    return document[0].get_size(), [(places_of(page), *found) for page, found in zip(document, drawings, strict=True)]


def strokes(page):
    """The level lines of a page, left, right and height, and its boxes, left, bottom, width and height."""
    steps = [(str(step.operator), [float(number) for number in step.operands if not isinstance(number, pikepdf.Object)])
             for step in pikepdf.parse_content_stream(page, "m l re")]  # fmt: skip
    lines = [(begun[0], ended[0], begun[1]) for (kind, begun), (_, ended) in itertools.pairwise(steps) if kind == "m"]
    return lines, [tuple(place) for kind, place in steps if kind == "re"]


def of_kind(words, pattern):
    """The places of the words of a kind, from the top."""
    return sorted((place for said, place in words if re.fullmatch(pattern, said)), key=lambda place: -place[1])


def test_rows_have_a_pitch_of_their_own_and_a_line_under_each(drawn):
    (width, _), sheets = drawn
    for words, lines, _ in sheets:
        heights = [place[1] for place in of_kind(words, r"26-\d{4}")]
        assert [round(high - low, 2) for high, low in itertools.pairwise(heights)] == [23] * (len(heights) - 1)
        under = sorted((y for left, right, y in lines if (left, round(right, 1)) == (40, round(width - 40, 1))))[::-1]
        # the first line is that under the titles
        assert [5 < base - line < 12 for base, line in zip(heights, under[1:], strict=True)] == [True] * len(heights)


def test_amounts_and_places_and_their_titles_end_at_one_right_edge(drawn):
    for words, _, _ in drawn[1]:
        amounts = [*of_kind(words, r"159\.70 USD"), *of_kind(words, "Amount")]
        assert max(place[2] for place in amounts) - min(place[2] for place in amounts) < 1.2
        counted = of_kind(words, r"\d{1,2}")
        assert max(place[2] for place in counted) - min(place[2] for place in counted) < 2.2


def test_claims_are_counted_from_one_to_the_last(drawn):
    counted = [int(said) for words, _, _ in drawn[1] for said, _ in words if re.fullmatch(r"\d{1,2}", said)]
    assert counted == list(range(1, 61))


def test_a_row_has_five_boxes_below_their_titles_with_yes_and_no_beside_the_last_two(drawn):
    for words, _, boxes in drawn[1]:
        for claim in of_kind(words, r"26-\d{4}"):
            row = sorted(box for box in boxes if abs(box[1] - claim[1]) < 4)
            assert [box[2:] for box in row] == [(9.5, 9.5)] * 5
            titles = [of_kind(words, title)[0][0] for title in ("Papers", "Part", "Photos", "Error")]
            assert [abs(title - box[0]) < 1.5 for title, box in zip(titles, row, strict=False)] == [True] * 4
            level = [place for place in of_kind(words, "yes|no") if abs(place[1] - claim[1]) < 4]
            beside = [place[0] - box[0] - 9.5 for place, box in zip(sorted(level), row[3:], strict=True)]
            assert [2 < room < 4.5 for room in beside] == [True, True]


def test_boxes_touch_no_word_and_no_other_box(drawn):
    for words, _, boxes in drawn[1]:
        inked = [place for _, place in words] + [(x, y, x + wide, y + high) for x, y, wide, high in boxes]
        for one, other in itertools.combinations(sorted(inked, key=lambda place: -place[1]), 2):
            if abs(one[1] - other[1]) < 12:
                assert not all(one[side] < other[side + 2] and other[side] < one[side + 2] for side in (0, 1))


def test_a_page_is_full_of_rows_before_the_next_begins_and_leaves_its_foot_free(drawn):
    *full, last = drawn[1]
    lowest = [min(place[1] for place in of_kind(words, r"26-\d{4}")) - 8 for words, _, _ in (*full, last)]
    assert [base >= 40 + 40 for base in lowest] == [True] * len(lowest)
    assert [base - 23 < 40 + 40 for base in lowest[:-1]] == [True] * len(full)


def test_the_titles_stand_below_all_facts_and_at_the_left_of_what_they_name(drawn):
    for number, (words, lines, _) in enumerate(drawn[1]):
        above = of_kind(words, "Drawn" if number == 0 else "Audit work sheet .*")[0]
        title, first = of_kind(words, "Claim")[0], of_kind(words, r"26-\d{4}")[0]
        ruled = max(y for *_, y in lines)
        assert above[1] > title[3] > title[1] > ruled > first[3]
        assert 15 < above[1] - title[3] < 30
        assert abs(title[0] - first[0]) < 1.5


def test_the_foot_keeps_to_the_margins_and_names_the_page_at_the_right(drawn):
    (width, _), sheets = drawn
    for words, lines, _ in sheets:
        signed, on, page = (of_kind(words, said)[0] for said in ("Looked at by", "on", r"page \d of \d"))
        (first, second) = sorted(line for line in lines if line[2] < 60)
        assert page[2] == pytest.approx(width - 40, abs=1)
        assert signed[2] < first[0] < first[1] < on[0] < on[2] < second[0] < second[1] < page[0]
        assert 38 <= first[2] == second[2] < signed[1] + 1


def test_claim_numbers_alone_are_set_strong_in_a_row():
    strong, page = [], pypdf.PdfReader(io.BytesIO(work_sheet_pdf(a_sheet()))).pages[0]
    page.extract_text(
        visitor_text=lambda text, _, __, font, *___: strong.append((text.strip(), font and font["/BaseFont"]))
    )
    told = {text: "Bold" in face for text, face in strong if text and face}
    assert (told["26-0001"], told["CS-70 HC70-1"], told["159.70 USD"]) == (True, False, False)


def test_a_long_unit_is_set_smaller_before_it_is_cut():
    unit = "CS-70 HC70-118-20417-20418-2041"
    assert unit in pages(work_sheet_pdf(a_sheet(1, unit)))[0]
    places = places_of(pypdfium2.PdfDocument(work_sheet_pdf(a_sheet(1, unit)))[0])
    assert 140 < (place := of_kind(places, unit)[0])[2] - place[0] <= 144.1
