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


def test_a_place_of_sale_not_given_is_told_as_what_the_last_day_rests_on_where_a_rule_is_for_one_place():
    longer = BOOKLET.replace("}", '}, {by = "calendar", unmended_within = "P60D", sold_in = ["US-CA"]}]', 1)
    plan = longer.replace("extends = {", "extends = [{")
    dates = "dates = {purchased = 2025-03-01, presented = 2026-03-10}"
    found = assessed(plan, f'earlier = [{{{FIRST}}}]\n{dates}\nfailure = {{component = "engine"}}').windows[0]
    assert (found.holds, found.rests_on.key) == (True, "unit.sold_in")


def test_the_component_that_failed_is_asked_for_before_whether_a_repair_mended_it():
    assert judged("2026-03-22", f'component = "engine", {STAY}', component="")[1] == ("failure.component",)


def engine(repaired: str, mended: str = "false", told: str = "", presented: str = "") -> str:
    """An earlier repair of the engine, in and out on one day unless it is said when it came in."""
    days = f"presented = {presented or repaired}, repaired = {repaired}, returned = {repaired}"
    return f'component = "engine", mended = {mended}, {days}' + (f", told = {told}" if told else "")


@pytest.mark.parametrize(("repaired", "verdict"), [("2025-02-28", "not covered"), ("2025-03-01", "covered")])
def test_a_repair_on_the_first_day_of_cover_keeps_it_open_and_one_before_it_does_not(repaired, verdict):
    assert judged("2026-04-20", engine(repaired, told="2025-03-20"))[0] == verdict


@pytest.mark.parametrize(
    ("repaired", "keys"),
    [
        ("2025-02-28", []),
        ("2025-03-01", ["repair.unmended-late"]),
        ("2026-03-01", ["repair.unmended-late"]),
        ("2026-03-02", []),
    ],
)
def test_a_repair_told_of_too_late_is_told_where_cover_was_open_on_its_day(repaired, keys):
    assert judged("2026-05-20", engine(repaired))[2] == keys


@pytest.mark.parametrize(("presented", "keys"), [("2026-03-02", []), ("2026-03-03", ["repair.unmended-late"])])
def test_a_repair_told_of_too_late_is_told_once_cover_is_over(presented, keys):
    # a day in repair makes the 2nd of March the last day
    assert judged(presented, engine("2025-06-05"))[2] == keys


def test_a_repair_before_cover_asks_for_no_word_where_the_days_of_another_decide():
    before = engine("2025-02-20", told="2025-02-21").replace('"engine"', '"engine unit"')
    other = 'component = "starter", presented = 2025-06-10, repaired = 2025-06-20'
    assert judged("2026-03-20", before, other)[:2] == ("undecided", ("earlier.returned",))


def test_a_repair_told_of_in_time_is_not_told_as_late_once_another_mended_it():
    second = engine("2026-03-21", "true", presented="2026-03-20")
    assert judged("2026-03-23", engine("2026-02-20"), second) == ("not covered", (), [])


def test_on_its_last_day_cover_still_has_that_day_as_its_last():
    dates = "dates = {purchased = 2025-03-01, presented = 2026-03-02}"
    found = assessed(BOOKLET, f'earlier = [{{{FIRST}}}]\n{dates}\nfailure = {{component = "engine"}}')
    assert str(found.windows[0].ends) == "2026-03-02"


SECOND = engine("2026-04-09", presented="2026-03-20")


def test_a_unit_brought_in_again_on_the_day_it_was_repaired_was_repaired_before():
    assert judged("2026-04-09", FIRST, SECOND)[0] == "covered"


@pytest.mark.parametrize(
    ("told", "found"),
    [("2026-03-22", ("covered", ())), ("2026-03-23", ("undecided", ("earlier.presented",)))],
    ids=["on the last day", "a day late"],
)
def test_the_day_it_came_in_again_is_not_asked_where_it_was_told_of_in_time(told, found):
    second = 'component = "engine", mended = false, repaired = 2026-04-09, returned = 2026-04-09'
    assert judged("2026-04-20", f"{FIRST}, told = {told}", second)[:2] == found


@pytest.mark.parametrize(
    ("failed", "repaired"), [("2026-04-08", "2026-02-20"), ("2026-04-09", "2026-04-09")], ids=["before", "on its day"]
)
def test_the_last_repair_up_to_the_day_judged_on_is_told_as_what_keeps_cover_open(failed, repaired):
    dates = f"dates = {{purchased = 2025-03-01, presented = 2026-04-20, failed = {failed}}}"
    claim = f'earlier = [{{{FIRST}}}, {{{SECOND}}}]\n{dates}\nfailure = {{component = "engine"}}'
    reasons = assessed('judged_on = "failed"' + BOOKLET, claim).windows[0].reasons
    told = [reason.says.facts["repaired"] for reason in reasons if reason.says.key == "repair.unmended-by"]
    assert told == [repaired]


OVER_HOURS = 'unit = {hours = "101"}\nfailure = {component = "engine"}\n'


@pytest.mark.parametrize(
    ("presented", "earlier", "verdict"),
    [
        ("2025-09-01", [engine("2025-02-28", told="2025-03-20")], "not covered"),
        ("2025-09-01", [engine("2025-03-01", told="2025-03-20")], "undecided"),
        ("2025-09-01", [engine("2025-03-01", told="2025-04-01")], "not covered"),
        ("2025-06-10", [engine("2025-06-01"), engine("2025-06-10", "true")], "undecided"),
        ("2025-06-11", [engine("2025-06-01"), engine("2025-06-10", "true")], "not covered"),
    ],
    ids=["before cover", "on its first day", "told late", "on the day it was mended", "the day after"],
)
def test_a_limit_by_meter_is_left_open_where_a_repair_would_keep_cover_open(presented, earlier, verdict):
    claim = f"earlier = [{', '.join(f'{{{each}}}' for each in earlier)}]\n{OVER_HOURS}"
    found = assessed(BOOKLET + 'hours = "100"', f"{claim}dates = {{purchased = 2025-03-01, presented = {presented}}}")
    assert found.verdict == verdict


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
