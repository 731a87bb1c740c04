from datetime import date, datetime, timedelta, timezone

import pytest
from builders import TODAY, a_claim, a_plan

from claimpack.core.judging.assessment import Circumstances, assess
from claimpack.core.judging.conditions.conditions import missing
from claimpack.core.judging.conditions.missing_items import ClaimFacts
from claimpack.core.pricing.pricing import price


def lacking(plan=None, taken=None, today=TODAY, **changes):
    """What a claim lacks, by the key of the sentence: whether it blocks filing."""
    plan, claim = plan or a_plan(), a_claim(**changes)
    found = missing(ClaimFacts(claim, plan, price(claim, plan).amounts, today, taken or {}))
    return {item.what.key.removeprefix("missing."): item.blocks_filing for item in found}


def test_a_complete_claim_lacks_nothing():
    assert lacking() == {}


PROOF = {"requires": {"proof": True}}


@pytest.mark.parametrize(
    ("proof", "lacks"),
    [
        ({}, {"proof": True}),
        ({"kind": "none"}, {"proof": True}),
        ({"kind": "receipt"}, {"proof-file": True}),
        ({"kind": "receipt", "file": "papers/r.pdf"}, {}),
        ({"kind": "dealer-record", "file": "papers/r.pdf"}, {}),
    ],
)
def test_proof_of_purchase_where_the_plan_asks_for_it(proof, lacks):
    assert lacking(a_plan(**PROOF), proof=proof) == lacks


def test_proof_is_not_asked_for_where_the_plan_does_not():
    assert lacking(proof={}) == {}


@pytest.mark.parametrize(("role", "lacks"), [("Engine", {}), ("pump", {"serial": True})])
def test_serial_numbers_the_plan_asks_for(role, lacks):
    assert lacking(a_plan(requires={"serial_roles": [role]})) == lacks


@pytest.mark.parametrize(
    ("pattern", "lacks"), [("HC70-[0-9]", {}), ("HC70", {"serial-form": True}), ("C70-1", {"serial-form": True})]
)
def test_a_serial_number_has_the_makers_form_from_end_to_end(pattern, lacks):
    assert lacking(a_plan(requires={"serial_patterns": {"unit": pattern}})) == lacks


@pytest.mark.parametrize(("shot", "lacks"), [("Serial-Plate", {}), ("unit", {"shot": True}), ("*", {"shot": True})])
def test_shots_the_plan_asks_for(shot, lacks):
    plan = a_plan(requires={"shots": ["serial plate"]})
    assert lacking(plan, photos=[{"file": "photos/a.jpg", "shot": shot}]) == lacks


@pytest.mark.parametrize(
    ("component", "lacks"), [("ignition coil", {"shot": True}), ("coil", {"shot": True}), ("short block", {})]
)
def test_a_shot_for_certain_components_is_asked_for_where_one_of_them_failed(component, lacks):
    spark = {"shot": "spark test", "components": ["ignition coil"]}
    plan = a_plan(requires={"shots": [spark]}, words={"ignition coil": ["coil"]})
    assert lacking(plan, failure__component=component) == lacks


@pytest.mark.parametrize(("what", "lacks"), [("Compression", {}), ("leak-down", {"finding": True})])
def test_findings_the_plan_asks_for(what, lacks):
    assert lacking(a_plan(requires={"findings": ["compression"]}), findings=[{"what": what, "value": "42"}]) == lacks


FREIGHT = {"extras": [{"what": "freight", "amount": "400.00"}]}


@pytest.mark.parametrize(
    ("limit", "lacks"),
    [("400.01", {}), ("400.00", {}), ("399.99", {"approval": True})],
    ids=["below", "equal", "above"],
)
def test_a_claim_above_a_limit_needs_approval(limit, lacks):
    assert lacking(a_plan(requires={"approval_above": limit}), **FREIGHT) == lacks


@pytest.mark.parametrize(("component", "lacks"), [("short block", {"approval": True}), ("ignition coil", {})])
def test_some_components_need_approval(component, lacks):
    plan = a_plan(requires={"approval_components": ["Short Block", "engine"]})
    assert lacking(plan, failure__component=component) == lacks


BIG = a_plan(requires={"approval_above": "100"})


@pytest.mark.parametrize(
    ("approval", "lacks"),
    [
        ({"number": "A-1"}, {}),
        ({"by": "the maker's desk"}, {"approval": True}),
        ({"number": "A-1", "up_to": "400.01"}, {}),
        ({"number": "A-1", "up_to": "400.00"}, {}),
        ({"state": "asked"}, {"approval-answer": True}),
        ({"state": "asked", "number": "A-1"}, {}),
        ({"state": "refused", "number": "A-1"}, {"approval-refused": True}),
        ({"number": "A-1", "up_to": "399.99"}, {"approval-amount": True}),
        ({"number": "A-1", "on": "2026-02-23"}, {}),
        ({"number": "A-1", "on": "2026-02-24"}, {}),
        ({"number": "A-1", "on": "2026-02-25"}, {"approval-day": True}),
        ({"number": "A-1", "expires": "2026-02-24"}, {}),
        ({"number": "A-1", "expires": "2026-02-23"}, {"approval-day": True}),
    ],
)
def test_an_approval_reaches_the_amount_and_holds_on_the_day_of_the_repair(approval, lacks):
    assert lacking(BIG, approval=approval, **FREIGHT) == lacks


def test_the_day_of_an_approval_that_no_plan_asks_for_is_worth_a_look():
    assert lacking(a_plan(), approval={"number": "A-1", "on": "2026-02-25"}, **FREIGHT) == {"approval-date": False}


def test_an_approval_that_ran_out_before_the_repair_must_be_asked_for_again():
    waiting = {"approval": {"number": "A-1", "expires": TODAY.isoformat()}, "dates__repaired": None}
    assert "approval-again" not in lacking(BIG, **waiting, **FREIGHT)
    assert lacking(BIG, today=TODAY + timedelta(1), **waiting, **FREIGHT)["approval-again"]


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


@pytest.mark.parametrize(("meter", "hours"), [(True, "1"), (None, "1"), (False, None), (True, None)])
def test_a_meter_and_its_reading_agree(meter, hours):
    assert lacking(unit__meter=meter, unit__hours=hours) == {}


def test_a_reading_of_no_meter_is_worth_a_look():
    assert lacking(unit__meter=False, unit__hours="1") == {"meter": False}


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


def test_the_owners_name_is_worth_a_look():
    assert lacking(owner__name="") == {"owner": False}


@pytest.mark.parametrize(
    ("today", "lacks"),
    [("2026-02-25", {}), ("2026-02-24", {}), ("2026-02-23", {"future": True})],
    ids=["the day after", "the day", "the day before"],
)
def test_a_date_that_lies_ahead_blocks_filing(today, lacks):
    assert lacking(today=date.fromisoformat(today)) == lacks


ZONE = timezone(timedelta(hours=-5))


@pytest.mark.parametrize(
    ("taken", "lacks"),
    [
        (None, {}),
        (datetime(2025, 3, 13, 23, 59), {"photo-date": False}),  # noqa: DTZ001
        (datetime(2025, 3, 14, 0, 0), {}),  # noqa: DTZ001
        (datetime(2026, 3, 1, 23, 59, tzinfo=ZONE), {}),
        (datetime(2026, 3, 2, 0, 0, tzinfo=ZONE), {"photo-date": False}),
    ],
)
def test_a_picture_is_taken_while_the_unit_is_sold_and_before_today_is_over(taken, lacks):
    assert lacking(taken={"photos/a.jpg": taken}) == lacks


def test_a_picture_taken_after_the_unit_was_built_is_no_surprise():
    assert lacking(taken={"a.jpg": datetime(2025, 2, 1)}, unit__built="2025-01-20") == {}  # noqa: DTZ001


def test_what_blocks_filing_is_told_first():
    assert list(lacking(owner__name="", dates__repaired=None).values()) == [True, False]


def test_a_plan_that_says_how_to_judge_without_proof_does_not_ask_for_it():
    plan = a_plan(requires__proof=True, start_without_proof={"from": "built"})
    claim = a_claim(proof={"kind": "none"}, unit__built="2025-03-01")
    assert "missing.proof" not in {item.what.key for item in assess(claim, [plan], TODAY).missing}


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


def test_pictures_of_the_same_cause_are_told_in_one_line():
    early, late = datetime(2025, 3, 13), datetime(2026, 3, 2)  # noqa: DTZ001
    taken = {"a.jpg": early, "b.jpg": early - timedelta(days=2), "c.jpg": late}
    found = assess(a_claim(), [a_plan()], TODAY, Circumstances(taken=taken)).missing
    assert [item.what.facts["file"] for item in found] == ["a.jpg, b.jpg", "c.jpg"]
    assert str(found[0].why) == "By the camera's clock: 2025-03-11, 2025-03-13, before 2025-03-14."


@pytest.mark.parametrize(
    ("component", "asked"), [("short blocks", True), ("short block assembly", True), ("recoil starter", False)]
)
def test_approval_is_asked_for_a_component_by_another_word(component, asked):
    plan = a_plan(requires__approval_components=["short block"])
    assert ("approval" in lacking(plan, failure__component=component)) is asked
