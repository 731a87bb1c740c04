import pytest
from builders import a_claim, a_plan, a_window

from claimpack.core.verdict.coverage import judge, limits_left


def test_a_missing_event_date_is_undecided_and_named():
    judgement = judge(a_claim(dates__repaired=None), a_plan(judged_on="repaired"))
    assert (judgement.verdict, judgement.reasons[1].asks) == ("undecided", "dates.repaired")


def test_a_missing_event_date_that_is_inside_whichever_it_was_does_not_keep_the_verdict_open():
    judgement = judge(a_claim(dates__failed=None), a_plan(judged_on="failed"))
    assert (judgement.verdict, judgement.event, judgement.days_left) == ("covered", None, None)


def test_a_missing_event_date_that_is_too_late_whichever_it_was_does_not_keep_the_verdict_open():
    plan = a_plan(judged_on="repaired", window=[a_window(period="P6M")])
    assert judge(a_claim(dates__repaired=None), plan).verdict == "not covered"


def test_the_window_that_ends_last_is_cited():
    windows = [a_window(), a_window(id="longer", period="P24M"), a_window(id="shorter", period="P13M")]
    judgement = judge(a_claim(), a_plan(window=windows))
    assert judgement.window.id == "longer"


def test_all_windows_are_reported_not_only_the_one_cited():
    windows = [a_window(), a_window(id="coil", covers=["ignition coil"])]
    assert [window.id for window in judge(a_claim(), a_plan(window=windows)).windows] == ["engine", "coil"]


HOME = {"id": "home", "uses": ["household"], "period": "P24M"}
WORK = {"id": "work", "uses": ["professional", "rental"], "period": "P15M"}


def without_use(*windows, **changes):
    """The judgement on a unit whose use is not given."""
    return judge(a_claim(unit__use=None, **changes), a_plan(window=[a_window(**window) for window in windows]))


def test_a_claim_that_is_covered_whatever_the_use_is_covered_up_to_the_first_end():
    judgement = without_use(HOME, WORK)
    assert (judgement.verdict, judgement.window.id, judgement.whatever) == ("covered", "work", "unit.use")


def test_whatever_the_use_the_fewest_hours_of_any_are_certain():
    assert without_use({**HOME, "hours": 300}, WORK).window.hours_limit == 300


@pytest.mark.parametrize("work", [{**WORK, "uses": ["rental"]}, {**WORK, "period": "P6M"}])
def test_a_use_that_no_window_holds_for_keeps_the_verdict_open(work):
    assert without_use(HOME, work).verdict == "undecided"


def test_a_window_for_every_use_is_cited_before_any_that_asks_for_it():
    assert (without_use(HOME, WORK, {"id": "all"}).window.id, without_use(HOME, {"id": "all"}).whatever) == ("all", "")


def test_another_fact_that_is_open_for_one_use_keeps_the_verdict_open():
    assert without_use(HOME, {**WORK, "first_owner_only": True}, owner__first_owner=None).verdict == "undecided"


def test_a_claim_one_window_refuses_another_may_grant():
    windows = [a_window(period="P6M"), a_window(id="longer", period="P24M")]
    assert judge(a_claim(), a_plan(window=windows)).verdict == "covered"


def test_every_window_closed_is_not_covered():
    windows = [a_window(period="P6M"), a_window(id="coil", covers=["ignition coil"])]
    assert judge(a_claim(), a_plan(window=windows)).verdict == "not covered"


def test_an_open_question_in_one_window_keeps_the_verdict_open():
    windows = [a_window(period="P6M"), a_window(id="owner", first_owner_only=True)]
    judgement = judge(a_claim(owner__first_owner=None), a_plan(window=windows))
    assert judgement.verdict == "undecided"


def test_an_open_question_does_not_matter_where_a_window_holds():
    windows = [a_window(), a_window(id="owner", first_owner_only=True)]
    assert judge(a_claim(owner__first_owner=None), a_plan(window=windows)).verdict == "covered"


def test_every_reason_of_a_window_names_it():
    judgement = judge(a_claim(), a_plan())
    assert {reason.window for window in judgement.windows for reason in window.reasons} == {"engine"}


@pytest.mark.parametrize("component", [None, "short block"], ids=["not given", "known"])
def test_no_other_words_are_offered_for_what_is_not_given_or_is_known(component):
    assert judge(a_claim(failure__component=component), a_plan()).may_be == ()


@pytest.mark.parametrize(("hours", "better"), [(300, None), (300, 500)], ids=["no limit", "a higher limit"])
def test_of_windows_that_end_together_the_one_with_more_hours_is_cited(hours, better):
    windows = [a_window(hours=hours), a_window(id="better", hours=better)]
    assert judge(a_claim(), a_plan(window=windows)).window.id == "better"


@pytest.mark.parametrize(
    ("hours", "left"), [("100", [("hours", 200), ("cycles", 900)]), (None, [("cycles", 900)])], ids=["read", "not read"]
)
def test_what_is_left_is_told_of_each_meter_that_is_read(hours, left):
    claim = a_claim(unit__hours=hours, unit__meters=[{"kind": "cycles", "value": "4100"}])
    limits = {"hours": 300, "limits": [{"meter": "cycles", "at": "5000"}], "whichever": "last"}
    assert [*limits_left(claim, judge(claim, a_plan(window=[a_window(**limits)])))] == left
