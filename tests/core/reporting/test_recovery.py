from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from builders import a_claim, a_plan
from reported_claims import EVER, TODAY, counted, paid, waiting

from claimpack.core.pricing.pricing import Retail
from claimpack.core.reporting.recovery import NOBODY, RateGaps, Recovery, Technicians
from claimpack.core.reporting.reported import Days
from claimpack.core.reporting.work import Work, work_of

WORK = Work("Replace seal", "Jory", Decimal("1.5"), Decimal("1.0"), Decimal("90.00"), Decimal("100.00"))


def test_the_work_of_a_claim_is_what_its_plan_pays_beside_what_owners_pay():
    plan, claim = a_plan(), a_claim(labour=[{"operation": "Clean", "hours": "2.0", "technician": "Jory"}])
    work = work_of(claim, plan, Retail(labour_rate=Decimal(100)))[0]
    assert work.claimed == 2
    assert (work.worth, work.retail) == (work.claimed * plan.pays.labour_rate, work.claimed * 100)


def test_without_a_plan_or_of_a_declined_repair_there_is_no_work():
    labour = [{"operation": "Clean", "hours": "2.0"}]
    declined = a_claim(labour=labour, case="declined")
    assert work_of(a_claim(labour=labour), None, Retail()) == work_of(declined, a_plan(), Retail()) == ()


@pytest.mark.parametrize("facts", [{"state": "withdrawn"}, {"filed": date(2025, 12, 31)}], ids=["withdrawn", "before"])
def test_a_claim_withdrawn_or_filed_before_the_days_is_left_out(facts):
    assert counted(Recovery(Days(date(2026, 1, 1), TODAY)), [paid(**facts)]) == ()


def test_a_claim_counts_once_under_its_longest_operation():
    short = WORK._replace(operation="Test", claimed=Decimal("0.2"))
    found = counted(Recovery(EVER), [paid("1", work=(short, WORK)), waiting("2", work=(WORK,))])
    assert [(row.operation, row.claims, row.claimed, row.paid, row.outstanding) for row in found] == [
        ("Replace seal", 2, 200, 100, 100)
    ]


def test_what_is_recovered_leaves_out_what_is_waited_for():
    shares = [counted(Recovery(EVER), [one])[0].share for one in (paid(), paid(paid=Decimal(60)), waiting())]
    assert shares == [1, Decimal("0.6"), None]


def test_what_is_waited_for_is_not_lost():
    part = waiting(state="accepted", paid=Decimal(30), outstanding=Decimal(60))
    assert counted(Recovery(EVER), [part])[0].lost == 10


def test_what_one_claim_brought_too_much_makes_up_for_no_other():
    short = paid("2", paid=Decimal("70.00"), written_off=Decimal("30.00"))
    row = counted(Recovery(EVER), [paid("1", paid=Decimal("130.00")), short])[0]
    assert (row.paid, row.lost, row.share) == (Decimal("170.00"), Decimal("30.00"), Decimal("0.85"))


def test_the_operation_that_brings_least_stands_first():
    less = paid("1", work=(WORK,), paid=Decimal(60))
    more = paid("2", work=(WORK._replace(operation="Test"),), paid=Decimal(50))
    assert [row.operation for row in counted(Recovery(EVER), [less, more])] == ["Test", "Replace seal"]


def test_a_rate_is_held_against_the_shops_own_in_money():
    gap = counted(RateGaps(EVER), [paid("1", work=(WORK, WORK))])[0]
    assert (gap.hours, gap.worth, gap.retail, gap.gap) == (2, 180, 200, 20)


def test_without_a_rate_of_its_own_a_shop_has_nothing_to_hold_against_it():
    assert counted(RateGaps(EVER), [paid(work=(WORK._replace(retail=None),))]) == ()


def test_a_technicians_income_is_the_labour_in_the_share_that_was_paid():
    half = paid("2", work=(WORK,), paid=Decimal(50))
    found = counted(Technicians(EVER), [paid("1", work=(WORK,)), half])[0]
    assert (found.claims, found.worked, found.claimed, found.worth, found.income) == (2, 3, 2, 180, 135)


def test_work_on_a_claim_of_nothing_brings_no_income():
    found = counted(Technicians(EVER), [waiting(work=(WORK,), claimed=Decimal(0), outstanding=Decimal(0))])[0]
    assert (found.worth, found.income) == (90, 0)


def test_work_that_names_nobody_is_told_as_such():
    nobody = WORK._replace(technician="", worked=None)
    found = counted(Technicians(EVER), [paid(work=(nobody,))])[0]
    assert (found.technician, found.worked) == (NOBODY, 0)
