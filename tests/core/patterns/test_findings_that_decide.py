"""A battery has failed when it holds 70 % of its charge or less, not before: the finding is a condition of cover."""

from __future__ import annotations

import pytest
from booklets import under

BOOKLET = """
[requires]
findings = [ {what = "capacity", unit = "%", at_most = "70", components = ["battery"]} ]
[words]
handle = []
"""


def battery(*findings: str, component: str = "battery") -> str:
    measured = (
        f'{{what = "Capacity", value = "{value}", unit = "{unit}"}}' for value, unit in map(str.split, findings)
    )
    return f'failure = {{component = "{component}"}}\nfindings = [ {", ".join(measured)} ]'


def verdict(claim: str) -> str:
    return under(BOOKLET, claim).verdict


@pytest.mark.parametrize(("capacity", "answer"), [("69.9", "covered"), ("70", "covered"), ("70.1", "not covered")])
def test_a_value_at_the_limit_has_failed(capacity, answer):
    assert verdict(battery(f"{capacity} %")) == answer


@pytest.mark.parametrize("findings", [[], ["61 Ah"], ["low %"], ["69 %", "75 %"]])
def test_without_one_clear_finding_in_the_plan_s_unit_nobody_can_say(findings):
    found = under(BOOKLET, battery(*findings))
    assert (found.verdict, found.asks) == ("undecided", ("findings",))


def test_another_component_needs_no_such_finding():
    assert verdict(battery(component="handle")) == "covered"


def test_a_word_that_may_mean_the_battery_is_asked_about():
    assert under(BOOKLET, battery(component="battery pack")).verdict == "undecided"


def test_the_headline_tells_the_value_and_the_limit():
    assert str(under(BOOKLET, battery("82 %")).headline) == (
        "Not covered: the capacity of 82 % is no failure; it counts as failed at 70 % or less."
    )


@pytest.mark.parametrize(("leak", "answer"), [("9", "not covered"), ("10", "covered"), ("11", "covered")])
def test_a_limit_may_be_the_least_that_counts(leak, answer):
    plan = '[requires]\nfindings = [ {what = "leak-down", unit = "%", at_least = "10"} ]'
    assert under(plan, f'findings = [ {{what = "leak down", value = "{leak}", unit = "%"}} ]').verdict == answer


def test_an_earlier_repair_is_not_judged_by_today_s_finding():
    plan = BOOKLET + '[replaced]\nperiod = "P90D"'
    claim = battery("60 %") + '\nearlier = [ {component = "battery", repaired = 2026-01-20} ]'
    assert "replaced" in [window.id for window in under(plan, claim).windows if window.holds]


def said(*findings: str) -> str:
    keys = {reason.says.key for reason in under(BOOKLET, battery(*findings)).windows[0].reasons}
    return next(key for key in keys if key.startswith("finding."))


@pytest.mark.parametrize(("capacity", "key"), [("69.9", "finding.past"), ("70.0", "finding.at")])
def test_a_value_at_the_limit_is_not_said_to_be_past_it(capacity, key):
    assert said(f"{capacity} %") == key


def test_percent_in_words_is_the_same_unit():
    assert verdict(battery("69 percent")) == "covered"


def test_a_finding_of_nearly_that_name_is_asked_about_and_the_one_wanted_is_told_with_its_unit():
    found = under(BOOKLET, battery("69 %").replace("Capacity", "battery capacity"))
    missing = [item.what for item in found.missing if item.what.key == "missing.finding-in"]
    assert (found.verdict, [what.facts for what in missing]) == ("undecided", [{"what": "capacity", "unit": "%"}])
    assert "finding.near-name" in [reason.says.key for reason in found.windows[0].reasons]
