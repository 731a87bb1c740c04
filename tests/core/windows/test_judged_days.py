from datetime import date

import pytest
from builders import a_claim, a_plan

from claimpack.core.windows.judged_days import before_the_sale, event_day


@pytest.mark.parametrize(
    ("role", "on"),
    [("presented", date(2026, 2, 5)), ("failed", date(2026, 2, 2)), ("repaired", date(2026, 2, 24))],
)
def test_the_plan_says_which_day_a_claim_is_judged_on(role, on):
    assert event_day(a_claim(), a_plan(judged_on=role)).on == on


def test_a_day_to_judge_on_that_is_not_given_is_asked_for():
    assert event_day(a_claim(dates__repaired=None), a_plan(judged_on="repaired")).reason.asks == "dates.repaired"


@pytest.mark.parametrize(("registered", "is_before"), [("2025-03-13", True), ("2025-03-14", False), (None, False)])
def test_a_registration_on_the_day_of_the_sale_is_not_before_it(registered, is_before):
    assert before_the_sale(a_claim(dates__registered=registered).dates) is is_before


@pytest.mark.parametrize(
    ("role", "dates", "between"),
    [
        ("repaired", {"returned": "2026-02-20"}, ("2026-02-05", "2026-02-20")),
        ("repaired", {}, ("2026-02-05", "9999-12-31")),
        ("failed", {}, ("2025-03-14", "2026-02-05")),
        ("failed", {"in_service": "2025-04-01"}, ("2025-04-01", "2026-02-05")),
    ],
    ids=["repaired", "repaired, not ready", "failed", "failed in use"],
)
def test_a_day_to_judge_on_that_is_not_given_lies_between_those_that_are(role, dates, between):
    changes = {f"dates__{name}": day for name, day in dates.items()}
    claim = a_claim(**{f"dates__{role}": None}, **changes)
    found = event_day(claim, a_plan(judged_on=role))
    assert (str(found.earliest), str(found.latest)) == between
