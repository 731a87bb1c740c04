"""The whole unit for two years, leaving out the battery, which has a year of its own."""

from __future__ import annotations

import pytest
from written_terms import assessed

BOOKLET = """
[[window]]
id = "unit"
covers = ["*"]
except = ["battery"]
period = "P2Y"

[[window]]
id = "battery"
covers = ["battery"]
period = "P1Y"
"""


def judged(component: str, presented: str) -> tuple[str, str]:
    """The verdict, and the window cited or the one that a miss is told of."""
    claim = f"""
dates = {{purchased = 2024-03-14, presented = {presented}}}
failure = {{component = "{component}", defect = "material"}}
"""
    found = assessed(BOOKLET, claim)
    return found.verdict, found.window.id if found.window else found.headline.key


@pytest.mark.parametrize(
    ("component", "presented", "answer"),
    [
        ("engine", "2025-03-15", ("covered", "unit")),
        ("battery", "2025-03-13", ("covered", "battery")),
        ("battery", "2025-03-14", ("covered", "battery")),
        ("battery", "2025-03-15", ("not covered", "answer.not-covered-late")),
        ("batery", "2025-03-15", ("undecided", "answer.undecided-word")),
    ],
)
def test_what_a_window_leaves_out_is_left_to_its_own(component, presented, answer):
    assert judged(component, presented) == answer
