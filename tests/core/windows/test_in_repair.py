"""A year from 2025-03-01 that days in repair lengthen: in from 2025-06-10 to 2025-06-24, which are 15 days.

The year ends on 2026-03-01; 15 days later is 2026-03-16.
"""

from __future__ import annotations

import pytest
from written_terms import assessed

BOOKLET = """
repair_time_extends = "calendar"

[[window]]
id = "unit"
covers = ["*"]
period = "P1Y"
"""
JUNE = 'component = "starter", repaired = 2025-06-20, presented = 2025-06-10, returned = 2025-06-24'
SEPTEMBER = 'component = "engine", repaired = 2025-09-02, presented = 2025-09-01, returned = 2025-09-03'


def judged(presented: str, *earlier: str, plan: str = BOOKLET, more: str = "") -> tuple[str, str, tuple[str, ...]]:
    """The verdict, the last day of the window, and what is asked for."""
    claim = f"""
earlier = [{", ".join(f"{{{each}}}" for each in earlier)}]
dates = {{purchased = 2025-03-01, presented = {presented}{more}}}
failure = {{component = "engine"}}
"""
    found = assessed(plan, claim)
    return found.verdict, str(found.windows[0].ends), found.asks


@pytest.mark.parametrize(
    ("presented", "verdict"), [("2026-03-15", "covered"), ("2026-03-16", "covered"), ("2026-03-17", "not covered")]
)
def test_each_day_in_repair_lengthens_the_window_by_one(presented, verdict):
    assert judged(presented, JUNE) == (verdict, "2026-03-16", ())


def test_every_repair_counts_whatever_it_was_of():
    assert judged("2026-03-19", JUNE, SEPTEMBER)[:2] == ("covered", "2026-03-19")


def test_a_day_counts_once():
    assert judged("2026-03-16", JUNE, JUNE)[1] == "2026-03-16"


def test_a_repair_within_the_days_that_another_added_counts():
    late = 'component = "starter", repaired = 2026-03-10, presented = 2026-03-10, returned = 2026-03-11'
    assert judged("2026-03-18", JUNE, late)[:2] == ("covered", "2026-03-18")


def told_stays(*earlier: str, rule: str = "", presented: str = "2026-01-15") -> list[tuple[str, str, str]]:
    """What is said of days in repair: by whose word, how many, and which."""
    plan = BOOKLET.replace('"calendar"', f'{{by = "calendar"{rule}}}')
    days = f"dates = {{purchased = 2025-03-01, presented = {presented}}}"
    claim = f'earlier = [{", ".join(f"{{{each}}}" for each in earlier)}]\n{days}\nfailure = {{component = "engine"}}'
    told = [reason.says for reason in assessed(plan, claim).windows[0].reasons if "stays" in reason.says.facts]
    return [(says.key, says.facts["days_period"], says.facts["stays"]) for says in told]


def out(presented: str, returned: str) -> str:
    return f'component = "starter", presented = {presented}, repaired = {presented}, returned = {returned}'


@pytest.mark.parametrize(
    ("earlier", "days", "stays"),
    [
        ([JUNE], "P15D", "2025-06-10 – 2025-06-24"),
        ([JUNE, JUNE], "P15D", "2025-06-10 – 2025-06-24"),
        ([JUNE, out("2025-09-02", "2025-09-02")], "P16D", "2025-06-10 – 2025-06-24, 2025-09-02"),
        ([out("2025-02-20", "2025-03-01")], "P1D", "2025-03-01"),
        ([JUNE, out("2026-03-16", "2026-03-16")], "P16D", "2025-06-10 – 2025-06-24, 2026-03-16"),
        ([JUNE, out("2026-03-17", "2026-03-17")], "P15D", "2025-06-10 – 2025-06-24"),
    ],
    ids=["one", "the same twice", "one of a day", "begun before cover", "on the last day", "after it"],
)
def test_the_days_in_repair_are_told_with_the_stays_that_they_are_counted_in(earlier, days, stays):
    assert told_stays(*earlier, presented="2026-04-20") == [("repair-time.adds", days, stays)]


@pytest.mark.parametrize("stay", [("2025-02-20", "2025-02-28"), ("2026-03-02", "2026-03-09")])
def test_of_a_stay_that_lengthens_nothing_nothing_is_said(stay):
    assert told_stays(out(*stay), presented="2026-04-01") == []


@pytest.mark.parametrize(
    ("rule", "key"),
    [
        (', cites = "p. 4"', "repair-time.adds-by"),
        (', cites = "Code 1", read_on = 2026-11-25', "repair-time.by-law"),
    ],
)
def test_what_says_that_days_in_repair_count_is_cited(rule, key):
    assert [says[0] for says in told_stays(JUNE, rule=rule)] == [key]


def test_a_repair_after_the_end_adds_nothing():
    late = 'component = "starter", repaired = 2026-03-20, presented = 2026-03-17, returned = 2026-03-21'
    assert judged("2026-04-01", JUNE, late)[:2] == ("not covered", "2026-03-16")


def test_a_day_not_given_of_a_repair_after_the_end_leaves_nothing_open():
    claim = """
earlier = [{component = "starter", repaired = 2026-03-20, presented = 2026-03-17}]
dates = {purchased = 2025-03-01, presented = 2026-04-01}
failure = {component = "engine"}
"""
    found = assessed(BOOKLET, claim).windows[0]
    assert (found.reasons[-1].says.key, found.rests_on) == ("age.outside", None)


def test_the_days_of_the_repair_at_hand_count_once_it_is_over():
    assert judged("2026-02-20", more=", returned = 2026-02-24") == ("covered", "2026-03-06", ())


@pytest.mark.parametrize(
    ("presented", "verdict"), [("2026-02-28", "covered"), ("2026-03-01", "covered"), ("2026-03-02", "not covered")]
)
def test_cover_does_not_end_while_the_unit_is_in_repair(presented, verdict):
    plan = 'judged_on = "repaired"' + BOOKLET
    assert judged(presented, plan=plan, more=", repaired = 2026-05-01")[0] == verdict


@pytest.mark.parametrize(
    ("earlier", "asks"),
    [
        ('component = "starter", repaired = 2025-06-20', "earlier.presented"),
        ('component = "starter", repaired = 2025-06-20, presented = 2025-06-10', "earlier.returned"),
    ],
)
def test_a_day_that_is_not_given_is_asked_for_where_it_may_decide(earlier, asks):
    assert judged("2026-03-16", earlier)[::2] == ("undecided", (asks,))


def test_a_day_that_is_not_given_does_not_matter_inside_the_window():
    assert judged("2026-03-01", 'component = "starter", repaired = 2025-06-20')[::2] == ("covered", ())


def test_a_window_may_have_it_alone():
    plan = BOOKLET.replace('repair_time_extends = "calendar"\n', "") + 'repair_time_extends = "calendar"\n'
    other = '[[window]]\nid = "other"\ncovers = ["engine"]\nperiod = "P1Y"\n'
    ends = [
        str(window.ends)
        for window in assessed(
            plan + other,
            f"""
earlier = [{{{JUNE}}}]
dates = {{purchased = 2025-03-01, presented = 2025-12-01}}
failure = {{component = "engine"}}
""",
        ).windows
    ]
    assert ends == ["2026-03-16", "2026-03-01"]


@pytest.mark.parametrize(
    ("place", "found"),
    [
        ("US-CA", ("covered", "2026-03-16", ())),
        ("US-OR", ("not covered", "2026-03-01", ())),
        ("", ("undecided", "2026-03-01", ("unit.sold_in",))),
    ],
)
def test_it_may_be_for_units_sold_somewhere(place, found):
    plan = BOOKLET.replace('"calendar"', '{by = "calendar", sold_in = ["US-CA"]}')
    claim = f"""
earlier = [{{{JUNE}}}]
unit = {{sold_in = "{place}"}}
dates = {{purchased = 2025-03-01, presented = 2026-03-16}}
failure = {{component = "engine"}}
"""
    assessment = assessed(plan, claim)
    assert (assessment.verdict, str(assessment.windows[0].ends), assessment.asks) == found


@pytest.mark.parametrize(
    ("presented", "verdict"), [("2026-03-22", "covered"), ("2026-03-23", "covered"), ("2026-03-24", "not covered")]
)
def test_a_part_put_in_has_its_own_days_in_repair(presented, verdict):
    # 200 days from 2025-09-02 end on 2026-03-21; the 2nd and the 3rd of September add two.
    plan = BOOKLET + '[replaced]\nperiod = "P200D"\n'
    assert judged(presented, SEPTEMBER, plan=plan)[0] == verdict


def test_a_part_put_in_leaves_it_open_while_its_days_are():
    plan = BOOKLET + '[replaced]\nperiod = "P200D"\n'
    earlier = 'component = "engine", repaired = 2025-09-02, presented = 2025-09-01'
    assert judged("2026-03-23", earlier, plan=plan)[::2] == ("undecided", ("earlier.returned",))


@pytest.mark.parametrize(
    ("stay", "days"),
    [
        (JUNE, ("2025-09-16", "2025-09-17")),
        (JUNE.replace(", returned = 2025-06-24", ""), ("2025-09-12", "2025-09-13")),
    ],
    ids=["every day given", "as far as days are certain"],
)
def test_shares_by_age_are_moved_as_well(stay, days):
    plan = BOOKLET + 'shares = [{until = "P6M", maker = "1"}, {until = "P1Y", maker = "0.5"}]\n'
    claim = """
earlier = [{%s}]
dates = {purchased = 2025-03-01, presented = %s}
failure = {component = "engine"}
parts = [{name = "ring", unit_cost = "10.00"}]
"""
    paid = [str(assessed(plan, claim % (stay, day)).amounts.parts) for day in days]
    assert paid == ["10.00", "5.00"]


def test_a_last_day_that_a_day_not_given_may_move_is_told_as_the_earliest_with_that_day():
    claim = """
earlier = [ {component = "starter", repaired = 2025-06-20, presented = 2025-06-10} ]
dates = {purchased = 2025-03-01, presented = 2026-01-15}
failure = {component = "engine"}
"""
    found = assessed(BOOKLET, claim)
    assert (found.headline.key, found.headline.facts["named"]) == ("answer.covered-at-least", "earlier[1].returned")
    assert found.window.reasons[-1].says.key == "age.inside-at-least"


@pytest.mark.parametrize(("returned", "key"), [(", returned = 2025-09-02", "span.inside"), ("", "age.inside-at-least")])
def test_a_replaced_part_whose_last_day_a_day_not_given_may_move_is_told_so(returned, key):
    repair = f'{{component = "engine", repaired = 2025-09-02, presented = 2025-09-01{returned}}}'
    claim = f"""
earlier = [{repair}]
dates = {{purchased = 2025-03-01, presented = 2025-09-20}}
failure = {{component = "engine"}}
"""
    found = assessed(BOOKLET + '[replaced]\nperiod = "P200D"\n', claim)
    assert found.windows[-1].reasons[-1].says.key == key


def test_of_a_replaced_part_s_days_in_repair_those_that_are_certain_are_told():
    repair = '{component = "engine", repaired = 2025-09-02, presented = 2025-09-01}'
    claim = f"earlier = [{repair}]\ndates = {{purchased = 2025-03-01, presented = 2025-09-20}}"
    found = assessed(BOOKLET + '[replaced]\nperiod = "P200D"\n', f'{claim}\nfailure = {{component = "engine"}}')
    told = [reason.says.facts for reason in found.windows[-1].reasons if "stays" in reason.says.facts]
    assert [(facts["days_period"], facts["stays"]) for facts in told] == [("P1D", "2025-09-02")]


@pytest.mark.parametrize(
    ("use", "found"),
    [
        ("household", ("covered", "2026-03-16", ())),
        ("rental", ("not covered", "2026-03-01", ())),
        (None, ("undecided", "2026-03-01", ("unit.use",))),
    ],
)
def test_it_may_be_for_some_uses(use, found):
    unit = f'unit = {{use = "{use}"}}' if use else ""
    plan = BOOKLET.replace('"calendar"', '{by = "calendar", uses = ["household"]}')
    claim = f"""
earlier = [{{{JUNE}}}]
{unit}
dates = {{purchased = 2025-03-01, presented = 2026-03-16}}
failure = {{component = "engine"}}
"""
    assessment = assessed(plan, claim)
    assert (assessment.verdict, str(assessment.windows[0].ends), assessment.asks) == found
