"""Two years; a second owner has six months from the second sale, if the maker was told within 30 days, for 25.00.

Bought on 2024-03-14 and sold again on 2024-07-20, so told in time by 2024-08-19 and covered until 2025-01-20.
"""

from __future__ import annotations

import pytest
from written_terms import assessed

BOOKLET = """
[[window]]
id = "unit"
covers = ["*"]
period = "P2Y"
owners = {transfer_within = "P30D", fee = "25.00", then = "P6M"}
"""
REST = BOOKLET.replace(', then = "P6M"', "")


def judged(presented: str, days: str, plan: str = BOOKLET, first: str = "") -> tuple[str, str, tuple[str, ...]]:
    """The verdict, the last day of the window, and what is asked for."""
    claim = f"""
owner = {{{first}}}
dates = {{purchased = 2024-03-14, presented = {presented}{days}}}
failure = {{component = "engine"}}
"""
    found = assessed(plan, claim)
    return found.verdict, str(found.windows[0].ends), found.asks


TOLD = ", resold = 2024-07-20, transferred = 2024-08-01"


@pytest.mark.parametrize(
    ("presented", "verdict"), [("2025-01-19", "covered"), ("2025-01-20", "covered"), ("2025-01-21", "not covered")]
)
def test_a_second_owner_has_a_period_of_their_own(presented, verdict):
    assert judged(presented, TOLD) == (verdict, "2025-01-20", ())


@pytest.mark.parametrize(
    ("told", "verdict"), [("2024-08-18", "covered"), ("2024-08-19", "covered"), ("2024-08-20", "not covered")]
)
def test_the_maker_must_be_told_in_time(told, verdict):
    assert judged("2024-12-01", f", resold = 2024-07-20, transferred = {told}")[0] == verdict


def test_the_first_owner_has_the_whole_window():
    assert judged("2026-03-14", "", first="first_owner = true") == ("covered", "2026-03-14", ())


def test_without_a_period_of_their_own_a_second_owner_has_what_is_left():
    assert judged("2026-03-14", TOLD, REST) == ("covered", "2026-03-14", ())


def test_the_period_of_a_second_owner_ends_no_later_than_the_window():
    sold_late = ", resold = 2026-01-20, transferred = 2026-01-21"
    assert judged("2026-03-15", sold_late) == ("not covered", "2026-03-14", ())


def test_a_sale_after_the_unit_came_in_is_of_no_account():
    sold_since = ", resold = 2025-06-02"
    assert judged("2025-06-01", sold_since, first="first_owner = true") == ("covered", "2026-03-14", ())


@pytest.mark.parametrize(
    ("days", "first", "asks"),
    [
        ("", "", ("owner.first_owner",)),
        ("", "first_owner = false", ("dates.resold",)),
        (", resold = 2024-07-20", "", ("dates.transferred",)),
        (", resold = 2024-07-20, transferred = 2024-07-19", "", ("dates.transferred",)),
    ],
    ids=["which owner", "when it was sold", "when the maker was told", "told before the sale"],
)
def test_what_is_not_given_is_asked_for(days, first, asks):
    assert judged("2024-12-01", days, first=first)[::2] == ("undecided", asks)


def test_a_second_sale_nobody_dated_is_asked_for_where_the_maker_need_not_be_told_of_it():
    plan = BOOKLET.replace('transfer_within = "P30D", ', "")
    assert judged("2024-12-01", "", plan, first="first_owner = false")[::2] == ("undecided", ("dates.resold",))


@pytest.mark.parametrize(
    ("resold", "told"), [("2024-03-14", True), ("2024-07-20", True), ("2026-01-20", False)], ids=str
)
def test_a_second_owner_s_own_period_is_told_where_it_ends_the_window(resold, told):
    dates = f"{{purchased = 2024-03-14, presented = 2026-03-10, resold = {resold}, transferred = {resold}}}"
    claim = f"owner = {{}}\ndates = {dates}"
    keys = [reason.says.key for reason in assessed(BOOKLET, claim).windows[0].reasons]
    assert ("owner.then" in keys) is told


@pytest.mark.parametrize(("earlier", "told"), [("", 0), ('{component = "starter", repaired = 2024-06-01}', 1)])
def test_what_an_earlier_repair_adds_is_told_where_there_was_one(earlier, told):
    plan = '[[window]]\nid = "unit"\ncovers = ["*"]\nperiod = "P2Y"\nrepair_adds = "P6M"\n'
    claim = f"earlier = [{earlier}]\ndates = {{purchased = 2024-03-14, presented = 2026-03-10}}"
    keys = [reason.says.key for reason in assessed(plan, claim).windows[0].reasons]
    assert keys.count("repair.adds") == told


def told_with_a_repair_perhaps_inside(judged_on: str) -> dict[str, str]:
    """What is said of the age, with its length: a second owner's to 2025-01-20, a year's to 2025-03-14 at least.

    50 days in repair count for units sold in one place alone; a repair on a day that only they would let in adds half a
    year.
    """
    plan = 'repair_time_extends = {by = "calendar", sold_in = ["US-CA"]}\n' + BOOKLET.replace("P2Y", "P1Y")
    claim = f"""
owner = {{}}
dates = {{purchased = 2024-03-14, failed = 2024-07-01, presented = 2025-04-20, returned = 2025-04-20{TOLD}}}
earlier = [
    {{component = "starter", presented = 2024-03-10, repaired = 2024-03-10, returned = 2024-05-02}},
    {{component = "starter", presented = 2025-04-01, repaired = 2025-04-01, returned = 2025-04-01}},
]
"""
    found = assessed(f'judged_on = "{judged_on}"\n{plan}repair_adds = "P6M"\n', claim).windows[0]
    return {reason.says.key: reason.says.facts.get("length_period", "") for reason in found.reasons}


def test_a_repair_while_cover_may_have_been_open_is_not_told_as_adding_to_it():
    assert {"age.outside", "repair.adds"} & told_with_a_repair_perhaps_inside("presented").keys() == {"age.outside"}


def test_a_repair_while_cover_may_have_been_open_makes_it_no_longer_where_that_decides_nothing():
    assert told_with_a_repair_perhaps_inside("failed")["age.inside"] == "P1Y"


def test_nothing_is_asked_for_where_the_window_is_over_for_everybody():
    assert judged("2026-03-15", "")[::2] == ("not covered", ())


@pytest.mark.parametrize(
    ("presented", "ends"), [("2024-04-01", "2024-09-14"), ("2024-12-01", "None"), ("2026-03-15", "None")]
)
def test_a_last_day_that_rests_on_a_second_sale_nobody_dated_is_told_where_cover_is_open_in_any_case(presented, ends):
    assert judged(presented, "")[1] == ends


@pytest.mark.parametrize(
    ("window", "plan", "ends"),
    [("", "", "2026-03-14"), ("day-before", "", "2026-03-13"), ("", "day-before", "2026-03-13")],
    ids=["nothing is said", "the window says so", "the plan says so"],
)
def test_a_window_or_its_plan_may_end_on_the_day_before(window, plan, ends):
    own, whole = (f'last_day = "{said}"\n' if said else "" for said in (window, plan))
    assert judged("2025-03-01", "", f"{whole}{REST}{own}", first="first_owner = true")[1] == ends


def test_the_fee_is_told():
    found = assessed(BOOKLET, f"owner = {{}}\ndates = {{purchased = 2024-03-14, presented = 2024-12-01{TOLD}}}")
    fee = next(reason for reason in found.reasons if reason.says.key == "owner.fee")
    assert (fee.outcome, fee.says.facts["fee"]) == ("pass", "25.00 USD")


def test_a_second_sale_lies_after_the_day_of_delivery_where_that_is_the_later_one():
    # six months from the delivery at the earliest end on 2024-12-20
    delivered = ", delivered = 2024-06-20, transferred = 2024-07-01"
    plan = BOOKLET.replace('transfer_within = "P30D", ', "")
    assert judged("2024-12-20", delivered, plan, first="first_owner = false")[0] == "covered"
