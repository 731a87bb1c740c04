"""Cover that is paid in full at first and in part later: by steps, or by the whole months left."""

from __future__ import annotations

import pytest
from booklets import notes, told, totals, under

STEPS = """
[[window]]
id = "battery"
name = "battery warranty"
covers = ["*"]
period = "P36M"
shares = [ {until = "P12M", maker = "1"}, {until = "P24M", maker = "0.50"}, {until = "P36M", maker = "0.25"} ]
[pays]
labour_rate = "92.00"
parts_handling = "0.20"
"""
MONTHS = """
[[window]]
id = "battery"
name = "battery warranty"
covers = ["*"]
period = "P36M"
shares = {full_until = "P12M", of = "P36M"}
"""


def battery(presented: str, cost: str = "99.99") -> str:
    """A battery bought on 2023-01-31."""
    return f"""
dates = {{purchased = 2023-01-31, delivered = 2023-01-31, failed = 2023-02-01, presented = {presented}}}
parts = [ {{name = "battery", unit_cost = "{cost}"}} ]
"""


@pytest.mark.parametrize(
    ("presented", "parts", "handling", "owner"),
    [
        ("2024-01-31", "99.99", "20.00", "0.00"),  # the last day of 12 months
        ("2024-02-01", "50.00", "10.00", "59.99"),  # 99.99 x 0.50 = 49.995; the line is 119.99 in all
        ("2025-01-31", "50.00", "10.00", "59.99"),
        ("2025-02-01", "25.00", "5.00", "89.99"),  # 99.99 x 0.25 = 24.9975
        ("2026-01-31", "25.00", "5.00", "89.99"),  # the last day of all
    ],
)
def test_a_step_is_paid_up_to_its_last_day(presented, parts, handling, owner):
    assert totals(under(STEPS, battery(presented)), "parts", "handling", "owner") == (parts, handling, owner)


@pytest.mark.parametrize(
    ("presented", "parts"),
    [
        ("2024-01-31", "360.00"),  # month 12 is paid in full
        ("2024-02-29", "230.00"),  # month 13, which ends on that day: 23 of 36
        ("2024-03-01", "220.00"),  # month 14: 22 of 36
        ("2025-01-31", "120.00"),  # month 24: 12 of 36
        ("2025-12-31", "10.00"),  # month 35: 1 of 36
        ("2026-01-01", "0.00"),  # month 36: none is left
    ],
)
def test_by_months_the_whole_months_left_are_paid(presented, parts):
    # 360.00 / 36 = 10.00 for each month left
    assert totals(under(MONTHS, battery(presented, "360.00")), "parts") == (parts,)


def test_both_halves_of_a_line_say_why():
    found = under(STEPS, battery("2024-02-01"))
    why = "battery warranty pays 50 % of it until 2025-01-31."
    assert (notes(found, 1), notes(found, 2)) == ([why], [why, "Handling of 10.00 is in it."])


def test_the_months_left_are_told():
    assert notes(under(MONTHS, battery("2024-02-29"))) == [
        "battery warranty pays 23 / 36 of it, by the whole months left on 2024-02-29."
    ]


def test_labour_is_shared_as_parts_are():
    # 0.5 h x 92.00 = 46.00, half of it
    found = under(STEPS, battery("2024-02-01") + 'labour = [ {operation = "fit", hours = "0.5"} ]')
    assert told(found)[2:] == [("fit", "23.00", "0.00", "maker"), ("fit", "23.00", "0.00", "owner")]


def test_a_share_comes_before_a_cap():
    # freight 80.00, half of it 40.00, of which 30.00; the owner pays 40.00, the shop 10.00
    plan = STEPS + 'extras = [ {kind = "freight", cap = "30.00"} ]'
    extra = 'extras = [ {what = "freight", kind = "freight", amount = "80.00"} ]'
    found = under(plan, battery("2024-02-01", "0") + extra)
    assert totals(found, "extras", "owner", "shop") == ("30.00", "40.00", "10.00")


def test_the_rest_falls_to_the_shop_where_the_plan_says_so():
    found = under(STEPS.replace("shares =", 'rest = "shop"\nshares ='), battery("2024-02-01"))
    assert totals(found, "owner", "shop") == ("0.00", "59.99")


def test_of_two_open_windows_the_one_that_pays_most_counts():
    more = '[[window]]\nid = "law"\ncovers = ["*"]\nperiod = "P18M"\nshares = [ {until = "P18M", maker = "0.80"} ]'
    assert totals(under(STEPS + more, battery("2024-02-01", "100.00")), "parts") == ("80.00",)


@pytest.mark.parametrize(
    ("presented", "key"), [("2024-01-31", None), ("2024-02-01", "price.share"), ("2026-01-31", "price.share")]
)
def test_the_share_on_the_day_judged_stands_beside_the_headline(presented, key):
    share = under(STEPS, battery(presented)).share
    assert (share and share.key) == key


def test_that_an_open_window_pays_nothing_any_more_stands_beside_the_headline():
    found = under(STEPS.replace("P36M", "P48M", 1), battery("2026-02-01"))
    assert (found.verdict, found.share.key) == ("covered", "price.share-over")


def test_where_windows_share_kinds_of_line_differently_each_kind_is_told():
    law = '[[window]]\nid = "law"\ncovers = ["*"]\nperiod = "P18M"\npays = ["labour"]'
    share = under(STEPS + law, battery("2024-02-01")).share
    assert share.facts == {"parts": "50 %", "labour": "100 %", "extras": "50 %"}


def test_what_is_estimated_while_the_verdict_is_open_goes_by_the_share_of_the_day_judged():
    # registered in time it would last a year longer, in which nothing is paid any more
    may_be_longer = STEPS.replace("shares =", 'registered_within = "P30D"\nregistered_adds = "P1Y"\nshares =')
    found = under(may_be_longer, battery("2026-02-01"))
    assert (found.verdict, *totals(found, "parts")) == ("undecided", "0.00")


@pytest.mark.parametrize(
    ("presented", "key", "until"),
    [
        ("2024-02-02", "price.share-full-moved", "2024-02-02"),
        ("2024-02-03", "price.share-moved", "2025-02-02"),
    ],
)
def test_a_share_whose_last_day_repair_time_moved_says_so(presented, key, until):
    # in repair on 2023-06-01 and 2023-06-02, so that the year ends on 2024-02-02 instead of 2024-01-31
    stay = 'earlier = [ {component = "starter", presented = 2023-06-01, repaired = 2023-06-02, returned = 2023-06-02} ]'
    found = under('repair_time_extends = "calendar"\n' + STEPS, stay + battery(presented))
    why = found.price.lines[0].notes[0]
    assert (why.key, why.facts["until"], why.facts["days_period"]) == (key, until, "P2D")


def test_where_nothing_moved_it_a_full_share_says_nothing():
    assert notes(under(STEPS, battery("2024-01-31"))) == []


STAY = 'earlier = [ {component = "starter", presented = 2023-06-01, repaired = 2023-06-02} ]'
"""A stay in repair that is not said to be over, so that the year may end later than on 2024-02-02."""


@pytest.mark.parametrize(
    ("presented", "key", "parts", "asked"),
    [
        ("2024-02-02", "price.share-full-moved", "99.99", False),
        ("2024-02-03", "price.share-or-more", "50.00", True),  # half of it is certain; it may be all
        ("2026-02-02", "price.share-or-more", "25.00", True),
    ],
)
def test_a_share_that_a_day_not_given_may_raise_is_paid_at_least_and_the_day_asked_for(presented, key, parts, asked):
    found = under('repair_time_extends = "calendar"\n' + STEPS, STAY + battery(presented))
    assert (found.share.key, *totals(found, "parts")) == (key, parts)
    missing = [item.what.facts["named"] for item in found.missing if item.what.key == "missing.share"]
    assert missing == (["earlier[1].returned"] if asked else [])


def test_a_share_whose_last_day_a_day_not_given_may_move_is_told_until_then_at_least():
    # in from 2024-02-05 until the 6th or later: two days at least, which 24 months are longer
    stay = 'earlier = [ {component = "starter", presented = 2024-02-05, repaired = 2024-02-06} ]'
    found = under('repair_time_extends = "calendar"\n' + STEPS, stay + battery("2024-02-10"))
    assert (found.share.key, found.share.facts["until"]) == ("price.share-open", "2025-02-02")


def test_the_days_of_the_repair_at_hand_move_a_share_judged_on_its_last_day():
    # 12 months end on 2024-01-31; in the shop from 2024-01-20 until it was repaired on 2024-02-10
    judged = 'judged_on = "repaired"\nrepair_time_extends = "calendar"\n' + STEPS
    claim = battery("2024-01-20").replace("}\n", ", repaired = 2024-02-10}\n", 1)
    assert totals(under(judged, claim), "parts", "owner") == ("99.99", "0.00")


def test_a_share_is_told_until_the_window_ends_where_that_ends_first():
    # a second owner has 18 months from the second sale, so until 2025-07-31, of shares that go on to 2026-01-31
    second = 'owners = {then = "P18M"}\nshares ='
    claim = battery("2025-02-01").replace("failed", "resold = 2024-01-31, failed")
    share = under(STEPS.replace("shares =", second), claim + "owner = {first_owner = false}").share
    assert (share.key, share.facts["until"]) == ("price.share", "2025-07-31")
