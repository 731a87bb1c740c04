"""A part put in on 2026-01-01 that is covered for 90 days of its own, to 2026-04-01, which days in repair lengthen."""

from datetime import date

from builders import a_claim, a_plan

from claimpack.core.verdict.coverage import judge

STAYS = {"period": "P90D", "keeps_remaining": False}


def in_repair(*earlier, presented="2026-03-20"):
    """The window of a part put in on the first of January, which days in repair lengthen."""
    plan = a_plan(replaced=STAYS, repair_time_extends="calendar")
    days = {"dates__presented": presented, "dates__repaired": None, "dates__failed": None}
    return judge(a_claim(earlier=[*earlier], **days), plan).windows[-1]


OUT = {"component": "short block", "repaired": "2026-01-01", "presented": "2026-01-01"}
READY = {**OUT, "returned": "2026-01-02"}


def test_an_end_that_days_in_repair_may_move_rests_on_the_day_that_is_not_given():
    window = in_repair(OUT)
    assert (window.rests_on.key, window.reasons[-1].says.key) == ("earlier[1].returned", "age.inside-at-least")


def test_past_the_certain_end_the_day_it_was_ready_is_asked_for():
    assert [reason.asks for reason in in_repair(OUT, presented="2026-04-03").reasons if reason.asks] == [
        "earlier.returned"
    ]


def test_days_in_repair_before_the_part_was_put_in_move_nothing():
    window = in_repair({"component": "plug", "repaired": "2025-06-01", "returned": "2025-06-02"}, READY)
    assert (window.ends, window.rests_on) == (date(2026, 4, 3), None)
