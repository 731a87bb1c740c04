"""Travel at 0.65 a mile, of a visit 65.00 and 120 miles at most; or at a price a visit."""

from __future__ import annotations

import pytest
from booklets import notes, told, totals, under

BOOKLET = """
[pays]
extras = [ {kind = "travel", per = "0.65", of = "mile", most = "65.00", most_distance = "120"} ]
"""
A_VISIT = '[pays]\nextras = [ {kind = "travel", per = "45.00", of = "visit", cap = "80.00"} ]'


def visit(*distances: str) -> str:
    drives = (f'{{what = "service call", kind = "travel", distance = "{one}"}}' for one in distances)
    return f"extras = [{', '.join(drives)}]"


def asked(found) -> list[str]:
    return [item.what.key for item in found.missing]


@pytest.mark.parametrize(
    ("distance", "maker", "shop"),
    [
        ("34", "22.10", "0.00"),  # 34 x 0.65
        ("34.5", "22.43", "0.00"),  # 34.5 x 0.65 = 22.425
        ("100", "65.00", "0.00"),  # 100 x 0.65
        ("101", "65.00", "0.65"),  # 65.65, of which 65.00
        ("130", "65.00", "19.50"),  # 130 x 0.65 = 84.50: beyond 120 miles 6.50, above the most 78.00 - 65.00 = 13.00
    ],
)
def test_a_distance_is_paid_by_the_mile_up_to_the_most(distance, maker, shop):
    assert totals(under(BOOKLET, visit(distance)), "extras", "shop") == (maker, shop)


@pytest.mark.parametrize(("distance", "lines"), [("119", 2), ("120", 2), ("121", 3)])
def test_the_last_mile_of_a_visit_leaves_nothing_beyond_it(distance, lines):
    assert len(under(BOOKLET, visit(distance)).price.lines) == lines


def test_the_most_is_for_each_visit():
    # 65.00 + 65.00
    assert totals(under(BOOKLET, visit("100", "100")), "extras", "shop") == ("130.00", "0.00")


def test_every_step_says_what_it_leaves_to_the_shop():
    assert [(line.amount, str(line.notes[-1])) for line in under(BOOKLET, visit("130")).price.lines[1:]] == [
        (13, "The plan pays up to 65.00 each time; this part of service call is above it."),
        (6.5, "The plan pays up to 120 miles of a visit; this part of service call is beyond it."),
    ]


def test_the_line_says_how_it_was_reckoned():
    assert notes(under(BOOKLET, visit("34"))) == ["34 x 0.65 a mile."]


def test_a_visit_may_have_a_price_of_its_own():
    # 45.00 + 45.00 = 90.00, of which 80.00
    found = under(A_VISIT, 'extras = [ {what = "call", kind = "travel"}, {what = "again", kind = "travel"} ]')
    assert told(found)[-1] == ("again", "10.00", "0.00", "shop")


def test_a_distance_is_asked_for_where_the_plan_pays_by_it():
    found = under(BOOKLET, 'extras = [ {what = "call", kind = "travel", amount = "60.00"} ]')
    assert "missing.extra-distance" in asked(found)


def test_an_amount_is_asked_for_where_no_rate_is_there_for_a_distance():
    found = under("", visit("34"))
    assert ("missing.extra-rate" in asked(found), totals(found, "extras")) == (True, ("0.00",))
