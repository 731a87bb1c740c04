from datetime import date

import pytest
from builders import a_plan, a_window

from claimpack.core.windows.judged_days import known_day
from claimpack.core.windows.presumed import presumed
from claimpack.core.windows.reasons import passes

PLAN = a_plan(window=[a_window(presumed_within="P1Y")])


@pytest.mark.parametrize(("on", "is_presumed"), [("2026-03-14", True), ("2026-03-15", False), ("2025-03-13", False)])
def test_a_fault_is_presumed_up_to_the_last_day_of_its_time(on, is_presumed):
    event = known_day(date.fromisoformat(on), passes("event", "event.on"))
    assert bool(presumed(PLAN, PLAN.window[0], date(2025, 3, 14), event)) is is_presumed
