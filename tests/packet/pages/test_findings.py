from __future__ import annotations

from decimal import Decimal

import pytest
from builders import a_claim, a_plan
from drawn_packets import a_layout, draw, page_texts, text_of
from pypdfium2 import PdfDocument
from pypdfium2.raw import FPDF_PAGEOBJ_PATH

from claimpack.core.claims.measurements import Measurement, measurement
from claimpack.core.facts.failure import Finding
from claimpack.packet.pages.findings import gauge_span


def told(**finding) -> str:
    claim = a_claim(findings=[{"what": "Compression", "value": "42", "unit": "psi"} | finding])
    return text_of(draw(claim, layout=a_layout(sections=["findings", "declaration"])))


@pytest.mark.parametrize(
    ("value", "word"),
    [("109", "below the limit"), ("110", "within limits"), ("150", "within limits"), ("150.1", "above the limit")],
)
def test_a_value_is_told_against_its_limits(value, word):
    assert f"Compression {value} psi 110 \u2013 150 psi {word}" in told(value=value, low="110", high="150")


def test_a_lower_limit_alone_is_told():
    assert "42 psi at least 110 psi below the limit" in told(low="110")


def test_an_upper_limit_alone_is_told():
    assert "42 psi at most 50 psi within limits" in told(high="50")


def test_a_value_in_words_is_told_as_it_is():
    assert "Compression strong, blue no limits given" in told(value="strong, blue")


def test_a_value_the_program_cannot_read_keeps_its_unit():
    assert "Compression 1,5 psi" in told(value="1,5")


def test_a_value_is_not_judged_by_a_limit_in_words():
    assert "within" not in told(low="110", high="see manual", value="120")


@pytest.mark.parametrize("said", ["1,5", "4 2", "1e3", "NaN", "٤٢", "0x10"])
def test_what_is_no_plain_number_is_not_read_as_one(said):
    assert measurement(Finding(what="gap", value=said)).value is None


def test_a_gauge_leaves_room_beside_limits_and_value():
    assert gauge_span(Measurement(Decimal(42), Decimal(110), Decimal(150))) == (Decimal("20.4"), Decimal("171.6"))


def test_a_gauge_whose_numbers_are_one_still_has_a_length():
    first, last = gauge_span(Measurement(Decimal(5), Decimal(5), Decimal(5)))
    assert first < last


ONLY = {"sections": ["story"]}


def test_complaint_cause_and_correction_follow_each_other():
    said = text_of(draw(layout=a_layout(**ONLY)))
    assert "Complaint Will not start. Cause Piston scored. Correction Short block replaced." in said


def test_what_is_not_told_is_said_to_be_missing():
    assert "Cause Not given. Correction" in text_of(draw(a_claim(failure__cause=""), layout=a_layout(**ONLY)))


def test_line_breaks_and_tabs_are_kept():
    said = draw(a_claim(failure__complaint="first\n\tsecond\n\nthird"), layout=a_layout(**ONLY))
    from drawn_packets import reader

    lines = [line.strip() for line in reader(said).pages[0].extract_text().splitlines()]
    assert [line for line in lines if line in ("first", "second", "third")] == ["first", "second", "third"]


def test_a_heading_is_never_the_last_line_of_a_page():
    for length in range(40, 64):
        drawn = draw(a_claim(failure__complaint="line\n" * length), layout=a_layout(**ONLY))
        assert not any(said.endswith(("Cause", "Correction")) for said in page_texts(drawn))


def test_the_reason_of_a_favour_is_told_in_full():
    why = "Failed twice. " * 60
    claim = a_claim(case="goodwill", failure__component="blade", goodwill={"because": why})
    assert why.strip() in text_of(draw(claim, layout=a_layout(sections=["story"])))


ASKED = {"asked": "2026-03-02", "text": "Which fuel was used?"}


@pytest.mark.parametrize(
    ("answered", "said"),
    [
        ({"answered": "2026-03-04", "answer": "Fresh, 91 octane."}, "Answered 2026-03-04 Fresh, 91 octane."),
        ({}, "No answer is written down yet."),
    ],
)
def test_what_the_maker_asked_stands_beside_what_the_shop_answered(answered, said):
    claim = a_claim(questions=[{**ASKED, **answered}])
    assert f"Asked 2026-03-02 Which fuel was used? {said}" in text_of(draw(claim, layout=a_layout(sections=["story"])))


def shapes(unit: str) -> int:
    """How many lines and areas stand on the page of a finding that the plan asks for in psi."""
    asked = {"what": "Compression", "unit": "psi", "at_most": "110"}
    claim = a_claim(findings=[{"what": "Compression", "value": "42", "unit": unit}])
    drawn = draw(claim, a_plan(requires={"findings": [asked]}), a_layout(sections=["findings", "declaration"]))
    return len(list(PdfDocument(drawn.pdf)[0].get_objects(filter=[FPDF_PAGEOBJ_PATH])))


def test_a_finding_the_plan_goes_by_has_a_gauge_in_the_plans_unit_alone():
    assert shapes("psi") > shapes("bar")
