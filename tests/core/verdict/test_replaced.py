from datetime import date

import pytest
from builders import a_claim, a_plan, a_window

from claimpack.core.verdict.coverage import judge

OVER = {"unit__hours": "301"}
EARLIER = {"component": "short block", "repaired": "2026-01-01"}


def judged(presented="2026-02-05", earlier=EARLIER, period="P90D", keeps=True, claim=None, **window):
    """The window of the replaced part, and the verdict."""
    replaced = {"period": period, "keeps_remaining": keeps}
    plan = a_plan(
        window=[a_window(**window)], replaced={key: said for key, said in replaced.items() if said is not None}
    )
    changes = {"dates__presented": presented, "dates__repaired": None, "earlier": [earlier], **(claim or {})}
    judgement = judge(a_claim(**changes), plan)
    return next((found for found in judgement.windows if found.id == "replaced"), None), judgement.verdict


def test_without_an_earlier_repair_there_is_no_such_window():
    assert judged(earlier={"component": "ignition coil", "repaired": "2026-01-01"})[0] is None


def test_without_a_rule_for_replaced_parts_there_is_no_such_window():
    judgement = judge(a_claim(earlier=[EARLIER]), a_plan())
    assert [window.id for window in judgement.windows] == ["engine"]


def test_a_repair_after_the_event_does_not_count():
    assert judged(earlier={**EARLIER, "repaired": "2026-02-06"})[0] is None


def test_the_component_may_be_spelled_otherwise():
    assert judged(earlier={**EARLIER, "component": "Short-Block"})[0].starts == date(2026, 1, 1)


@pytest.mark.parametrize(
    ("presented", "verdict"),
    [("2026-03-31", "covered"), ("2026-04-01", "covered"), ("2026-04-02", "not covered")],
    ids=["the day before the last", "the last day", "the day after"],
)
def test_a_replaced_part_has_a_period_of_its_own(presented, verdict):
    assert judged(presented, period="P90D")[1] == verdict


@pytest.mark.parametrize(("keeps", "ends"), [(True, date(2026, 3, 14)), (False, date(2026, 1, 31))])
def test_what_was_left_of_the_window_is_kept_where_the_plan_keeps_it(keeps, ends):
    claim = {"dates__presented": "2026-01-20", "dates__failed": None}
    assert judged("2026-01-20", period="P30D", keeps=keeps, claim=claim)[0].ends == ends


def test_without_a_period_of_its_own_it_carries_the_rest_alone():
    assert judged(period=None)[0].ends == date(2026, 3, 14)


def test_a_repair_while_no_window_was_open_adds_none():
    claim = {"dates__purchased": "2024-03-14", "dates__delivered": "2024-03-14"}
    assert judged(claim=claim) == (None, "not covered")


@pytest.mark.parametrize(
    ("repaired", "verdict"), [("2026-03-14", "covered"), ("2026-03-15", "not covered")], ids=["last day", "day after"]
)
def test_a_repair_counts_up_to_the_last_day_of_cover(repaired, verdict):
    claim = {"dates__failed": None}
    assert judged("2026-04-01", {**EARLIER, "repaired": repaired}, claim=claim)[1] == verdict


def test_a_repair_out_of_cover_is_told_beside_the_windows():
    claim = a_claim(earlier=[{**EARLIER, "repaired": "2025-03-13"}])
    assert judge(claim, a_plan(replaced={"period": "P90D"})).reasons[-1].says.key == "replaced.nothing"


def test_a_part_replaced_within_its_own_period_was_put_in_under_warranty_again():
    earlier = [{**EARLIER, "repaired": day} for day in ("2026-03-01", "2026-05-01")]
    days = {"dates__failed": None, "dates__presented": "2026-07-01", "dates__repaired": None}
    judgement = judge(a_claim(earlier=earlier, **days), a_plan(replaced={"period": "P90D"}))
    assert (judgement.window.starts, judgement.verdict) == (date(2026, 5, 1), "covered")


def test_a_repair_on_a_day_whose_cover_is_unknown_is_undecided():
    claim = {"dates__purchased": None, "dates__delivered": None}
    assert judged(claim=claim)[1] == "undecided"


def test_an_earlier_repair_by_a_word_near_the_component_is_asked_about():
    window, verdict = judged("2026-03-20", {**EARLIER, "component": "block"}, claim={"dates__failed": None})
    asked = [reason.asks for reason in window.reasons if reason.outcome == "unknown"]
    assert (asked, verdict) == (["earlier.component"], "undecided")


def test_an_earlier_repair_and_a_failure_by_words_the_plan_does_not_know_may_be_the_same():
    claim = {"failure__component": "thingamajig", "dates__failed": None}
    window, _ = judged("2026-03-20", {**EARLIER, "component": "gubbins"}, claim=claim)
    assert window is not None


def test_what_was_replaced_may_be_what_failed_while_that_is_not_given():
    claim = {"failure__component": None, "dates__failed": None}
    assert judged("2026-03-20", claim=claim)[1] == "undecided"


def test_what_was_left_is_unknown_while_the_start_is():
    claim = {"dates__purchased": None, "dates__delivered": None}
    window, verdict = judged(period=None, claim=claim)
    assert (window.reasons[-1].says.key, verdict) == ("replaced.unknown", "undecided")


def test_the_latest_earlier_repair_counts():
    earlier = [{"component": "short block", "repaired": day} for day in ("2025-11-01", "2026-01-01", "2025-12-01")]
    judgement = judge(a_claim(earlier=earlier), a_plan(replaced={"period": "P90D"}))
    assert judgement.windows[-1].starts == date(2026, 1, 1)


def test_the_hour_limit_goes_along_with_the_rest():
    window, verdict = judged(earlier={**EARLIER, "hours": "200"}, period=None, hours=300, claim=OVER)
    assert (window.hours_limit, verdict) == (300, "not covered")


def test_the_hour_limit_does_not_cut_the_parts_own_period_short():
    window, verdict = judged(earlier={**EARLIER, "hours": "300"}, period="P60D", hours=300, claim=OVER)
    assert (window.ends, window.hours_limit, verdict) == (date(2026, 3, 2), None, "covered")


@pytest.mark.parametrize(
    ("presented", "verdict"),
    [("2026-03-01", "covered"), ("2026-03-02", "covered"), ("2026-03-03", "not covered")],
    ids=["the day before the last", "the last day", "the day after"],
)
def test_past_the_parts_own_period_the_hour_limit_counts_again(presented, verdict):
    claim = {**OVER, "dates__failed": None}
    assert judged(presented, {**EARLIER, "hours": "300"}, "P60D", hours=300, claim=claim)[1] == verdict


def test_a_part_put_in_over_the_hour_limit_was_put_in_out_of_cover():
    assert judged(earlier={**EARLIER, "hours": "300.1"}, hours=300, claim=OVER) == (None, "not covered")


def test_a_reading_over_the_limit_today_leaves_open_what_it_was_at_the_earlier_repair():
    window, verdict = judged(hours=300, claim=OVER)
    asked = [reason.asks for reason in window.reasons if reason.outcome == "unknown"]
    assert (asked, verdict) == (["earlier.hours"], "undecided")


def test_a_renewal_that_is_past_leaves_nothing_to_carry_over():
    scheduled = [{"component": "short block", "hours": 50}]
    assert judged(period=None, scheduled=scheduled)[1] == "not covered"


def test_a_registration_that_was_missed_leaves_nothing_to_carry_over():
    claim = {"dates__never_registered": True}
    assert judged(period=None, registered_within="P30D", claim=claim)[1] == "not covered"


def test_an_open_registration_leaves_the_rest_open():
    assert judged(period=None, registered_within="P30D")[1] == "undecided"


def test_an_excluded_part_stays_excluded():
    plan = a_plan(replaced={"period": "P90D"}, excluded={"components": ["short block"]})
    assert judge(a_claim(earlier=[EARLIER]), plan).verdict == "not covered"


def test_a_missing_event_leaves_the_replaced_part_open():
    plan = a_plan(replaced={"period": "P90D"}, judged_on="repaired", window=[a_window(period="P10M")])
    judgement = judge(a_claim(earlier=[EARLIER], dates__repaired=None), plan)
    assert judgement.windows[-1].holds is None


def asked(window):
    """The facts that the window of a replaced part waits for."""
    return [reason.asks for reason in window.reasons if reason.outcome == "unknown"]


LATE = {"dates__failed": None}
NO_SALE = {"dates__purchased": None, "dates__delivered": None}


def test_a_repair_on_the_day_of_the_event_counts():
    assert judged(earlier={**EARLIER, "repaired": "2026-02-05"})[0].starts == date(2026, 2, 5)


@pytest.mark.parametrize(
    ("again", "verdict"), [("2026-03-31", "covered"), ("2026-04-01", "not covered")], ids=["last day", "day after"]
)
def test_a_part_is_put_in_under_warranty_again_up_to_the_last_day_of_its_own_period(again, verdict):
    earlier = [{**EARLIER, "repaired": day} for day in ("2026-03-01", again)]
    claim = {**LATE, "earlier": earlier}
    assert judged("2026-04-20", period="P30D", keeps=False, claim=claim)[1] == verdict


def test_a_part_put_in_while_cover_was_in_doubt_puts_no_other_in_for_certain():
    earlier = [{**EARLIER, "repaired": day} for day in ("2026-01-01", "2026-01-20")]
    assert judged(claim={**NO_SALE, "earlier": earlier})[1] == "undecided"


def test_whether_the_part_before_was_the_same_is_asked_where_that_alone_puts_the_next_one_in():
    earlier = [{**EARLIER, "component": "block", "repaired": day} for day in ("2026-03-01", "2026-04-01")]
    window, verdict = judged("2026-05-15", period="P60D", claim={**LATE, "earlier": earlier})
    assert ({*asked(window)}, window.starts, verdict) == ({"earlier.component"}, date(2026, 4, 1), "undecided")


def test_a_doubtful_part_replaced_on_its_last_day_asks_for_its_component_alone():
    earlier = [{**EARLIER, "component": "block", "repaired": day} for day in ("2026-03-01", "2026-03-31")]
    window, _ = judged("2026-04-20", period="P30D", keeps=False, claim={**LATE, "earlier": earlier})
    assert {*asked(window)} == {"earlier.component"}


def test_a_repair_before_the_sale_may_have_been_out_of_cover():
    claim = {**NO_SALE, "unit__built": "2025-12-01"}
    window, verdict = judged("2027-03-01", period="P24M", claim=claim)
    assert (asked(window), verdict) == (["dates.delivered"], "undecided")


def test_a_window_closed_by_its_hours_leaves_no_question_where_the_part_has_no_period_of_its_own():
    assert judged(period=None, hours=300, claim=OVER) == (None, "not covered")


def test_a_reading_that_is_not_given_opens_no_window_that_was_over_by_its_date():
    earlier = {**EARLIER, "repaired": "2026-03-20"}
    assert judged("2026-04-01", earlier, hours=300, claim={**OVER, **LATE}) == (None, "not covered")


def test_a_reading_that_is_not_given_may_have_kept_open_a_window_that_closes_with_the_last_of_its_ends():
    earlier = {**EARLIER, "repaired": "2026-03-20"}
    window, _ = judged("2026-04-01", earlier, hours=300, whichever="last", claim={**OVER, **LATE})
    assert asked(window) == ["earlier.hours"]


def test_what_was_left_of_a_window_without_a_last_day_is_that_window():
    assert judged(period=None, hours=300, whichever="last") == (None, "covered")


def test_a_window_that_waits_is_told_before_a_later_one_that_is_closed():
    windows = [a_window(period="P24M"), a_window(id="hours", start=["in_service"], period="P24M", hours=300)]
    earlier = [{"component": "block", "repaired": "2025-06-01"}, {**EARLIER, "hours": "200"}]
    claim = a_claim(**OVER, dates__in_service="2025-12-01", earlier=earlier)
    window = judge(claim, a_plan(window=windows, replaced={"period": "P30D"})).windows[-1]
    assert (window.starts, window.holds) == (date(2025, 6, 1), None)


def test_a_period_that_ends_with_the_window_is_not_cut_short_by_its_hours():
    window, _ = judged(earlier={"component": "short block", "repaired": "2025-12-14", "hours": "50"}, hours=300)
    assert (window.ends, window.hours_limit) == (date(2026, 3, 14), None)


def lives_on(repaired, *windows):
    """The last day of a part put in that lives on what was left of these windows."""
    plan = a_plan(window=windows, replaced={"keeps_remaining": True})
    return judge(a_claim(earlier=[{**EARLIER, "repaired": repaired}]), plan).windows[-1].ends


def test_a_part_put_in_on_the_first_day_of_cover_lives_on_all_of_it():
    assert lives_on("2025-03-14", a_window()) == date(2026, 3, 14)


def test_of_the_windows_that_were_open_a_part_lives_on_the_one_that_ends_last():
    windows = [a_window(), a_window(id="longer", period="P18M"), a_window(id="plug", covers=["plug"], period="P5Y")]
    assert lives_on("2026-01-01", *windows) == date(2026, 9, 14)


def test_a_part_replaced_though_the_plan_excludes_it_has_no_cover_of_its_own():
    excluded = {"components": ["short block"]}
    plan = a_plan(window=[a_window(despite_exclusions=True)], replaced={"period": "P90D"}, excluded=excluded)
    assert judge(a_claim(earlier=[EARLIER]), plan).windows[-1].applies is False
