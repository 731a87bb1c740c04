"""A battery has failed when it holds 70 % of its charge or less, not before: the finding is a condition of cover."""

from __future__ import annotations

import pytest
from booklets import under

from claimpack.core.windows.findings import decided_by

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


def test_a_battery_that_has_failed_is_still_not_covered_after_the_last_day():
    assert verdict(battery("69 %") + "\n[dates]\npresented = 2026-03-15\nrepaired = 2026-03-16") == "not covered"


def test_a_battery_that_has_not_failed_is_not_covered_whatever_else_is_open():
    registered = '[[window]]\nid = "unit"\ncovers = ["*"]\nperiod = "P12M"\nregistered_within = "P30D"\n'
    assert [under(BOOKLET + registered, battery(said)).verdict for said in ("70 %", "71 %")] == [
        "undecided",
        "not covered",
    ]


def test_a_limit_for_whatever_failed_asks_for_no_component():
    plan = '[requires]\nfindings = [ {what = "leak-down", unit = "%", at_least = "10"} ]'
    claim = 'failure = {component = ""}\nfindings = [ {what = "leak down", value = "11", unit = "%"} ]'
    assert under(plan, claim).asks == ()


def test_a_limit_for_one_component_asks_which_one_failed():
    assert under(BOOKLET, battery("69 %", component="")).asks == ("failure.component",)


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


@pytest.mark.parametrize(
    ("findings", "key"),
    [
        ([], "answer.undecided-finding"),
        (["61 Ah"], "answer.undecided-finding-unit"),
        (["69 %", "75 %"], "answer.undecided-finding-both"),
    ],
)
def test_while_it_is_open_the_headline_names_the_finding_and_what_is_wrong_with_it(findings, key):
    headline = under(BOOKLET, battery(*findings)).headline
    assert (headline.key, headline.facts["what"], headline.facts["limit"]) == (key, "capacity", "70 %")


def test_the_headline_names_other_facts_beside_the_finding():
    plan = BOOKLET + '[[window]]\nid = "home"\ncovers = ["*"]\nuses = ["household"]\nperiod = "P12M"'
    headline = under(plan, battery() + '\nunit = {use = "sport"}').headline
    assert (headline.key, headline.facts["facts_word"]) == ("answer.undecided-finding-facts", "unit.use")


@pytest.mark.parametrize(("component", "by_plan"), [("battery", True), ("handle", False)])
def test_a_finding_is_shown_by_the_plan_s_limit_where_that_decides(component, by_plan):
    found = under(BOOKLET, battery("69 %", component=component))
    assert (decided_by(found.claim, found.plan, found.claim.findings[0]) is not None) is by_plan
