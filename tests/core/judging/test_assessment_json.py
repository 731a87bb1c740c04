from decimal import Decimal

import pytest
from assessed_claims import assessed
from builders import TODAY, a_claim, a_plan, a_window

from claimpack.core.judging.assessment import Circumstances, assess
from claimpack.core.judging.assessment_json import as_json


def test_scripts_read_the_keys_that_were_promised():
    found = as_json(assessed())
    assert {
        key: found[key] for key in ("verdict", "window", "starts", "ends", "judged_on", "days_left", "complete")
    } == {
        "verdict": "covered",
        "window": "engine",
        "starts": "2025-03-14",
        "ends": "2026-03-14",
        "judged_on": "2026-02-05",
        "days_left": 37,
        "complete": True,
    }


def test_money_and_hours_are_text_for_scripts():
    found = as_json(assessed(a_plan(window=[a_window(hours="300")]), unit__hours="112.4"))
    assert (found["hours_left"], found["windows"][0]["hours_limit"], found["amounts"]["claimed"]) == (
        "187.6",
        "300",
        "0.00",
    )


def test_what_does_not_apply_is_null_for_scripts():
    found = as_json(assessed(maker="other"))
    assert [found[key] for key in ("plan", "window", "ends", "days_left", "hours_left", "amounts")] == [None] * 6


def test_a_day_to_file_that_is_past_is_told_to_scripts():
    plan = a_plan(filing={"within": "P1D"})
    assert as_json(assessed(plan))["late"] == {"file_by": "2026-02-25", "days": 4}


@pytest.mark.parametrize(
    ("paid", "said"),
    [
        ("60.00", "Resubmitted; 60.00 USD was paid before, 40.00 USD is asked for."),
        ("120.00", "Resubmitted; 120.00 USD was paid before, 0.00 USD is asked for."),
        ("0", "Resubmitted; nothing was paid before."),
    ],
)
def test_a_claim_sent_again_says_what_was_paid_and_what_is_asked_for(paid, said):
    claim = a_claim(parts=[{"name": "Block", "unit_cost": "100.00"}])
    found = assess(claim, [a_plan()], TODAY, Circumstances(paid_before=Decimal(paid)))
    assert as_json(found)["sent_again"] == said


def test_a_claim_sent_for_the_first_time_says_nothing_of_it():
    assert "sent_again" not in as_json(assess(a_claim(), [a_plan()], TODAY))


def test_a_reason_names_the_fact_it_asks_for():
    asked = as_json(assessed(a_plan(window=[a_window(uses=["household"])]), unit__use=None))
    assert {reason["asks"] for reason in asked["reasons"]} == {None, "unit.use"}


def test_a_reason_names_the_window_it_is_of_and_one_told_once_for_all_none():
    assert [reason["window"] for reason in as_json(assessed())["reasons"]] == [None, None, None, "engine", "engine"]
