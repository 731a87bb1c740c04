from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from claimpack.commands.world import World

NOON = datetime(2026, 11, 1, 12, 0, tzinfo=ZoneInfo("America/New_York"))


@pytest.mark.parametrize(("fold", "offset"), [(0, "-04:00"), (1, "-05:00")])
def test_a_time_shown_twice_is_chosen_by_its_fold(fold, offset):
    wall = datetime(2026, 11, 1, 1, 30, fold=fold)  # noqa: DTZ001
    assert World(clock=NOON).shown(wall).isoformat() == f"2026-11-01T01:30:00{offset}"


def test_a_time_that_clocks_skipped_comes_out_as_another():
    wall = datetime(2026, 3, 8, 2, 30)  # noqa: DTZ001
    assert World(clock=NOON).shown(wall).isoformat() == "2026-03-08T03:30:00-04:00"


def test_by_the_machines_own_clock_a_time_gets_an_offset():
    wall = datetime(2026, 3, 2, 12, 0)  # noqa: DTZ001
    assert World().shown(wall).utcoffset() is not None
