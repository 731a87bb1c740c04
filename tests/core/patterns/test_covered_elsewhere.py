"""A mower whose engine is warranted by the engine's own maker, and its starter by both."""

from __future__ import annotations

import pytest
from written_terms import assessed

from claimpack.core.judging.assessment_json import as_json

BOOKLET = """
[[elsewhere]]
components = ["engine", "starter"]
maker = "Ampelion"
because = "warranted by the engine's own maker"

[[window]]
id = "unit"
covers = ["*"]
period = "P2Y"

[[window]]
id = "starter"
covers = ["starter"]
period = "P1Y"

[words]
blade = []
"""


def judged(component: str, presented: str = "2025-03-14"):
    dates = f"dates = {{purchased = 2024-03-14, presented = {presented}}}"
    return assessed(BOOKLET, f'{dates}\nfailure = {{component = "{component}"}}')


@pytest.mark.parametrize(
    ("component", "verdict"),
    [("blade", "covered"), ("engine", "not covered"), ("starter", "covered"), ("engin", "undecided")],
)
def test_what_another_maker_covers_is_kept_only_where_a_window_names_it(component, verdict):
    assert judged(component).verdict == verdict


def test_where_nothing_holds_the_other_maker_is_named():
    told = as_json(judged("engine"))["elsewhere"]
    assert told == {"maker": "Ampelion", "because": "warranted by the engine's own maker"}


@pytest.mark.parametrize(("presented", "other"), [("2025-03-13", False), ("2025-03-14", False), ("2025-03-15", True)])
def test_a_component_both_cover_is_left_to_the_other_once_the_window_is_closed(presented, other):
    assert (judged("starter", presented).elsewhere is not None) is other


def test_of_a_component_nobody_else_covers_no_other_maker_is_named():
    assert as_json(judged("blade", "2027-01-01"))["elsewhere"] is None
