"""An hour is paid by class of operation, by the dealer's level, and by the day of the repair."""

from __future__ import annotations

import pytest
from booklets import notes, totals, under

BOOKLET = """
operation = [ {code = "block", hours = "1.6", class = "engine"}, {code = "grip", hours = "0.5"} ]
[pays]
labour_rate = "92.00"
labour_rates = [
    {class = "engine", rate = "98.00"},
    {class = "engine", level = "gold", rate = "110.00"},
    {level = "gold", rate = "102.00"},
    {from = 2026-02-24, rate = "95.00"},
]
"""
GOLD = {"retail": {"levels": {"halden": "Gold"}}}


def repair(operation: str, repaired: str = "2026-02-24", entry: str = "") -> str:
    return f"""
labour = [ {{operation = "{operation}"{entry}}} ]
dates = {{repaired = {repaired}}}
"""


@pytest.mark.parametrize(
    ("operation", "shop", "claimed"),
    [
        ("block", {}, "156.80"),  # 1.6 h x 98.00, though 95.00 is in force
        ("block", GOLD, "176.00"),  # 1.6 h x 110.00
        ("grip", GOLD, "51.00"),  # 0.5 h x 102.00
        ("grip", {}, "47.50"),  # 0.5 h x 95.00
    ],
)
def test_the_narrowest_rate_that_fits_counts(operation, shop, claimed):
    assert totals(under(BOOKLET, repair(operation), **shop), "labour") == (claimed,)


@pytest.mark.parametrize(
    ("repaired", "claimed"),
    [("2026-02-23", "46.00"), ("2026-02-24", "47.50"), ("2026-02-25", "47.50")],  # 0.5 h x 92.00, then x 95.00
)
def test_a_rate_counts_from_its_day_of_repair_on(repaired, claimed):
    assert totals(under(BOOKLET, repair("grip", repaired)), "labour") == (claimed,)


def test_labour_outside_the_schedule_may_name_its_class():
    # 1.0 h x 98.00
    found = under(BOOKLET, repair("hone the bore", entry=', hours = "1.0", class = "Engine"'))
    assert totals(found, "labour") == ("98.00",)


def test_the_line_says_which_rate_it_was():
    assert notes(under(BOOKLET, repair("block"), **GOLD))[-1] == (
        "An hour of engine labour is paid 110.00 to a dealer of level gold."
    )


def test_a_level_nobody_gave_is_asked_for():
    assert "missing.dealer-level" in [item.what.key for item in under(BOOKLET, repair("block")).missing]


def test_a_level_that_is_known_is_not_asked_for():
    assert "missing.dealer-level" not in [item.what.key for item in under(BOOKLET, repair("block"), **GOLD).missing]
