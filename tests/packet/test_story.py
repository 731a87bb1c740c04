from __future__ import annotations

from builders import a_claim
from drawn_packets import a_layout, draw, page_texts, text_of

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
