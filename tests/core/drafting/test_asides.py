from __future__ import annotations

from datetime import date

from builders import a_plan

from claimpack.core.drafting.asides import FITTED, OVER_THE_COUNTER, try_campaigns, try_parts

SOLD = date(2025, 3, 14)
UNIT = {"id": "unit", "covers": ["*"], "period": "P24M"}
SOLD_ALONE = {"id": "counter", "covers": ["parts sold"], "period": "P90D"}
PUT_IN = {"id": "fitted", "covers": ["parts fitted"], "period": "P1Y"}
CAMPAIGN = {
    "id": "HC-1",
    "name": "Guide",
    "plan": "p",
    "serials": ["HC70-1 .. HC70-9"],
    "operation": {"code": "HC-1", "hours": "0.4"},
    "opens": "2026-03-01",
    "closes": "2026-03-31",
}


def test_a_plan_without_windows_for_parts_tries_none():
    assert try_parts(a_plan(window=[UNIT]), SOLD) is None


def test_a_part_the_shop_fitted_has_a_window_that_one_over_the_counter_has_not():
    tried = try_parts(a_plan(window=[UNIT, SOLD_ALONE, PUT_IN]), SOLD)
    told = {row.components[0]: ["".join(paid.windows) for paid in row.paid] for row in tried.block.rows}
    # the day of the sale, around the last of 90 days, around the last of the year
    assert told == {
        OVER_THE_COUNTER: ["counter"] * 3 + [""] * 4,
        FITTED: ["fitted"] * 6 + [""],
    }


def test_a_part_sold_over_the_counter_is_one_that_the_shop_never_fitted():
    over_the_counter, _ = try_parts(a_plan(window=[UNIT, SOLD_ALONE, PUT_IN]), SOLD).block.rows
    assert [paid.verdict for paid in over_the_counter.paid] == ["covered"] * 3 + ["not covered"] * 4


def test_the_windows_of_units_lend_their_periods_to_no_part():
    assert {age.period for age in try_parts(a_plan(window=[UNIT, SOLD_ALONE]), SOLD).axes.ages} == {
        None,
        a_plan(window=[SOLD_ALONE]).window[0].period,
    }


def test_a_campaign_pays_from_the_day_it_opens_to_the_day_it_closes():
    (tried,) = try_campaigns(a_plan(window=[UNIT], campaign=[CAMPAIGN]))
    assert [(str(day), verdict) for day, verdict in tried.days] == [
        ("2026-02-28", "not covered"),
        ("2026-03-01", "covered"),
        ("2026-03-31", "covered"),
        ("2026-04-01", "not covered"),
    ]
