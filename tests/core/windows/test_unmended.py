"""A year from 2025-03-01 whose end does not count for a failure that a repair within it did not mend.

The year ends on 2026-03-01; 30 days after a repair of 2026-02-20 is 2026-03-22.
"""

from __future__ import annotations

import pytest
from written_terms import assessed

from claimpack.core.facts.cases import EarlierRepair

BOOKLET = """
repair_time_extends = {by = "calendar", unmended_within = "P30D", cites = "p. 4"}

[[window]]
id = "unit"
covers = ["engine", "starter"]
period = "P1Y"
"""
STAY = "presented = 2026-02-20, repaired = 2026-02-20, returned = 2026-02-20"
FIRST = f'component = "engine", mended = false, {STAY}'


def judged(presented: str, *earlier: str, component: str = "engine", more: str = "", plan: str = BOOKLET):
    """The verdict, what is asked for, and what is said of repairs that did not mend it."""
    found = assessed(
        plan,
        f"""
earlier = [{", ".join(f"{{{each}}}" for each in earlier)}]
dates = {{purchased = 2025-03-01, presented = {presented}{more}}}
failure = {{component = "{component}"}}
""",
    )
    keys = [reason.says.key for reason in found.windows[0].reasons if reason.says.key.startswith("repair.")]
    return found.verdict, found.asks, keys


def test_a_makers_own_word_is_cited_without_the_caution_of_law():
    assert judged("2026-03-22", FIRST) == ("covered", (), ["repair.unmended-by"])


def test_what_came_back_has_no_last_day_of_cover_until_it_is_mended():
    dates = "dates = {purchased = 2025-03-01, presented = 2026-03-22}"
    found = assessed(BOOKLET, f'earlier = [{{{FIRST}}}]\n{dates}\nfailure = {{component = "engine"}}')
    assert (found.window.ends, found.headline.key) == (None, "answer.covered-unmended")


def test_a_part_that_lives_on_what_was_left_is_not_refused_beside_it():
    assert judged("2026-03-22", FIRST, plan="replaced = {}" + BOOKLET)[0] == "covered"


def test_while_cover_is_open_nothing_is_asked_of_the_repair():
    assert judged("2026-03-01", f'component = "engine", {STAY}') == ("covered", (), [])


def test_a_unit_told_of_in_time_is_not_over_however_late_it_is_repaired():
    plan = 'judged_on = "repaired"' + BOOKLET
    assert judged("2026-03-20", FIRST, more=", repaired = 2026-05-30", plan=plan)[0] == "covered"


@pytest.mark.parametrize(("presented", "verdict"), [("2026-05-09", "covered"), ("2026-05-10", "not covered")])
def test_a_second_repair_in_time_that_did_not_mend_it_either_keeps_it_open_again(presented, verdict):
    second = (
        'component = "engine", mended = false, presented = 2026-03-20, repaired = 2026-04-09, returned = 2026-04-09'
    )
    assert judged(presented, FIRST, second)[0] == verdict


def test_a_second_repair_that_mended_it_closes_it_again():
    second = 'component = "engine", mended = true, presented = 2026-03-20, repaired = 2026-03-21, returned = 2026-03-21'
    assert judged("2026-03-22", FIRST, second)[0] == "not covered"


def test_the_day_it_came_in_for_a_second_repair_is_asked_where_it_decides():
    second = 'component = "engine", mended = false, repaired = 2026-04-09, returned = 2026-04-09'
    assert judged("2026-04-20", FIRST, second)[:2] == ("undecided", ("earlier.presented",))


def test_a_word_for_the_repaired_component_that_the_plan_does_not_know_is_asked_about():
    strange = FIRST.replace('"engine"', '"engine unit"')
    assert judged("2026-03-20", strange)[:2] == ("undecided", ("earlier.component",))


def test_a_repair_of_a_component_not_known_that_mended_it_closes_nothing_for_sure():
    strange = 'component = "engine unit", mended = true, presented = 2026-03-05, repaired = 2026-03-06'
    told = FIRST + ", told = 2026-03-01"
    assert judged("2026-05-01", told, strange + ", returned = 2026-03-06")[:2] == ("undecided", ("earlier.component",))


def test_a_day_told_later_than_it_was_brought_in_again_counts_for_nothing():
    assert judged("2026-03-20", FIRST + ", told = 2026-04-01")[0] == "covered"


def test_of_two_rules_the_longer_time_to_tell_counts():
    shorter = 'repair_time_extends = {by = "calendar", unmended_within = "P10D"}'
    assert judged("2026-03-22", FIRST, plan=BOOKLET + shorter)[0] == "covered"


def test_the_component_that_failed_is_asked_for_before_whether_a_repair_mended_it():
    assert judged("2026-03-22", f'component = "engine", {STAY}', component="")[1] == ("failure.component",)


LIMITS = (
    'hours = "100"',
    'limits = [{meter = "cycles", at = "500"}]',
    'scheduled = [{component = "engine", hours = 100}]',
)


@pytest.mark.parametrize("limit", LIMITS, ids=["hours", "another meter", "renewal"])
@pytest.mark.parametrize("presented", ["2026-03-01", "2026-03-22"], ids=["before its date", "past its date"])
@pytest.mark.parametrize(
    ("repair", "found"),
    [
        (FIRST, ("undecided", ("unmended_within",))),
        (FIRST.replace("mended = false, ", ""), ("undecided", ("earlier.mended",))),
        (FIRST.replace("false", "true"), ("not covered", ())),
        (FIRST + ', hours = "101", meters = [{kind = "cycles", value = "501"}]', ("not covered", ())),
    ],
    ids=["not mended", "nobody said", "mended", "past the limit then"],
)
def test_whether_a_limit_by_meter_ends_what_a_repair_did_not_mend_is_left_open(limit, presented, repair, found):
    unit = '\nunit = {hours = "101", meters = [{kind = "cycles", value = "501"}]}'
    claim = f"earlier = [{{{repair}}}]\ndates = {{purchased = 2025-03-01, presented = {presented}}}"
    told = assessed(BOOKLET + limit, claim + unit + '\nfailure = {component = "engine"}')
    assert (told.verdict, told.asks) == found


@pytest.mark.parametrize(
    ("keys", "says"),
    [({"told": "2026-02-19"}, "before repaired"), ({"told": "2026-03-01", "mended": True}, "did not mend")],
)
def test_a_day_told_that_cannot_be_is_refused(keys, says):
    with pytest.raises(ValueError, match=says):
        EarlierRepair.model_validate({"component": "engine", "repaired": "2026-02-20", **keys})
