from __future__ import annotations

from decimal import Decimal

import pytest

from claimpack.core.drafting.booklet.cover_answers import Limits
from claimpack.core.drafting.booklet.keys import (
    MOST_PARTS,
    NOT_ASKED,
    part_keys,
    plan_keys,
    slug,
    timed_and_left_out,
    windows_of,
)
from claimpack.core.drafting.key_list import key_list
from claimpack.core.plans.plan import Plan
from claimpack.core.values.periods import Period

YEAR, TWO_YEARS = Period(years=1), Period(years=2)
ANY_USE = {"household": YEAR, "professional": YEAR, "rental": YEAR}


def ids(answers):
    return [window["id"] for window in windows_of(answers)]


def test_uses_that_are_covered_alike_have_one_window():
    assert windows_of(ANY_USE) == [{"id": "unit", "covers": ["*"], "period": YEAR}]


def test_each_use_that_is_covered_otherwise_has_a_window_of_its_own():
    assert ids({"household": TWO_YEARS, "professional": YEAR, "rental": None}) == [
        "unit-household",
        "unit-professional",
    ]


def test_parts_with_a_time_of_their_own_have_a_window_named_for_the_first_of_them():
    answers = {"parts1": ["short block", "engine"], "parts1.period": TWO_YEARS, "parts1.uses": ["rental"]}
    assert windows_of(answers) == [
        {"id": "short-block-rental", "covers": ["short block", "engine"], "uses": ["rental"], "period": TWO_YEARS}
    ]


def test_two_groups_that_begin_with_the_same_part_have_different_ids():
    one = {"parts1": ["engine"], "parts1.period": YEAR, "parts2": ["engine", "piston"], "parts2.period": TWO_YEARS}
    assert ids(one) == ["engine", "engine-2"]


def test_a_group_named_as_another_would_be_by_its_place_has_another_id():
    groups = {part_keys(place)[0]: [part] for place, part in enumerate(("engine", "engine 3", "engine"), start=1)}
    assert ids({**groups, **{part_keys(place).period: YEAR for place in (1, 2, 3)}}) == [
        "engine",
        "engine-3",
        "engine-3-3",
    ]


@pytest.mark.parametrize("lacking", ["parts1", "parts1.period"])
def test_parts_without_a_time_and_a_time_without_parts_have_no_window(lacking):
    assert windows_of({"parts1": ["engine"], "parts1.period": YEAR, lacking: None}) == []


def test_the_last_group_of_parts_counts_as_the_others_do():
    last = part_keys(MOST_PARTS)
    told = {**ANY_USE, last.parts: ["battery"], last.period: TWO_YEARS, last.alone: True, "excluded": ["battery"]}
    assert [window.get("except", window["id"]) for window in windows_of(told)] == [["battery"], "battery"]
    assert timed_and_left_out(told) == ["battery"]


def test_hours_have_a_key_of_their_own_beside_the_limits_of_other_meters():
    limits = Limits((("hours", Decimal(300)), ("cycles", Decimal(5000))), "last")
    (window,) = windows_of({"parts1": ["engine"], "parts1.period": YEAR, "parts1.hours": limits})
    assert (window["hours"], window["limits"], window["whichever"]) == (
        Decimal(300),
        [{"meter": "cycles", "at": Decimal(5000)}],
        "last",
    )


@pytest.mark.parametrize(("named", "registered"), [(["unit"], [True]), (["engine"], [False]), ([], [True])])
def test_registration_lengthens_the_windows_it_is_said_of_or_all(named, registered):
    told = {**ANY_USE, "registered_within": Period(days=30), "registered_adds": YEAR, "registered_for": named}
    assert ["registered_adds" in window for window in windows_of(told)] == registered


def test_a_second_owner_without_cover_is_said_of_every_window():
    assert all(window["first_owner_only"] for window in windows_of({**ANY_USE, "second_owner": False}))


def test_what_nobody_answered_is_left_out():
    keys = plan_keys({"maker": "Halden Works", **ANY_USE}, "own")
    assert set(keys) == {"format", "id", "maker", "maker_name", "window"}


def test_a_maker_is_written_in_one_word():
    assert (slug("Orrin & Vale"), slug("Müller")) == ("orrin-vale", "muller")


def test_what_is_left_of_a_window_is_all_that_a_replaced_part_has():
    assert plan_keys({"replaced": "rest"}, "own")["replaced"] == {"keeps_remaining": True}


def test_a_replaced_part_has_its_own_period_or_what_is_left_if_that_is_longer():
    assert plan_keys({"replaced": YEAR}, "own")["replaced"] == {"period": YEAR, "keeps_remaining": True}


@pytest.mark.parametrize(("of", "counted_from"), [(None, "filed"), ("repaired", "repaired")])
def test_a_failed_part_is_kept_from_the_filing_unless_the_booklet_says_otherwise(of, counted_from):
    assert plan_keys({"hold": YEAR, "hold_of": of}, "own")["hold"] == {"for": YEAR, "of": counted_from}


@pytest.mark.parametrize("lacking", ["elsewhere", "elsewhere_maker"])
def test_parts_of_another_maker_are_told_where_both_are_known(lacking):
    told = {"elsewhere": ["engine"], "elsewhere_maker": "Orrin"}
    assert [one["maker"] for one in plan_keys(told, "own")["elsewhere"]] == ["Orrin"]
    assert "elsewhere" not in plan_keys({**told, lacking: None}, "own")


@pytest.mark.parametrize("hours", [Decimal(0), Decimal("0.5")])
def test_a_diagnosis_is_paid_by_its_operation_for_so_many_hours(hours):
    told = {"diagnosis_operation": "DG-1", "diagnosis": hours}
    assert plan_keys(told, "own")["pays"]["diagnosis"] == {"operation": "DG-1", "hours": hours}


@pytest.mark.parametrize("lacking", ["diagnosis_operation", "diagnosis"])
def test_a_diagnosis_without_its_operation_or_its_hours_is_not_told(lacking):
    told = {"diagnosis_operation": "DG-1", "diagnosis": Decimal("0.5"), "tax": Decimal("0.05")}
    assert "diagnosis" not in plan_keys({**told, lacking: None}, "own")["pays"]


def test_an_owner_pays_the_deductible():
    deductible = plan_keys({"deductible": Decimal(25)}, "own")["pays"]["deductible"]
    assert deductible == {"amount": Decimal(25), "payer": "owner"}


def test_what_is_not_asked_is_named_by_a_key_that_there_is():
    assert {key for _, key in NOT_ASKED} <= {key.name for key in key_list(Plan)}


def test_a_part_with_a_time_of_its_own_is_not_left_out_as_well():
    assert timed_and_left_out({"parts2": ["Battery"], "excluded": ["blade", "battery"]}) == ["battery"]


def test_a_tax_is_paid_on_top():
    assert plan_keys({"tax": Decimal("0.081")}, "own")["pays"]["tax"] == Decimal("0.081")


def test_parts_with_no_cover_but_their_own_are_left_out_of_the_whole_unit():
    told = {**ANY_USE, "parts1": ["battery"], "parts1.period": TWO_YEARS, "parts1.alone": True}
    assert [window.get("except") for window in windows_of(told)] == [["battery"], None]


def test_they_are_left_out_in_the_uses_they_have_their_own_cover_in():
    told = {**ANY_USE, "parts1": ["battery"], "parts1.period": TWO_YEARS, "parts1.alone": True}
    windows = {window["id"]: window.get("except") for window in windows_of({**told, "parts1.uses": ["rental"]})}
    assert (windows["unit-rental"], windows["unit-household"]) == (["battery"], None)


def test_what_a_second_owner_has_is_said_of_every_window():
    told = {**ANY_USE, "second_owner": True, "transfer_within": Period(days=30), "transfer_fee": Decimal(25)}
    (window,) = windows_of(told)
    assert window["owners"] == {"transfer_within": Period(days=30), "fee": Decimal(25)}


@pytest.mark.parametrize(("labour", "pays"), [(None, ["parts"]), (True, None)])
def test_parts_sold_have_windows_of_their_own(labour, pays):
    told = {"counter_part": Period(days=90), "fitted_part": YEAR, "parts_sold_labour": labour}
    assert [(window["covers"], window.get("pays")) for window in windows_of(told)] == [
        (["parts sold"], pays),
        (["parts fitted"], pays),
    ]


def test_travel_joins_its_cap_among_the_extras():
    capped = [{"kind": "freight", "cap": Decimal(50)}, {"kind": "travel", "cap": Decimal(90)}]
    travel = {"kind": "travel", "per": Decimal("0.65"), "of": "mile"}
    assert plan_keys({"extras": capped, "travel": travel}, "own")["pays"]["extras"] == [
        capped[0],
        {"kind": "travel", "cap": Decimal(90), "per": Decimal("0.65"), "of": "mile"},
    ]


def test_what_a_window_does_not_pay_falls_to_whom_the_booklet_says():
    told = {**ANY_USE, "pays": ["parts"], "rest": "shop", "parts1": ["engine"], "parts1.period": YEAR}
    windows = windows_of({**told, "pays_for": ["engine"]})
    assert [(window.get("pays"), window.get("rest")) for window in windows] == [(None, None), (["parts"], "shop")]
