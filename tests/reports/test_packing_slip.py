from datetime import date
from io import BytesIO

import pypdfium2
import pytest
import zxingcpp
from builders import a_claim
from inked import ink_on, words_on
from printed import overprinted, words_of
from pypdf import PdfReader

from claimpack.core.holding.cautions import CARRIER
from claimpack.core.holding.hold import ClaimsHold
from claimpack.core.holding.tags import tags
from claimpack.printing.document import FRAME_LEFT, body_width
from claimpack.printing.papers import PAPERS
from claimpack.reports.packing_slip import Slip, packing_slip_pdf

HELD = [{"part": "short block", "number": "70-1180", "serial": "E70-9", "shelf": "B3", "drained": False}]


def a_slip(number="26-0001", **changes):
    claim = a_claim(number=number, held=HELD)
    facts = {
        "tag": tags(claim, "halden", ClaimsHold())[0],
        "shop": "Quarry Road",
        "reach": "18 Quarry Road\n555-0142",
        "dealer_number": "QR-1",
        "reference": "R-77",
        "serials": (("unit", "HC70-1"), ("engine", "E70-1")),
        "sent": date(2026, 3, 20),
        "carrier": "Northway",
        "tracking": "NF-5501",
    }
    return Slip(**{**facts, **changes})


def words(slip, paper="letter"):
    return words_of(packing_slip_pdf(slip, PAPERS[paper]))


@pytest.mark.parametrize(
    "part",
    [
        "26-0001/1",
        "short block",
        "70-1180",
        "E70-9",
        "R-77",
        "QR-1",
        "HC70-1",
        "E70-1",
        "Failed on 2026-02-02",
        "Sent on 2026-03-20",
        "Northway · NF-5501",
    ],
)
def test_the_slip_says_what_is_in_the_box(part):
    assert part in words(a_slip())


def test_the_slip_defers_to_the_carrier():
    assert CARRIER in words(a_slip())


def test_the_cautions_are_printed():
    said = words(a_slip())
    assert "49 CFR 173.220" in said
    assert "eye protection" in said


def test_a_part_that_was_not_drained_says_so():
    assert "Drained NO" in words(a_slip())


def test_a_part_that_was_drained_says_so():
    assert "Drained yes" in words(a_slip(tag=a_slip().tag._replace(drained=True)))


def test_a_part_that_never_held_fuel_says_nothing_of_draining():
    tag = a_slip().tag._replace(hazard="lithium battery")
    assert "Drained" not in words(a_slip(tag=tag))


def test_what_is_not_known_takes_no_line():
    said = words(a_slip(carrier="", tracking="", reference=""))
    assert not [label for label in ("Carrier", "Maker's reference") if label in said]


@pytest.mark.parametrize("number", ["26-0001", "W26-LONGEST-NUMBER-OF-24"])
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_barcode_reads_as_the_code_of_the_tag(number, paper):
    page = pypdfium2.PdfDocument(packing_slip_pdf(a_slip(number), PAPERS[paper]))[0]
    found = zxingcpp.read_barcodes(page.render(scale=3).to_pil())
    assert {(code.text, code.format.name) for code in found} == {(f"{number}/1", "Code128"), (f"{number}/1", "QRCode")}


def test_the_slip_says_from_where_to_where_the_box_goes():
    said = words(a_slip(to=("40 Foundry Lane", "Northgate")))
    assert "Ship from Quarry Road 18 Quarry Road 555-0142 Ship to halden 40 Foundry Lane Northgate" in said


def test_the_slip_is_one_page():
    content = packing_slip_pdf(a_slip(to=("40 Foundry Lane", "Northgate")), PAPERS["letter"])
    assert len(PdfReader(BytesIO(content)).pages) == 1


def test_the_same_slip_is_the_same_bytes():
    assert packing_slip_pdf(a_slip(), PAPERS["a4"]) == packing_slip_pdf(a_slip(), PAPERS["a4"])


def test_no_words_of_a_slip_stand_on_others():
    assert overprinted(packing_slip_pdf(a_slip(to=("40 Foundry Lane", "Northgate")), PAPERS["letter"])) == []


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_square_code_ends_eight_points_before_the_margin(paper):
    page = pypdfium2.PdfDocument(packing_slip_pdf(a_slip(), PAPERS[paper]))[0]
    codes = {code.format.name: code.position for code in zxingcpp.read_barcodes(page.render().to_pil())}
    margin = (page.get_width() - body_width(PAPERS[paper])) / 2
    assert page.get_width() - codes["QRCode"].top_right.x == pytest.approx(margin + 8, abs=1.5)


@pytest.fixture(scope="module")
def page():
    return pypdfium2.PdfDocument(packing_slip_pdf(a_slip(), PAPERS["letter"]))[0]


def test_the_part_stands_out_among_what_is_said_of_it(page):
    faces = {word.words: word.face for word in words_on(page) if word.left > 190 and word.bottom < 500}
    assert [said for said, face in faces.items() if face.endswith("Bold")] == ["short block · 70-1180"]


def test_every_rule_of_a_slip_ends_where_its_text_does_and_two_people_sign_on_half_of_one_each(page):
    rules = [(round(line.left), round(line.right)) for line in ink_on(page) if line.is_level]
    left, right = FRAME_LEFT, 612 - FRAME_LEFT
    *others, packed, received = rules
    assert set(others) == {(left, right)}
    assert (packed, received) == ((left, 296), (316, right))
