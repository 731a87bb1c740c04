"""Handling of parts that falls as they cost more: 30 % up to 50.00, 20 % up to 500.00, 10 % above."""

from __future__ import annotations

import pytest
from booklets import notes, told, totals, under

BOOKLET = """
[pays]
parts_handling = [ {up_to = "50.00", rate = "0.30"}, {up_to = "500.00", rate = "0.20"}, {rate = "0.10"} ]
"""


def repair(cost: str, quantity: str = "1") -> str:
    return f'parts = [ {{name = "part", quantity = "{quantity}", unit_cost = "{cost}"}} ]'


@pytest.mark.parametrize(
    ("cost", "handling"),
    [
        ("49.99", "15.00"),  # 49.99 x 0.30 = 14.997
        ("50.00", "15.00"),  # 50.00 x 0.30 = 15.00: the band's limit is in it
        ("50.01", "10.00"),  # 50.01 x 0.20 = 10.002
        ("500.00", "100.00"),
        ("500.01", "50.00"),  # 500.01 x 0.10 = 50.001
    ],
)
def test_the_band_of_the_unit_cost_gives_the_handling(cost, handling):
    assert told(under(BOOKLET, repair(cost)))[0][2] == handling


def test_the_band_goes_by_what_one_costs_not_by_the_line():
    # 3 x 45.00 = 135.00, each in the first band: 135.00 x 0.30 = 40.50
    found = under(BOOKLET, repair("45.00", "3"))
    assert totals(found, "parts", "handling", "claimed") == ("135.00", "40.50", "175.50")


def test_the_line_says_which_rate_it_was():
    assert notes(under(BOOKLET, repair("318.40"))) == ["Handling 20 % at a unit cost of 318.40."]
