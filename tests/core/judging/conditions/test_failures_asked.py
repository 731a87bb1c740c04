import pytest
from builders import a_claim, a_plan, a_window
from lacked import lacking

from claimpack.core.judging.conditions.failures_asked import defect, open_shares, presumed_of, still_open
from claimpack.core.judging.conditions.missing_items import ClaimFacts
from claimpack.core.pricing.pricing import price
from claimpack.core.verdict.failures import judged_failures


@pytest.mark.parametrize("part", ["complaint", "cause", "correction"])
def test_the_story_has_three_parts(part):
    assert lacking(**{f"failure__{part}": ""}) == {part: True}


def test_the_component_is_asked_for():
    assert lacking(failure__component="") == {"component": True}


@pytest.mark.parametrize(
    ("word", "lacks"),
    [
        ("short blok", {"component-word": False}),
        ("air filters", {"component-word": False}),
        ("Engine", {}),
        ("blade", {}),
    ],
)
def test_a_mistyped_component_is_worth_a_look(word, lacks):
    assert lacking(a_plan(excluded={"components": ["air filter"]}), failure__component=word) == lacks


@pytest.mark.parametrize(("defects", "lacks"), [(["misuse"], {"defect": True}), ([], {})])
def test_the_kind_of_defect_is_asked_for_where_some_are_excluded(defects, lacks):
    assert lacking(a_plan(excluded={"defects": defects}), failure__defect=None) == lacks


@pytest.mark.parametrize(("defects", "lacks"), [(["misuse"], {"defect": True}), ([], {})])
def test_an_unknown_defect_blocks_filing_where_some_are_excluded(defects, lacks):
    assert lacking(a_plan(excluded={"defects": defects}), failure__defect="unknown") == lacks


def test_one_of_several_failures_is_called_by_its_word_else_by_its_number():
    plan = a_plan(excluded={"defects": ["misuse"]})
    claim = a_claim(failure=[{"component": "short block"}, {"cause": "Worn."}])
    found = defect(ClaimFacts(claim, plan, price(claim, plan).amounts, claim.dates.presented, {}))
    assert [item.what.facts["component"] for item in found] == ["short block", "2"]


@pytest.mark.parametrize(
    ("window", "presumed"),
    [({"presumed_within": "P12M"}, {1}), ({"presumed_within": "P6M"}, set()), ({"period": "P6M"}, set())],
    ids=["in that time", "past it", "not covered"],
)
def test_a_fault_is_presumed_in_the_time_of_the_window_that_is_cited(window, presumed):
    plan = a_plan(window=[a_window(**window)])
    assert presumed_of(judged_failures(a_claim(), plan)) == presumed


def test_of_several_failures_the_one_that_is_still_open_is_asked_about():
    claim = a_claim(failure=[{"component": word} for word in ("short block", "gizmo", "blade")])
    assert [item.what.facts["failure"] for item in still_open(judged_failures(claim, a_plan()))] == ["2"]


FALLS = {"shares": [{"until": "P10M", "maker": "1"}, {"until": "P24M", "maker": "0.5"}]}


@pytest.mark.parametrize(
    ("window", "asked"),
    [
        ({**FALLS, "period": "P24M"}, ["earlier[1].returned"]),
        ({"shares": FALLS["shares"][1:], "period": "P24M"}, []),
        ({}, []),
        ({**FALLS, "period": "P6M"}, []),
    ],
    ids=["a share that falls", "one share", "all is paid", "not covered"],
)
def test_a_day_in_repair_by_which_a_larger_share_is_paid_is_asked_for(window, asked):
    plan = a_plan(window=[a_window(**window)], repair_time_extends="calendar")
    earlier = [{"component": "coil", "presented": "2025-12-01", "repaired": "2025-12-05"}]
    found = open_shares(plan, judged_failures(a_claim(earlier=earlier), plan))
    assert [item.what.facts["named"] for item in found] == asked
