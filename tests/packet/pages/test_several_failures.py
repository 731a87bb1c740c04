"""A packet about two failures tells of each: on the cover, with its windows, with its story, on its lines."""

from __future__ import annotations

import pytest
from builders import a_claim, a_plan, a_window
from drawn_packets import a_layout, draw, text_of

FAILURES = [
    {"complaint": "Stalls.", "cause": "Piston scored.", "correction": "Short block.", "component": "short block"},
    {"cause": "Handle bent.", "correction": "Handle renewed.", "component": "handle", "defect": "misuse"},
]
PLAN = a_plan(
    window=[a_window(name="Engine"), a_window(id="all", name="All", covers=["*"], period="P6M")], words={"handle": []}
)


@pytest.fixture(scope="module")
def said() -> str:
    parts = [{"name": "grip", "unit_cost": "30.00", "failure": 2}]
    sections = ["cover", "reasons", "story", "money"]
    return text_of(draw(a_claim(failure=FAILURES, parts=parts), PLAN, a_layout(sections=sections)))


def test_the_cover_tells_of_each_whether_it_is_covered(said):
    assert "Covered: short block; not covered: handle." in said
    assert "Failure 1 short block. Covered until" in said
    assert "Failure 2 handle, misuse. Not covered:" in said


def test_each_has_its_windows_under_its_name(said):
    first, second = said.index("Failure 1: short block Covered"), said.index("Failure 2: handle Not covered")
    assert first < said.index("Engine · cited, open") < second < said.index("All · closed", second)


def test_each_has_its_cause_and_correction(said):
    assert "Failure 1: short block – Complaint Stalls." in said
    assert "Failure 2: handle – Cause Handle bent." in said


def test_a_complaint_told_once_is_not_missing_of_the_second(said):
    assert "Failure 2: handle – Complaint" not in said


def test_a_line_not_covered_says_for_which_failure_it_is(said):
    assert "Failure 2, handle: not covered." in said


def test_a_failure_after_the_first_has_a_complaint_where_it_has_one_of_its_own():
    failures = [{"component": "short block"}, {"component": "starter", "complaint": "It screams."}, {"cause": "Bent."}]
    said = text_of(draw(a_claim(failure=failures), layout=a_layout(sections=["story"])))
    assert [said.count(words) for words in ("Complaint Not given.", "Complaint It screams.", " Complaint ")] == [
        1,
        1,
        2,
    ]
