from builders import a_claim, a_plan, a_window

from claimpack.core.verdict.by_case import judge_case

SOLD = a_window(id="sold", covers=["parts sold"], period="P90D")


def test_windows_of_parts_say_nothing_about_a_unit():
    found = judge_case(a_claim(), a_plan(window=[a_window(), SOLD]))
    assert [window.id for window in found.windows] == ["engine"]


def test_a_plan_for_parts_alone_does_not_cover_a_unit():
    assert judge_case(a_claim(), a_plan(window=[SOLD])).verdict == "not covered"


def test_a_campaign_is_judged_though_every_window_is_over():
    claim = a_claim(case="campaign", campaign="c-1", dates__purchased="2015-01-01")
    assert [window.id for window in judge_case(claim, a_plan()).windows] == ["c-1"]
