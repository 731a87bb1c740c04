from datetime import date

import pytest
from aged import ADDS, age, outcome
from builders import a_claim, a_plan, a_window

from claimpack.core.verdict.coverage import judge


@pytest.mark.parametrize(
    ("registered", "ends"),
    [("2025-04-12", "2026-09-14"), ("2025-04-13", "2026-09-14"), ("2025-04-14", "2025-09-14")],
    ids=["the day before the last", "the last day", "the day after"],
)
def test_registration_on_the_last_day_counts(registered, ends):
    claim = a_claim(dates__registered=registered)
    assert judge(claim, a_plan(window=[a_window(**ADDS)])).windows[0].ends == date.fromisoformat(ends)


def test_an_unknown_registration_is_asked_for_only_where_it_would_decide():
    assert outcome(a_claim(), **ADDS)["registration"] == "unknown"


def test_an_open_registration_is_asked_about_with_its_last_day():
    told = judge(a_claim(), a_plan(window=[a_window(**ADDS)])).windows[0].reasons
    asked = [(reason.says.key, reason.says.facts["ends"]) for reason in told if reason.rule == "registration"]
    assert asked == [("registered.would-decide", "2026-09-14")]


def test_an_unknown_registration_does_not_matter_inside_the_shorter_period():
    assert "registration" not in outcome(a_claim(), **{**ADDS, "period": "P12M"})


def test_an_unknown_registration_does_not_matter_beyond_the_longer_period():
    assert outcome(a_claim(), **{**ADDS, "registered_adds": "P1M"}) == {"component": "pass", "age": "fail"}


def test_a_unit_never_registered_has_the_shorter_period():
    reasons = outcome(a_claim(dates__never_registered=True), **ADDS)
    assert (reasons["registration"], reasons["age"]) == ("fail", "fail")


@pytest.mark.parametrize(("registered", "expected"), [("2025-04-13", "pass"), ("2025-04-14", "fail")])
def test_registration_may_be_a_condition(registered, expected):
    assert outcome(a_claim(dates__registered=registered), registered_within="P30D")["registration"] == expected


def test_a_condition_not_known_to_be_met_is_asked_for():
    assert outcome(a_claim(), registered_within="P30D")["registration"] == "unknown"


EARLY = {"dates__registered": "2025-03-13"}


@pytest.mark.parametrize("window", [ADDS, {"registered_within": "P30D"}], ids=["adds", "a condition"])
def test_a_registration_before_the_sale_is_asked_about_where_it_decides(window):
    assert age(a_claim(**EARLY), **window) == (None, ["dates.registered"])


def test_a_registration_before_the_sale_does_not_matter_where_it_does_not_decide():
    assert age(a_claim(**EARLY), **{**ADDS, "period": "P12M"}) == (True, [])


def test_a_registration_on_the_day_of_sale_adds_cover():
    assert age(a_claim(dates__registered="2025-03-14"), **ADDS) == (True, [])


@pytest.mark.parametrize("other", ["dates__purchased", "dates__delivered"])
def test_registration_runs_from_the_sale_where_cover_starts_with_it(other):
    claim = a_claim(dates__registered="2025-04-14", **{other: None})
    window = {"start": ["registered"], "registered_within": "P30D"}
    assert age(claim, **window) == (False, [])


def test_cover_that_starts_with_a_registration_never_made_does_not_start():
    assert age(a_claim(dates__never_registered=True), start=["registered"]) == (False, [])


@pytest.mark.parametrize(
    ("dates", "asks"),
    [
        ({"dates__registered": "2025-03-13"}, {"dates.registered"}),
        ({"dates__registered": "2025-04-14", "dates__purchased": None, "dates__delivered": None}, {"dates.purchased"}),
    ],
    ids=["registered before the sale", "no day of the sale"],
)
def test_where_cover_starts_with_the_registration_the_day_that_is_in_doubt_is_asked_for(dates, asks):
    plan = a_plan(start=["registered"], window=[a_window(registered_within="P30D")])
    assert set(age(a_claim(**dates), plan)[1]) == asks


@pytest.mark.parametrize(
    ("window", "key"), [(ADDS, "registered.adds"), ({"registered_within": "P30D"}, "registered.in-time")]
)
def test_a_registration_in_time_is_told_with_what_it_adds_if_it_adds_anything(window, key):
    told = judge(a_claim(dates__registered="2025-04-13"), a_plan(window=[a_window(**window)])).windows[0].reasons
    assert [reason.says.key for reason in told if reason.rule == "registration"] == [key]


@pytest.mark.parametrize(
    ("registered", "found"),
    [("2025-08-19", (True, [])), (None, (None, ["dates.registered"]))],
    ids=["given", "not given"],
)
def test_without_proof_of_the_sale_the_time_to_register_runs_from_the_start_of_cover(registered, found):
    # built on 2025-01-20, so covered from 2025-07-20
    dates = {"dates__purchased": None, "dates__delivered": None, "dates__registered": registered}
    claim = a_claim(proof={"kind": "none"}, unit__built="2025-01-20", **dates)
    plan = a_plan(start_without_proof={"from": "built", "after": "P6M"}, window=[a_window(**ADDS)])
    assert age(claim, plan) == found
