"""Worked examples of diesel engine cover in California, derived from 13 CCR 2425(b)(2), judged with the shipped sets.

The sections read give no rule for the last day; both conventions are tried where they differ.
"""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from pydantic import ValidationError

from claimpack.core.claims.claim import Claim
from claimpack.core.facts.keys import record_from
from claimpack.core.plans.plan import Plan, WindowSet
from claimpack.core.verdict.coverage import Judgement, judge
from claimpack.template_files import COVERAGE, Places, template

RULE = pytest.mark.source("13 CCR 2425(b)(2), derived")
OVER_19_KW, UNDER_19_KW = "us-ca-ci-19-kw-and-over", "us-ca-ci-under-19-kw"


def plan_with(statute: str, **changes: Any) -> Plan:
    """A plan whose own window is long closed, so that the statute alone decides."""
    own = {"id": "own", "covers": ["paint"], "period": "P1D"}
    plan = Plan.model_validate({"id": "plan", "maker": "maker", "currency": "USD", "window": [own], **changes})
    keys = template(COVERAGE, statute, Places()).keys
    return plan.with_windows_of(record_from(WindowSet, keys, statute))


def claim_of(delivered: str, failed: str, **unit: Any) -> Claim:
    """A claim for a fuel injector of a unit sold in California, brought in on the day it failed."""
    days = {"delivered": delivered, "failed": failed, "presented": failed}
    keys = {"model": "D-1", "sold_in": "US-CA", "serials": [{"role": "unit", "value": "1"}], **unit}
    return Claim.model_validate(
        {"number": "1", "maker": "maker", "unit": keys, "dates": days, "failure": {"component": "fuel injector"}}
    )


def judged(claim: Claim, statute: str = OVER_19_KW, **changes: Any) -> Judgement:
    return judge(claim, plan_with(statute, **changes))


def failed_rules(judgement: Judgement) -> list[str]:
    (window,) = [window for window in judgement.windows if window.id != "own"]
    return [reason.rule for reason in window.reasons if reason.outcome == "fail"]


@RULE
def test_inside_both_limits_is_covered():
    judgement = judged(claim_of("2021-06-15", "2026-06-14", hours="2999.9"))
    assert judgement.verdict == "covered"


@RULE
def test_the_same_date_is_the_last_day_where_the_same_date_counts():
    judgement = judged(claim_of("2021-06-15", "2026-06-15", hours="100"), last_day="anniversary")
    assert judgement.verdict == "covered"


@RULE
def test_the_same_date_is_too_late_where_the_day_before_is_the_last():
    judgement = judged(claim_of("2021-06-15", "2026-06-15", hours="100"), last_day="day-before")
    assert (judgement.verdict, failed_rules(judgement)) == ("not covered", ["age"])


@RULE
def test_the_day_before_the_same_date_is_inside_under_either_convention():
    claim = claim_of("2021-06-15", "2026-06-14", hours="100")
    assert judged(claim, last_day="anniversary").verdict == "covered"
    assert judged(claim, last_day="day-before").verdict == "covered"


@RULE
def test_a_day_past_five_years_is_refused_by_age():
    judgement = judged(claim_of("2021-06-15", "2026-06-16", hours="100"))
    assert (judgement.verdict, failed_rules(judgement)) == ("not covered", ["age"])


@RULE
def test_over_3000_hours_inside_five_years_is_refused_by_hours():
    judgement = judged(claim_of("2021-06-15", "2023-01-10", hours="3000.1"))
    assert (judgement.verdict, failed_rules(judgement)) == ("not covered", ["hours"])


@pytest.mark.practice
def test_a_reading_of_exactly_3000_hours_is_inside():
    assert judged(claim_of("2021-06-15", "2023-01-10", hours="3000.0")).verdict == "covered"


@RULE
def test_past_both_limits_both_are_listed():
    judgement = judged(claim_of("2021-06-15", "2026-06-16", hours="3200"))
    assert (judgement.verdict, failed_rules(judgement)) == ("not covered", ["age", "hours"])


@RULE
def test_without_an_hour_meter_age_alone_decides():
    judgement = judged(claim_of("2021-06-15", "2026-06-14", meter=False))
    assert judgement.verdict == "covered"


@RULE
def test_without_an_hour_meter_five_years_still_end():
    judgement = judged(claim_of("2021-06-15", "2026-06-16", meter=False))
    assert (judgement.verdict, failed_rules(judgement)) == ("not covered", ["age"])


@RULE
def test_a_blank_reading_of_a_fitted_meter_is_asked_for_never_taken_as_no_meter():
    judgement = judged(claim_of("2021-06-15", "2026-06-14", meter=True))
    asked = [reason.asks for window in judgement.windows for reason in window.reasons if reason.outcome == "unknown"]
    assert (judgement.verdict, asked) == ("undecided", ["unit.hours"])


@RULE
@pytest.mark.parametrize("convention", ["anniversary", "day-before"])
def test_two_years_from_a_leap_day_end_on_the_last_of_february(convention):
    claim = claim_of("2024-02-29", "2026-02-28", hours="10")
    judgement = judged(claim, UNDER_19_KW, last_day=convention)
    assert judgement.verdict == "covered"
    assert judgement.window.ends == date(2026, 2, 28)


@RULE
@pytest.mark.parametrize("convention", ["anniversary", "day-before"])
def test_two_years_from_a_leap_day_are_over_on_the_first_of_march(convention):
    judgement = judged(claim_of("2024-02-29", "2026-03-01", hours="10"), UNDER_19_KW, last_day=convention)
    assert judgement.verdict == "not covered"


@RULE
@pytest.mark.parametrize(("hours", "verdict"), [("1499.9", "covered"), ("1500", "covered"), ("1500.1", "not covered")])
def test_under_19_kw_1500_hours_are_the_limit(hours, verdict):
    assert judged(claim_of("2024-06-15", "2026-01-10", hours=hours), UNDER_19_KW).verdict == verdict


@pytest.mark.practice
def test_a_failure_before_delivery_is_an_input_error():
    with pytest.raises(ValidationError, match=r"dates\.failed 2021-06-14 is before dates\.delivered 2021-06-15"):
        claim_of("2021-06-15", "2021-06-14", hours="0")


@pytest.mark.source("13 CCR 2405(a): cover starts on delivery")
def test_where_only_the_purchase_is_known_the_day_of_delivery_is_asked_for():
    claim = claim_of("2021-06-15", "2026-06-14", hours="100")
    bought = claim.model_copy(
        update={"dates": claim.dates.model_copy(update={"delivered": None, "purchased": date(2021, 6, 10)})}
    )
    judgement = judged(bought)
    asked = [reason.asks for window in judgement.windows for reason in window.reasons if reason.rule == "start"]
    assert (judgement.verdict, asked) == ("undecided", ["dates.delivered"])


@RULE
@pytest.mark.parametrize(("day", "verdict"), [("2026-06-15", "covered"), ("2026-06-16", "not covered")])
def test_under_19_kw_without_an_hour_meter_two_years_alone_decide(day, verdict):
    assert judged(claim_of("2024-06-15", day, meter=False), UNDER_19_KW).verdict == verdict


@pytest.mark.source("40 CFR 1039.120(b), derived: 24 months by law, 36 free months of the maker's own")
def test_a_longer_cover_of_the_makers_own_is_the_one_that_is_cited():
    own = {"id": "own", "covers": ["*"], "period": "P36M"}
    judgement = judged(claim_of("2024-06-15", "2026-12-01", hours="10"), UNDER_19_KW, window=[own])
    assert (judgement.verdict, judgement.window.id, judgement.window.ends) == ("covered", "own", date(2027, 6, 15))
