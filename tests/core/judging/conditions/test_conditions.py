from datetime import date

import pytest
from builders import a_plan
from lacked import lacking


def test_a_complete_claim_lacks_nothing():
    assert lacking() == {}


@pytest.mark.parametrize(
    ("registered", "lacks"),
    [("2025-03-13", {"registered": True}), ("2025-03-14", {}), ("2025-03-15", {})],
    ids=["the day before", "the day of sale", "the day after"],
)
def test_a_registration_before_the_sale_blocks_filing(registered, lacks):
    assert lacking(dates__registered=registered) == lacks


def test_the_day_judged_on_is_asked_for_though_the_verdict_is_the_same_whichever_it_was():
    assert lacking(a_plan(judged_on="failed"), dates__failed=None) == {"failed": True}


@pytest.mark.parametrize(
    ("by", "failed", "asked"),
    [("failed", None, True), ("failed", "2026-02-01", False), ("presented", None, False)],
    ids=["by the failure", "it is known", "by another day"],
)
def test_the_day_of_the_failure_is_asked_for_where_the_plan_judges_by_it(by, failed, asked):
    assert ("failed" in lacking(a_plan(judged_on=by), dates__failed=failed)) is asked


def test_more_hours_than_there_were_block_filing():
    assert lacking(unit__built="2025-03-14", unit__hours="9000") == {"meter": True}


def test_the_day_of_the_repair_is_asked_for():
    assert lacking(dates__repaired=None) == {"repaired": True}


def test_of_a_part_sold_the_day_it_was_replaced_is_asked_for():
    sold = {"name": "coil", "sold": "2026-01-10"}
    assert "part-replaced" in lacking(case="part", part_sold=sold, dates__repaired=None)


@pytest.mark.parametrize(
    ("sold", "asked"),
    [({"name": "coil"}, False), ({"number": "70-22"}, False), ({}, True)],
    ids=["name", "number", "none"],
)
def test_a_part_sold_is_told_by_its_name_or_its_number(sold, asked):
    assert ("part-sold" in lacking(case="part", part_sold={"sold": "2026-01-10", **sold})) is asked


RING = {"parts": [{"name": "piston ring", "unit_cost": "8.00"}]}


@pytest.mark.parametrize(
    ("held", "lacks"),
    [
        ([], {"held": True}),
        ([{"part": "ring", "drained": True}], {}),
        ([{"part": "ring"}], {"drained": False}),
        ([{"part": "ring", "drained": False}], {"drained": False}),
        ([{"part": "ring", "hazard": "none"}], {}),
    ],
)
def test_a_failed_part_is_held_and_drained(held, lacks):
    assert lacking(held=held, **RING) == lacks


def test_a_part_the_owner_pays_need_not_be_held():
    assert lacking(parts=[{"name": "blade", "payer": "owner"}]) == {}


def test_nothing_is_held_where_the_plan_does_not_ask_for_it():
    assert lacking(a_plan(requires={"held_part": False}), **RING) == {}


@pytest.mark.parametrize(
    ("entry", "way", "lacks"),
    [
        ({"operation": "clean"}, "schedule", {"clock": True}),
        ({"operation": "clean", "hours": "1"}, "schedule", {}),
        ({"operation": "sb"}, "schedule", {}),
        ({"operation": "sb"}, "lower", {}),
        ({"operation": "sb"}, "actual", {"clock": True}),
        ({"operation": "sb", "started": "2026-02-24T09:00:00"}, "schedule", {"clock": True}),
        ({"operation": "clean", "hours": "24"}, "actual", {}),
        ({"operation": "clean", "hours": "24.01"}, "actual", {"longer-than-a-day": True}),
        (
            {"operation": "clean", "started": "2026-02-23T09:00:00", "ended": "2026-02-24T09:01:00"},
            "actual",
            {"longer-than-a-day": True},
        ),
    ],
)
def test_a_time_for_what_is_claimed_by_the_clock(entry, way, lacks):
    plan = a_plan(operation=[{"code": "sb", "hours": "1.6"}], pays__claim_time=way)
    assert lacking(plan, labour=[entry]) == lacks


@pytest.mark.parametrize(
    ("changes", "lacks"),
    [
        ({"goodwill": {"because": "Failed twice."}}, {"case": False}),
        ({"case": "goodwill"}, {"goodwill": True}),
        ({"case": "goodwill", "goodwill": {"because": "Failed twice."}}, {}),
    ],
    ids=["a reason and no favour asked", "a favour without a reason", "both"],
)
def test_a_favour_is_asked_for_with_its_reason(changes, lacks):
    assert lacking(**changes) == lacks


@pytest.mark.parametrize(
    ("today", "lacks"),
    [("2026-02-25", {}), ("2026-02-24", {}), ("2026-02-23", {"future": True})],
    ids=["the day after", "the day", "the day before"],
)
def test_a_date_that_lies_ahead_blocks_filing(today, lacks):
    assert lacking(today=date.fromisoformat(today)) == lacks


def test_what_blocks_filing_is_told_first():
    assert list(lacking(owner__name="", dates__repaired=None).values()) == [True, False]


@pytest.mark.parametrize(
    ("changes", "blocks"),
    [
        ({"approval": {"number": "A-1", "on": "2026-03-02"}}, True),
        ({"earlier": [{"component": "coil", "repaired": "2026-03-02"}]}, True),
        ({"held": [{"part": "coil", "since": "2026-03-02"}]}, False),
        ({"labour": [{"operation": "clean", "hours": "1", "started": "2026-03-02T09:00:00"}]}, False),
    ],
    ids=["approval", "earlier repair", "held part", "work"],
)
def test_of_days_ahead_those_of_work_and_shelf_alone_do_not_block(changes, blocks):
    assert lacking(**changes)["future"] is blocks
