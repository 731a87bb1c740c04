from __future__ import annotations

import datetime as dt

import pytest
from running import NOW
from shop_builders import a_shop, happen, the_desk

from claimpack.commands.bench.time_doubts import doubts_about
from claimpack.core.facts.lines import Labour

WORKED = {"operation": "diagnose", "technician": "Ben", "started": "2026-03-01T08:00:00-05:00"}
UNTIL_NINE = {**WORKED, "ended": "2026-03-01T09:00:00-05:00"}


def from_half_past_eight(**changes):
    """Half an hour of Ben's that is about to go on the second claim."""
    times = {"started": "2026-03-01T08:30:00-05:00", "ended": "2026-03-01T09:00:00-05:00"}
    return Labour.model_validate({**WORKED, **times, **changes})


@pytest.fixture
def shop(tmp_path):
    """A shop where Ben worked on each of two claims from eight to nine."""
    return a_shop(tmp_path, "26-0001", "26-0002", labour=[UNTIL_NINE])


def test_work_beside_other_work_of_the_technician_is_doubted(shop):
    (doubt,) = doubts_about(the_desk(shop), "26-0002", from_half_past_eight())
    assert "26-0001" in doubt


def test_work_of_somebody_else_is_not_doubted(shop):
    assert doubts_about(the_desk(shop), "26-0002", from_half_past_eight(technician="Ana")) == []


def test_work_on_withdrawn_claims_does_not_count(shop):
    for number in ("26-0001", "26-0002"):
        happen(shop, number, "withdrawn")
    assert doubts_about(the_desk(shop), "26-0002", from_half_past_eight()) == []


def test_a_clock_that_runs_is_work_until_now_unless_it_is_the_one_that_stops(tmp_path):
    desk = the_desk(a_shop(tmp_path))
    desk.book.start_clock("Ben", "26-0001", "diagnose", NOW - dt.timedelta(hours=2))
    (clock,) = desk.book.clocks()
    assert len(doubts_about(desk, "26-0001", from_half_past_eight())) == 1
    assert doubts_about(desk, "26-0001", from_half_past_eight(), stops=clock) == []


def test_more_hours_than_anybody_works_are_doubted(tmp_path):
    long = Labour.model_validate({"operation": "diagnose", "technician": "Ben", "hours": "17"})
    assert len(doubts_about(the_desk(a_shop(tmp_path)), "26-0001", long)) == 1
