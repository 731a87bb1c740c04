"""A part put in on 2026-01-01 that is covered for 90 days of its own, to 2026-04-01, which days in repair lengthen."""

from datetime import date

from builders import a_claim, a_plan, a_window

from claimpack.core.verdict.coverage import judge

PLAN = a_plan(
    window=[a_window(hours=300)],
    replaced={"period": "P90D", "keeps_remaining": False},
    repair_time_extends="calendar",
)


def judged(*earlier, presented="2026-03-20"):
    """The window of the replaced part, and what it asks for."""
    days = {"dates__presented": presented, "dates__repaired": None, "dates__failed": None}
    window = judge(a_claim(earlier=[*earlier], unit__hours="301", **days), PLAN).windows[-1]
    return window, [reason.asks for reason in window.reasons if reason.asks]


OUT = {"component": "short block", "repaired": "2026-01-01", "presented": "2026-01-01", "hours": "200"}
READY = {**OUT, "returned": "2026-01-02"}


def test_an_end_that_days_in_repair_may_move_rests_on_the_day_that_is_not_given():
    window, _ = judged(OUT)
    assert (window.rests_on.key, window.reasons[-1].says.key) == ("earlier[1].returned", "age.inside-at-least")


def test_past_the_certain_end_the_day_it_was_ready_is_asked_for():
    assert judged(OUT, presented="2026-04-03")[1] == ["earlier.returned"]


def test_a_part_may_have_been_put_in_again_within_the_days_that_may_have_been_added():
    again = {**OUT, "repaired": "2026-04-10", "presented": "2026-04-10", "returned": "2026-04-10", "hours": "301"}
    window, asks = judged(OUT, again, presented="2026-04-20")
    assert (window.starts, asks) == (date(2026, 4, 10), ["earlier.returned"])


def test_days_in_repair_before_the_part_was_put_in_move_nothing():
    window, _ = judged({"component": "plug", "repaired": "2025-06-01", "returned": "2025-06-02"}, READY)
    assert (window.ends, window.rests_on) == (date(2026, 4, 3), None)
