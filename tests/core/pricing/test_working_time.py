from __future__ import annotations

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from builders import a_plan

from claimpack.core.facts.lines import Labour
from claimpack.core.pricing.working_time import (
    Stretch,
    at_one_time,
    long_in_words,
    must_fit_a_day,
    overlap_in_words,
    stretches,
)
from claimpack.core.values.clock import fixed
from claimpack.errors import BadInput

ASHBY = ZoneInfo("America/New_York")
PLAN = a_plan(
    operation=[
        {"code": "short-block", "hours": "1.6", "includes": ["starter"]},
        {"code": "starter", "hours": "0.3"},
        {"code": "coil", "hours": "0.5"},
    ]
)


def shown(wall):
    return fixed(wall.replace(tzinfo=ASHBY))


def at(clock, day=14):
    hour, minute = clock.split(":")
    return shown(datetime(2026, 3, day, int(hour), int(minute)))  # noqa: DTZ001


def work(started, ended, claim="26-0001", operation="coil", technician="ben"):
    return Stretch(claim, technician, operation, at(started), at(ended))


def stated(hours):
    return Labour(operation="coil", hours=hours)


def clocked(started, length):
    return Labour(operation="coil", started=at(started), ended=at(started) + length)


NEW = work("9:00", "10:00")


@pytest.mark.parametrize("hours", ["23.9", "24"])
def test_an_entry_may_fill_a_day(hours):
    assert must_fit_a_day(stated(hours), shown, "") is None


def test_stated_hours_beyond_a_day_are_refused():
    with pytest.raises(BadInput, match=r"--hours 24\.1 is more than one entry can have"):
        must_fit_a_day(stated("24.1"), shown, "")


def test_time_from_start_to_end_may_fill_a_day():
    assert must_fit_a_day(clocked("9:00", timedelta(hours=24)), shown, "") is None


def test_time_beyond_a_day_is_refused_as_the_clocks_showed_it():
    with pytest.raises(BadInput, match=r"2026-03-14 09:00 to 2026-03-15 09:01, 24 h 01 min, is more"):
        must_fit_a_day(clocked("9:00", timedelta(hours=24, minutes=1)), shown, "")


@pytest.mark.parametrize(("hours", "said"), [("15.9", ""), ("16", ""), ("16.1", "16.1 h is long for one entry.")])
def test_more_than_sixteen_hours_are_told(hours, said):
    assert long_in_words(stated(hours)) == said


def test_long_time_by_the_clock_is_told_by_the_clock():
    assert long_in_words(clocked("9:00", timedelta(hours=16, minutes=1))).startswith("16 h 01 min ")


def test_an_entry_that_says_no_time_is_neither_long_nor_refused():
    running = Labour(operation="coil", started=at("9:00"))
    assert (long_in_words(running), must_fit_a_day(running, shown, "")) == ("", None)


def test_a_clock_that_runs_is_no_stretch():
    assert stretches("26-0001", [Labour(operation="coil", started=at("9:00"))]) == []


def test_hours_alone_lie_at_no_time():
    assert stretches("26-0001", [stated("1"), clocked("9:00", timedelta(hours=1))])[0].started == at("9:00")


@pytest.mark.parametrize(
    ("started", "ended", "found"),
    [
        ("8:00", "9:00", 0),
        ("8:00", "9:01", 1),
        ("9:15", "9:30", 1),
        ("8:00", "11:00", 1),
        ("9:59", "11:00", 1),
        ("10:00", "11:00", 0),
    ],
    ids=["up to it", "into it", "inside", "around", "out of it", "from its end on"],
)
def test_work_at_one_time_shares_more_than_a_moment(started, ended, found):
    assert len(at_one_time(NEW, [work(started, ended, "26-0002")], None)) == found


def test_another_technician_may_work_at_the_same_time():
    assert at_one_time(NEW, [work("9:00", "10:00", technician="ann")], None) == []


def test_a_name_is_the_same_in_other_capitals():
    assert len(at_one_time(NEW, [work("9:00", "10:00", "26-0002", technician="Ben")], None)) == 1


@pytest.mark.parametrize(("operation", "found"), [("starter", 0), ("coil", 1), ("painting", 1)])
def test_on_one_claim_an_operation_may_be_inside_one_that_includes_it(operation, found):
    block = work("8:00", "12:00", operation="short-block")
    assert len(at_one_time(block, [work("9:00", "9:20", operation=operation)], PLAN)) == found


def test_an_operation_that_includes_another_may_be_around_it():
    starter = work("9:00", "9:20", operation="starter")
    assert at_one_time(starter, [work("8:00", "12:00", operation="short-block")], PLAN) == []


def test_work_outside_the_schedule_is_inside_no_operation():
    painting = work("9:00", "9:20", operation="painting")
    assert len(at_one_time(painting, [work("8:00", "12:00", operation="short-block")], PLAN)) == 1


def test_work_of_nobody_named_lies_at_one_time_with_nothing():
    nobody = work("9:00", "10:00", technician="")
    assert at_one_time(nobody, [work("9:00", "10:00", "26-0002", technician="")], None) == []


def test_what_lies_at_one_time_is_told_by_its_start_the_earliest_first():
    others = [work("9:30", "9:40", "26-0003"), work("9:10", "9:20", "26-0002")]
    assert [each.claim for each in at_one_time(NEW, others, None)] == ["26-0002", "26-0003"]


def test_on_two_claims_it_may_not():
    block = work("8:00", "12:00", operation="short-block")
    assert len(at_one_time(block, [work("9:00", "9:20", "26-0002", "starter")], PLAN)) == 1


def test_a_time_without_a_zone_is_the_shops_own():
    bare = datetime(2026, 3, 14, 9, 30)  # noqa: DTZ001
    other = Stretch("26-0002", "ben", "coil", bare, bare + timedelta(hours=1))
    assert at_one_time(NEW, [other], None) == [other]


def test_what_lies_at_one_time_is_told_with_claim_operation_and_time():
    told = overlap_in_words(NEW, [work("9:30", "10:20", "26-0002")], shown)
    assert told == "ben works on something else at that time: claim 26-0002, coil, 2026-03-14 09:30 to 10:20."


def test_work_on_the_same_claim_is_told_as_such():
    assert "this claim, coil, 2026-03-14 09:30 to 10:20" in overlap_in_words(NEW, [work("9:30", "10:20")], shown)


def test_a_running_clock_is_told_by_its_start():
    running = work("9:30", "10:20", "26-0002")._replace(runs=True)
    assert "a clock that runs since 2026-03-14 09:30" in overlap_in_words(NEW, [running], shown)


def test_of_many_at_one_time_three_are_told():
    others = [work("9:30", f"10:{minute}", "26-0002") for minute in range(10, 15)]
    assert overlap_in_words(NEW, others, shown).endswith(" and 2 more.")


def test_nothing_at_the_same_time_is_not_told():
    assert overlap_in_words(NEW, [], shown) == ""
