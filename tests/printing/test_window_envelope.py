"""Where an address stands on the sheet, held against the windows of two kinds of envelope."""

from datetime import date
from io import BytesIO

import pytest
from pypdf import PdfReader

from claimpack.core.payment.letters.letter import Letter, Sender
from claimpack.printing.papers import MM, PAPERS
from claimpack.reports.letter import letter_pdf

ADDRESS = ("Halden", "Warranty Department", "40 Foundry Lane", "Northgate 20417")
INCH = 72.0


def seen(paper, address=ADDRESS, own="18 Quarry Road\nAshby\nSecond line\nThird line"):
    """The lines of a letter: what each says, where it begins from the left and from the top, and its size in points."""
    letter = Letter(
        sender=Sender(name="Quarry Road", address=own, phone="555-0142"),
        on=date(2026, 3, 20),
        to="Halden",
        subject="S",
        facts=(("A", "B"),),
        amounts=(),
        paragraphs=("Below.",),
        ask="Ask.",
        closing="Close.",
        small_print="Small.",
        address=address,
    )
    page, found = PAPERS[paper], []

    def see(text, cm, matrix, _font, size):
        if text.strip():
            found.append((text.strip(), matrix[4] + cm[4], page[1] - matrix[5] - cm[5], size))

    PdfReader(BytesIO(letter_pdf(letter, page))).pages[0].extract_text(visitor_text=see)
    return found


def placed(paper, lines=ADDRESS):
    """The address's lines with where each begins and how large it is, and how far down the subject stands."""
    found = {}
    for text, *place in seen(paper, lines):
        found.setdefault(text, tuple(place))
    return [found[line] for line in lines], found["S"][1]


@pytest.mark.source("DIN 5008:2020, form B; ISO 11180:1993: address zone 45 + 17.7 to 90 mm from the top")
def test_on_a4_the_address_stands_in_the_zone_of_the_window():
    lines, below = placed("a4")
    assert all(20 * MM <= left <= 105 * MM and top - size * 0.8 >= 62.7 * MM for left, top, size in lines)
    assert lines[-1][1] < 90 * MM < below


@pytest.mark.practice
@pytest.mark.parametrize("across", [0.0, 1.0])
@pytest.mark.parametrize("down", [0.0, 4.125 - 11 / 3])
def test_on_letter_it_stands_in_the_window_wherever_the_sheet_slides(across, down):
    lines, _ = placed("letter")
    window = (0.875 * INCH, 5.375 * INCH, (4.125 - 0.5 - 1.125) * INCH, (4.125 - 0.5) * INCH)
    for left, top, size in lines:
        x, y = left + across * INCH, top + down * INCH
        assert window[0] <= x <= window[1]
        assert window[2] + size * 0.8 <= y <= window[3]


def test_many_lines_are_set_smaller_rather_than_run_out_of_the_window():
    lines, _ = placed("letter", tuple(f"Line {n}" for n in range(6)))
    assert lines[-1][1] <= (2.5 + 0.667) * INCH


@pytest.mark.parametrize(
    ("paper", "top", "below"),
    [("a4", 62.7 * MM, 98.5 * MM), ("letter", 2.52 * INCH, 3.75 * INCH), ("legal", 2.52 * INCH, 3.75 * INCH)],
)
@pytest.mark.parametrize("count", [1, 4, 7])
def test_lines_follow_each_other_from_the_top_of_the_place_and_the_text_begins_under_it(paper, top, below, count):
    lines, subject = placed(paper, tuple(f"Line {n}" for n in range(count)))
    size = lines[0][2]
    assert [left for left, _, _ in lines] == [pytest.approx(25 * MM if paper == "a4" else INCH, abs=0.1)] * count
    assert [down for _, down, _ in lines] == [pytest.approx(top + size * (1 + 1.2 * n), abs=0.1) for n in range(count)]
    assert subject - below == pytest.approx(20, abs=12)


@pytest.mark.parametrize(("paper", "lines"), [("a4", 1), ("letter", 0)])
def test_above_the_address_stands_the_senders_own_where_the_window_has_a_line_for_it(paper, lines):
    small = [down for _, _, down, size in seen(paper, own="18 Quarry Road, Ashby") if size == 6.5]
    assert small == [pytest.approx(61.5 * MM, abs=0.1)] * lines
