from datetime import date

import pytest
from builders import a_claim, a_plan

from claimpack.core.windows.judged_days import event_day


@pytest.mark.parametrize(
    ("role", "on"),
    [("presented", date(2026, 2, 5)), ("failed", date(2026, 2, 2)), ("repaired", date(2026, 2, 24))],
)
def test_the_plan_says_which_day_a_claim_is_judged_on(role, on):
    assert event_day(a_claim(), a_plan(judged_on=role)).on == on


def test_a_day_to_judge_on_that_is_not_given_is_asked_for():
    assert event_day(a_claim(dates__repaired=None), a_plan(judged_on="repaired")).reason.asks == "dates.repaired"
