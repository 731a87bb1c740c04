"""A booklet that knows farm use: a year at home, six months on a farm."""

from __future__ import annotations

import pytest
from written_terms import assessed

BOOKLET = """
[[window]]
id = "home"
covers = ["*"]
uses = ["household"]
period = "P1Y"

[[window]]
id = "farm"
covers = ["*"]
uses = ["farm"]
period = "P6M"
"""


def judged(use: str, presented: str = "2024-09-14") -> str:
    claim = f'unit = {{model = "CS-70", use = "{use}"}}\ndates = {{purchased = 2024-03-14, presented = {presented}}}'
    return assessed(BOOKLET, claim).verdict


@pytest.mark.parametrize(
    ("presented", "verdict"), [("2024-09-13", "covered"), ("2024-09-14", "covered"), ("2024-09-15", "not covered")]
)
def test_any_word_of_the_plan_is_a_use(presented, verdict):
    assert judged("Farm", presented) == verdict


@pytest.mark.parametrize(
    ("use", "verdict"), [("household", "covered"), ("rental", "not covered"), ("church", "undecided")]
)
def test_a_use_no_window_is_for_is_refused_where_it_is_known_and_asked_about_where_it_is_not(use, verdict):
    assert judged(use) == verdict
