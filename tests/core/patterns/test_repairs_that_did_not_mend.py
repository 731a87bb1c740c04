"""A maker's words for a failure that comes back, written as a plan."""

from __future__ import annotations

import pytest
from written_terms import assessed

BOOKLET = """
# "If a warranty repair does not correct the defect and you tell us within 60 days after it, we complete the repair even
# though the warranty has ended. A different defect is covered by the warranty period alone."
repair_time_extends = {by = "calendar", unmended_within = "P60D"}

[[window]]
id = "unit"
covers = ["engine", "starter"]
period = "P2Y"
"""


@pytest.mark.parametrize(
    ("repair", "verdict"),
    [
        ('component = "engine", mended = false', "covered"),
        ('component = "engine", mended = true', "not covered"),
        ('component = "starter", mended = false', "not covered"),
        ('component = "engine"', "undecided"),
    ],
    ids=["the same came back", "mended", "of another component", "nobody said"],
)
def test_what_a_repair_did_not_correct_is_completed_after_the_period(repair, verdict):
    stay = "presented = 2026-04-20, repaired = 2026-04-24, returned = 2026-04-24"
    claim = f"""
dates = {{purchased = 2024-05-04, presented = 2026-06-20}}
failure = {{component = "engine"}}
earlier = [{{{repair}, {stay}}}]
"""
    assert assessed(BOOKLET, claim).verdict == verdict
