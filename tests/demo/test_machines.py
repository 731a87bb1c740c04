"""The invented shop's claims: real claims, the same for the same day, nobody in two places."""

import csv
import datetime as dt
import tomllib
from collections import Counter
from functools import cache
from itertools import pairwise

import pytest

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.measurements import against_limits
from claimpack.demo.machines import COUNT, drawn_claims, last_day, own_files

TODAY = dt.date(2027, 5, 17)


@cache
def told():
    """The keys and the story of every claim."""
    return [(drawn.keys, drawn.story) for drawn in drawn_claims(TODAY)]


@cache
def claims():
    return [Claim.model_validate(keys) for keys, _ in told()]


def test_there_are_as_many_as_are_promised_and_three_makers_have_them():
    assert len(claims()) == COUNT
    assert len({claim.maker for claim in claims()}) == 3


def test_each_has_a_number_of_its_own_in_the_order_they_came_in():
    assert [claim.number for claim in claims()] == [f"Q-{nth:03}" for nth in range(1, 121)]


def test_they_came_in_over_sixteen_months_and_none_lies_ahead():
    days = [claim.dates.presented for claim in claims()]
    assert days == sorted(days)
    assert days[-1] <= TODAY
    assert 450 < (days[-1] - days[0]).days < 500


def test_no_technician_works_at_two_units_at_once():
    work = sorted((work.technician, work.started, work.ended) for claim in claims() for work in claim.labour)
    assert all(before[0] != after[0] or before[2] <= after[1] for before, after in pairwise(work))


def test_the_same_day_draws_the_same_shop():
    assert [drawn.keys for drawn in drawn_claims(TODAY)] == [drawn.keys for drawn in drawn_claims(TODAY)]


@pytest.mark.parametrize("role", ["unit", "engine", "battery"])
def test_no_two_units_bear_one_serial(role):
    counts = Counter(serial.value for claim in claims() for serial in claim.unit.serials if serial.role == role)
    assert max(counts.values()) == 1


def test_something_measured_shows_what_failed():
    assert not [claim.number for claim in claims() if {against_limits(each) for each in claim.findings} == {"within"}]


def test_its_plans_hold_for_whatever_day_it_is():
    plans = [content for name, content in own_files().items() if name.startswith("coverage/")]
    assert len(plans) == 4
    assert not [plan for plan in plans if b"\nsold_" in plan]
    assert len({tomllib.loads(plan.decode())["name"] for plan in plans}) == 4


def test_on_every_day_of_a_week_the_shop_is_told_up_to_the_same_sunday():
    sunday = dt.date(2026, 11, 29)
    assert {last_day(sunday + dt.timedelta(days=days)) for days in range(7)} == {sunday}


def test_every_row_of_a_parts_list_can_be_read():
    lists = {name: told.decode() for name, told in own_files().items() if name.startswith("parts/")}
    assert {len(row) for told in lists.values() for row in csv.reader(told.splitlines())} == {3}


DAY = dt.timedelta(days=1)


def test_the_last_unit_came_in_two_days_ago_and_the_desk_is_busier_towards_the_end():
    days = [claim.dates.presented for claim in claims()]
    assert days[-1] == TODAY - 2 * DAY
    assert 2 + 119 * 483 * 239 // (2 * 120 * 120) <= (TODAY - days[0]).days <= 479
    middle = days[0] + (days[-1] - days[0]) / 2
    assert 1.4 < sum(day > middle for day in days) / sum(day <= middle for day in days) < 2.5


def test_nobody_brings_or_repairs_a_unit_on_a_sunday():
    days = [claim.dates.presented for claim in claims()] + [claim.dates.repaired for claim in claims()]
    assert {day.isoweekday() for day in days if day} == {1, 2, 3, 4, 5, 6}


def test_a_unit_fails_a_few_days_before_it_comes_in():
    assert {(claim.dates.presented - claim.dates.failed) / DAY for claim in claims()} == {0, 1, 2, 3, 4}


def test_a_unit_is_repaired_within_twelve_days_and_never_today_or_later():
    took = {(claim.dates.repaired - claim.dates.presented) / DAY for claim in claims() if claim.dates.repaired}
    assert took == set(range(13))
    assert max(claim.dates.repaired for claim in claims() if claim.dates.repaired) < TODAY


def test_a_unit_whose_repair_would_end_today_is_still_in_the_shop():
    days = (TODAY + nth * DAY for nth in range(6))
    assert all(drawn.repaired is None or drawn.repaired < day for day in days for drawn in drawn_claims(day))


def test_what_is_not_repaired_yet_has_no_cause_no_work_and_no_held_part():
    waiting = [claim for claim in claims() if claim.dates.repaired is None]
    assert waiting
    assert not [claim for claim in waiting if claim.labour or claim.held or claim.parts or claim.failure.cause]


@pytest.mark.parametrize("nth", range(16, COUNT, 17))
def test_every_seventeenth_owner_comes_more_than_three_years_after_the_purchase(nth):
    dates = claims()[nth].dates
    assert (dates.presented - dates.purchased).days == 1200 == (dates.presented - dates.registered).days


def test_all_others_bought_their_unit_as_long_before_as_their_story_says():
    for nth, (keys, story) in enumerate(told()):
        if nth % 17 != 16 and "purchased" in keys["dates"]:
            days = (keys["dates"]["presented"] - keys["dates"]["purchased"]).days
            assert 30 * story["months"][0] <= days <= 30 * story["months"][1]


def test_two_of_the_last_eight_have_no_day_of_purchase():
    assert [nth + 1 for nth, claim in enumerate(claims()) if claim.dates.purchased is None] == [113, 117]


def test_a_household_has_a_first_name_and_one_of_many_family_names_and_a_firm_its_own():
    households = {claim.owner.name for claim in claims() if claim.unit.use == "household"}
    assert len(households) > 40
    assert {len(name.split()) for name in households} == {2}
    assert {claim.owner.name for claim in claims() if claim.unit.use == "rental"} <= {"Thornfield Rentals"}


@pytest.mark.source("555-0100 to 555-0199 are set aside for stories; NANPA, 555 line numbers; from memory")
def test_every_phone_number_is_one_that_nobody_has():
    phones = {claim.owner.phone for claim in claims()}
    assert all(phone.startswith("555-01") and 1 <= int(phone[-2:]) <= 98 for phone in phones)
    assert len(phones) > 30


def test_an_owner_always_lives_at_one_number_of_a_street():
    homes = {(claim.owner.name, claim.owner.address) for claim in claims()}
    assert len(homes) == len({name for name, _ in homes})
    assert {int(address.split()[0]) for _, address in homes} <= set(range(1, 61))


def test_a_meter_is_read_where_the_story_has_hours():
    assert {("hours" in story, keys["unit"]["meter"], "hours" in keys["unit"]) for keys, story in told()} == {
        (True, True, True),
        (False, False, False),
    }
    for keys, story in told():
        if "hours" in story:
            assert story["hours"][0] <= float(keys["unit"]["hours"]) <= story["hours"][1]


def test_every_owner_is_the_first():
    assert {claim.owner.first_owner for claim in claims()} == {True}


def test_a_held_part_is_boxed_and_drained_unless_it_is_a_battery():
    held = [part for claim in claims() for part in claim.held]
    assert {(part.boxed, part.drained) for part in held if part.hazard != "lithium battery"} == {(True, True)}
    assert {(part.boxed, part.drained) for part in held if part.hazard == "lithium battery"} == {(True, False)}


def test_no_two_gauges_read_the_same_but_all_about_as_the_story_says():
    read = [
        (finding["value"], said["value"])
        for keys, story in told()
        for finding, said in zip(keys["findings"], story["findings"], strict=True)
    ]
    words = {pair for pair in read if not pair[1].replace(".", "").isdecimal()}
    assert words
    assert all(value == said for value, said in words)
    measured = [pair for pair in read if pair not in words]
    assert len(set(measured)) > len(measured) / 3
    for value, said in measured:
        assert 0.95 <= float(value) / float(said) <= 1.05
        assert len(value.partition(".")[2]) == len(said.partition(".")[2]) + 1


def test_work_begins_when_the_shop_opens_and_takes_about_as_long_as_the_story_says():
    for keys, story in told():
        for clocked, (operation, minutes) in zip(keys.get("labour", []), story["labour"], strict=False):
            assert clocked["operation"] == operation
            assert minutes - 3 <= (clocked["ended"] - clocked["started"]).seconds / 60 <= minutes + 4
            assert clocked["started"].time() >= dt.time(8, 5)
            assert clocked["started"].date() == keys["dates"]["repaired"]


def test_between_two_works_a_technician_has_a_few_minutes():
    work = sorted((work.technician, work.started, work.ended) for claim in claims() for work in claim.labour)
    pauses = {
        (after[1] - before[2]).seconds // 60
        for before, after in pairwise(work)
        if before[0] == after[0] and before[1].date() == after[1].date()
    }
    assert (min(pauses), max(pauses)) == (4, 25)


def test_a_number_is_drawn_from_its_pattern():
    for keys, story in told():
        for serial in keys["unit"]["serials"]:
            pattern = story["serials"][serial["role"]]
            assert len(serial["value"]) == len(pattern)
            assert all(
                is_one == sign or (sign == "#" and is_one.isdigit())
                for is_one, sign in zip(serial["value"], pattern, strict=True)
            )
