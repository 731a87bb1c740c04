from __future__ import annotations

from decimal import Decimal

import pytest
from builders import TODAY, a_claim, a_plan
from drawn_packets import a_layout, draw, page_texts, text_of
from inked import ink_on, words_on
from pypdfium2 import PdfDocument

from claimpack.core.claims.measurements import Measurement, measurement
from claimpack.core.facts.failure import Finding
from claimpack.core.judging.assessment import Circumstances, assess
from claimpack.packet.drawing.evidence import PageEvidence
from claimpack.packet.drawn_pages import draw_pages
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
    return len(ink_on(PdfDocument(drawn.pdf)[0]))


def test_a_finding_the_plan_goes_by_has_a_gauge_in_the_plans_unit_alone():
    assert shapes("psi") > shapes("bar")


def measured(*findings):
    """The page of findings, as lines and words."""
    claim = a_claim(findings=[{"what": "Compression", "unit": "psi", "value": "42"} | one for one in findings])
    page = PdfDocument(draw(claim, layout=a_layout(sections=["findings"])).pdf)[0]
    return ink_on(page), words_on(page)


LIMITS = [{"low": "40", "high": "50"}, {"low": "40"}, {"high": "50"}, {"low": "110", "value": "7"}]


@pytest.mark.parametrize("limits", LIMITS, ids=" ".join)
def test_a_gauge_has_its_needle_at_the_value_and_its_band_between_the_limits(limits):
    ink, _ = measured(limits)
    line = next(one for one in ink if one.is_level and one.right - one.left == pytest.approx(104, abs=0.1))
    value, low, high = (Decimal(limits[key]) if key in limits else None for key in ("value", "low", "high"))
    found = Measurement(value or Decimal(42), low, high)
    first, last = gauge_span(found)

    def at(number):
        return pytest.approx(line.left + float((number - first) / (last - first)) * 104, abs=0.1)

    band = next(one for one in ink if one.is_filled and one.top - one.bottom == pytest.approx(6, abs=0.1))
    ends = [at(low) if low else pytest.approx(line.left), at(high) if high else pytest.approx(line.right)]
    assert [band.left, band.right] == ends
    marks = [one.left for one in ink if one.is_upright and one.top - one.bottom == pytest.approx(9, abs=0.1)]
    assert marks == [at(limit) for limit in (low, high) if limit]
    needle = next(one for one in ink if one.is_filled and len(one.points) == 4)
    assert (needle.points[0][0], needle.middle[0], needle.right - needle.left) == (
        at(found.value),
        at(found.value),
        pytest.approx(6.8),
    )


def test_values_end_under_each_others_points_right_before_their_units():
    _, words = measured({"value": "7.25"}, {"value": "142.5"}, {"value": "42"})
    values, units = ([one for one in words if one.words in said] for said in (("7.25", "142.5", "42"), ("psi",)))
    assert [unit.left - value.right for value, unit in zip(values[:1], units, strict=False)] == [
        pytest.approx(8, abs=6)
    ]
    points = [one.right for one in values]
    assert points[0] - points[1] == pytest.approx(5, abs=1.5)
    assert points[0] > points[1] > points[2]


def test_of_a_finding_in_another_unit_than_the_plans_nothing_is_concluded():
    asked = {"what": "Compression", "unit": "psi", "at_most": "110"}
    claim = a_claim(findings=[{"what": "Compression", "value": "42", "unit": "bar"}])
    said = text_of(draw(claim, a_plan(requires={"findings": [asked]}), a_layout(sections=["findings", "declaration"])))
    assert "failed at 110 psi or less Declaration" in said


@pytest.mark.parametrize(("reader", "told"), [("maker", True), ("owner", False)])
def test_why_it_is_filed_all_the_same_is_told_to_the_maker_and_not_to_the_owner(reader, told):
    filed = assess(a_claim(), [a_plan()], TODAY, Circumstances(anyway="Agreed by phone."))
    said = text_of(draw_pages(filed, a_layout(**ONLY).written_for(reader), PageEvidence()))
    assert ("Agreed by phone." in said) == told


@pytest.mark.parametrize(("anyway", "times"), [("Failed twice.", 1), ("Agreed by phone.", 2)])
def test_the_reason_of_a_favour_is_told_once_where_it_is_filed_for_that_very_reason(anyway, times):
    claim = a_claim(case="goodwill", failure__component="blade", goodwill={"because": "Failed twice."})
    filed = assess(claim, [a_plan()], TODAY, Circumstances(anyway=anyway))
    said = text_of(draw_pages(filed, a_layout(**ONLY), PageEvidence()))
    assert said.count("Failed twice.") + said.count("Agreed by phone.") == times
