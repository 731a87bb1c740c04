"""A marine unit: two years, 500 h or 5000 cycles, whichever comes first, and a drive until the last of the same."""

from __future__ import annotations

import pytest
from written_terms import assessed

BOOKLET = """
[[window]]
id = "unit"
covers = ["*"]
except = ["drive"]
period = "P2Y"
hours = 500
limits = [ {meter = "cycles", at = "5000"} ]

[[window]]
id = "drive"
covers = ["drive"]
period = "P2Y"
limits = [ {meter = "hours", at = "500"}, {meter = "cycles", at = "5000"} ]
whichever = "last"

[words]
engine = []
"""
SECOND_YEAR, THIRD_YEAR = "2026-03-14", "2026-03-15"


def judged(component: str, presented: str, hours: str, cycles: str):
    return assessed(
        BOOKLET,
        f"""
unit = {{meters = [ {{kind = "hours", {hours}}}, {{kind = "cycles", {cycles}}} ]}}
dates = {{purchased = 2024-03-14, presented = {presented}}}
failure = {{component = "{component}", defect = "material"}}
""",
    )


@pytest.mark.parametrize(
    ("cycles", "verdict"),
    [
        ('value = "4999"', "covered"),
        ('value = "5000"', "covered"),
        ('value = "5001"', "not covered"),
        ("fitted = false", "covered"),
    ],
)
def test_the_first_of_two_meters_and_the_period_closes_a_window(cycles, verdict):
    assert judged("engine", SECOND_YEAR, 'value = "100"', cycles).verdict == verdict


@pytest.mark.parametrize(("hours", "verdict"), [("499.9", "covered"), ("500", "covered"), ("500.1", "not covered")])
def test_the_last_of_two_meters_and_the_period_closes_a_window(hours, verdict):
    assert judged("drive", THIRD_YEAR, f'value = "{hours}"', 'value = "6000"').verdict == verdict


def test_inside_its_period_no_reading_closes_a_window_that_waits_for_the_last():
    assert judged("drive", SECOND_YEAR, 'value = "900"', 'value = "6000"').verdict == "covered"


def test_a_window_that_waits_for_the_last_has_no_last_day():
    found = judged("drive", THIRD_YEAR, 'value = "12.0"', 'value = "6000"')
    assert (found.window.ends, found.days_left, found.deadlines) == (None, None, ())


def test_without_its_meters_a_window_that_waits_for_the_last_ends_with_its_period():
    assert judged("drive", THIRD_YEAR, "fitted = false", "fitted = false").verdict == "not covered"


def test_a_replaced_meter_carries_the_old_reading():
    # 12.0 after a meter replaced at 830.5 counts 842.5, and 900 - 842.5 = 57.5 are left
    found = assessed(
        BOOKLET.replace("hours = 500", "hours = 900"),
        """
unit = {meters = [ {kind = "hours", value = "12.0", replaced_at = "830.5"}, {kind = "cycles", value = "4100"} ]}
dates = {purchased = 2024-03-14, presented = 2025-03-14}
failure = {component = "engine"}
""",
    )
    left = [(each.meter, str(each.left)) for each in found.limits_left]
    assert (found.verdict, left) == ("covered", [("hours", "57.5"), ("cycles", "900")])
