from datetime import date
from decimal import Decimal

import pytest
from builders import a_claim
from pydantic import ValidationError

from claimpack.core.facts.cases import Approval

REPAIR = {"component": "coil", "repaired": "2025-09-01"}
TENTH = date(2026, 2, 10)


@pytest.mark.parametrize(
    "days",
    [{"presented": "2025-09-02"}, {"returned": "2025-08-31"}, {"mended": False, "told": "2025-08-31"}],
    ids=["in after it was repaired", "out before", "told before"],
)
def test_the_days_of_an_earlier_repair_follow_each_other(days):
    with pytest.raises(ValidationError, match="is before"):
        a_claim(earlier=[REPAIR | days])


@pytest.mark.parametrize("told", [{}, {"told": "2025-09-01"}, {"mended": False, "told": "2025-09-02"}])
def test_all_days_of_an_earlier_repair_may_be_one(told):
    days = {"presented": "2025-09-01", "returned": "2025-09-01"}
    assert a_claim(earlier=[REPAIR | days | told]).earlier[0].returned == date(2025, 9, 1)


@pytest.mark.parametrize("day", ["presented", "returned"])
def test_of_an_earlier_repair_one_day_may_be_told_without_the_other(day):
    (repair,) = a_claim(earlier=[REPAIR | {day: "2025-09-01"}]).earlier
    assert getattr(repair, day) == date(2025, 9, 1)


def test_nobody_tells_of_a_repair_that_mended_it_that_it_did_not():
    with pytest.raises(ValidationError, match="told is the day"):
        a_claim(earlier=[REPAIR | {"mended": True, "told": "2025-09-02"}])


def test_an_earlier_repair_may_have_mended_it():
    assert a_claim(earlier=[REPAIR | {"mended": True}]).earlier[0].mended is True


def test_meters_of_an_earlier_repair_leave_the_hours_to_their_own_key():
    with pytest.raises(ValidationError, match="stands under hours"):
        a_claim(earlier=[REPAIR | {"meters": [{"kind": "Hours", "value": "1"}]}])


def test_meters_of_an_earlier_repair_may_count_something_else():
    assert a_claim(earlier=[REPAIR | {"meters": [{"kind": "cycles", "value": "1"}]}]).earlier[0].meters[0].value == 1


@pytest.mark.parametrize(
    ("days", "said"),
    [
        ({"on": "2026-02-10", "expires": "2026-02-09"}, "expires 2026-02-09 is before on 2026-02-10"),
        ({"asked": "2026-02-11", "on": "2026-02-10"}, "on 2026-02-10 is before asked 2026-02-11"),
    ],
    ids=["over before it was given", "given before it was asked for"],
)
def test_the_days_of_an_approval_follow_each_other(days, said):
    with pytest.raises(ValidationError, match=said):
        a_claim(approval={"number": "A-1", **days})


@pytest.mark.parametrize(
    "days", [("asked", "on", "expires"), ("on",), ("asked",), ("expires",), ("asked", "expires")], ids=" ".join
)
def test_the_days_of_an_approval_may_be_one_and_none_need_be_told(days):
    approval = a_claim(approval=dict.fromkeys(days, "2026-02-10")).approval
    assert {getattr(approval, day) for day in days} == {TENTH}


@pytest.mark.parametrize(
    ("approval", "stands"),
    [
        ({"state": "asked"}, "waited for"),
        ({"state": "asked", "number": "A-1"}, "given"),
        ({"state": "given", "number": "A-1"}, "given"),
        ({"number": "A-1"}, "given"),
        ({"state": "refused", "number": "A-1"}, "refused"),
        ({"state": "refused"}, "refused"),
        ({"state": "given"}, ""),
        ({}, ""),
    ],
)
def test_a_number_is_the_makers_yes_unless_it_said_no(approval, stands):
    told = Approval.model_validate(approval)
    said = {"waited for": told.is_waited_for, "given": told.is_given, "refused": told.is_refused}
    assert [word for word, holds in said.items() if holds] == ([stands] if stands else [])


@pytest.mark.parametrize(("claimed", "short"), [("449.99", False), ("450.00", False), ("450.01", True)])
def test_an_approval_falls_short_of_more_than_it_was_given_for(claimed, short):
    assert Approval(up_to="450.00").falls_short_of(Decimal(claimed)) is short


def test_an_approval_without_an_amount_falls_short_of_nothing():
    assert not Approval().falls_short_of(Decimal(450))


@pytest.mark.parametrize(
    ("on", "repaired", "late"),
    [
        ("2026-02-10", date(2026, 2, 9), True),
        ("2026-02-10", TENTH, False),
        ("2026-02-10", date(2026, 2, 11), False),
        ("2026-02-10", None, False),
        (None, TENTH, False),
    ],
    ids=["a day late", "the same day", "the day before", "not repaired", "no day"],
)
def test_an_approval_comes_before_the_repair_or_the_same_day(on, repaired, late):
    assert Approval(on=on).came_after(repaired) is late


@pytest.mark.parametrize(
    ("expires", "on", "over"),
    [
        ("2026-02-10", date(2026, 2, 9), False),
        ("2026-02-10", TENTH, False),
        ("2026-02-10", date(2026, 2, 11), True),
        ("2026-02-10", None, False),
        (None, TENTH, False),
    ],
    ids=["the day before", "its last day", "the day after", "not repaired", "no day"],
)
def test_an_approval_counts_up_to_its_last_day(expires, on, over):
    assert Approval(expires=expires).had_run_out(on) is over


def test_a_part_sold_need_not_have_been_fitted_by_the_shop():
    assert a_claim(part_sold={"sold": "2025-11-02"}).part_sold.fitted is None


@pytest.mark.parametrize("fitted", ["2025-11-02", "2025-11-03"])
def test_a_part_may_be_fitted_the_day_it_is_sold(fitted):
    assert str(a_claim(part_sold={"sold": "2025-11-02", "fitted": fitted}).part_sold.fitted) == fitted


def test_a_part_is_not_fitted_before_it_is_sold():
    with pytest.raises(ValidationError, match="fitted 2025-11-01 is before"):
        a_claim(part_sold={"sold": "2025-11-02", "fitted": "2025-11-01"})


@pytest.mark.parametrize("told", [{"fitted": "2025-11-02"}, {"never_fitted": True}])
def test_whether_a_part_was_fitted_may_be_told_without_the_day_it_was_sold(told):
    assert a_claim(part_sold=told).part_sold.sold is None


def test_a_part_that_was_fitted_is_not_said_never_to_have_been():
    with pytest.raises(ValidationError, match="never_fitted is true, but fitted is 2025-11-02"):
        a_claim(part_sold={"fitted": "2025-11-02", "never_fitted": True})


@pytest.mark.parametrize("answered", [None, "2026-02-10", "2026-02-11"])
def test_a_question_may_be_answered_the_day_it_came_in(answered):
    (question,) = a_claim(questions=[{"asked": "2026-02-10", **({"answered": answered} if answered else {})}]).questions
    assert question.asked == TENTH


def test_a_question_is_not_answered_before_it_came_in():
    with pytest.raises(ValidationError, match="answered 2026-02-09 is before asked 2026-02-10"):
        a_claim(questions=[{"asked": "2026-02-10", "answered": "2026-02-09"}])
