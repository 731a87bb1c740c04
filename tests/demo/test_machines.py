"""The invented shop's claims: real claims, the same for the same day, nobody in two places."""

import csv
import datetime as dt
from collections import Counter
from itertools import pairwise

import pytest

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.measurements import against_limits
from claimpack.demo.machines import COUNT, drawn_claims, last_day, own_files

TODAY = dt.date(2027, 5, 17)
CLAIMS = [Claim.model_validate(drawn.keys) for drawn in drawn_claims(TODAY)]


def test_there_are_as_many_as_are_promised_and_three_makers_have_them():
    assert len(CLAIMS) == COUNT
    assert len({claim.maker for claim in CLAIMS}) == 3


def test_each_has_a_number_of_its_own_in_the_order_they_came_in():
    assert sorted({claim.number for claim in CLAIMS}) == [claim.number for claim in CLAIMS]


def test_they_came_in_over_sixteen_months_and_none_lies_ahead():
    days = [claim.dates.presented for claim in CLAIMS]
    assert days == sorted(days)
    assert days[-1] <= TODAY
    assert 450 < (days[-1] - days[0]).days < 500


def test_no_technician_works_at_two_units_at_once():
    work = sorted((work.technician, work.started, work.ended) for claim in CLAIMS for work in claim.labour)
    assert all(before[0] != after[0] or before[2] <= after[1] for before, after in pairwise(work))


def test_the_same_day_draws_the_same_shop():
    assert [drawn.keys for drawn in drawn_claims(TODAY)] == [drawn.keys for drawn in drawn_claims(TODAY)]


@pytest.mark.parametrize("role", ["unit", "engine", "battery"])
def test_no_two_units_bear_one_serial(role):
    counts = Counter(serial.value for claim in CLAIMS for serial in claim.unit.serials if serial.role == role)
    assert max(counts.values()) == 1


def test_something_measured_shows_what_failed():
    assert not [claim.number for claim in CLAIMS if {against_limits(each) for each in claim.findings} == {"within"}]


def test_its_plans_hold_for_whatever_day_it_is():
    plans = [content for name, content in own_files().items() if name.startswith("coverage/")]
    assert len(plans) == 4
    assert not [plan for plan in plans if b"\nsold_" in plan]


def test_on_every_day_of_a_week_the_shop_is_told_up_to_the_same_sunday():
    sunday = dt.date(2026, 11, 29)
    assert {last_day(sunday + dt.timedelta(days=days)) for days in range(7)} == {sunday}


def test_every_row_of_a_parts_list_can_be_read():
    lists = {name: told.decode() for name, told in own_files().items() if name.startswith("parts/")}
    assert {len(row) for told in lists.values() for row in csv.reader(told.splitlines())} == {3}
