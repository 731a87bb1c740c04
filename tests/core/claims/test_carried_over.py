from datetime import date

import pytest
from builders import a_claim

from claimpack.core.claims.carried_over import alike, another_visit, carried_over, told_of
from claimpack.core.claims.claim import Claim
from claimpack.errors import BadInput

CAME_IN = date(2026, 2, 5)
LATER = date(2026, 3, 1)


def test_owner_unit_papers_and_dates_are_carried_over():
    claim = a_claim(papers=["papers/letter.pdf"])
    carried = carried_over(claim)
    for key in ("owner", "unit", "dates", "proof", "papers"):
        assert getattr(carried, key) == getattr(claim, key)


def test_nothing_else_is():
    claim = a_claim(plan="p", terms="us-tx", findings=[{"what": "a", "value": "1"}], labour=[{"operation": "b"}])
    told = carried_over(claim).model_dump(exclude_defaults=True).keys()
    assert told == {"number", "maker", "owner", "unit", "dates", "proof"}


def test_a_unit_in_stock_stays_one():
    claim = a_claim(case="stock", dates__purchased="2026-03-01", dates__delivered=None)
    assert carried_over(claim).is_stock


def keys(claim):
    """Every key that a claim says, and every key of its tables."""
    said = claim.model_dump(exclude_unset=True)
    tables = {key: value for key, value in said.items() if isinstance(value, dict)}
    return said.keys() | {f"{table}.{key}" for table, inner in tables.items() for key in inner}


@pytest.mark.parametrize(
    "next_claim",
    [carried_over, lambda claim: another_visit(claim, LATER), alike],
    ids=["another maker", "another visit", "another unit"],
)
def test_what_the_first_claim_does_not_say_the_next_one_leaves_unsaid(next_claim):
    assert keys(next_claim(a_claim())) <= keys(a_claim())


def test_on_another_visit_it_comes_in_anew_and_nothing_of_the_repair_is_known():
    dates = another_visit(a_claim(dates__returned="2026-02-26"), LATER).dates
    assert (dates.presented, dates.failed, dates.repaired, dates.returned) == (LATER, None, None, None)
    assert dates.purchased == a_claim().dates.purchased


@pytest.mark.parametrize(
    ("today", "hours", "meters"),
    [(CAME_IN, "100", ["4100"]), (date(2026, 2, 6), None, []), (date(2026, 2, 4), None, [])],
    ids=["that day", "the day after", "the day before"],
)
def test_what_the_meters_read_is_carried_over_on_the_day_they_were_read(today, hours, meters):
    first = a_claim(unit__meters=[{"kind": "cycles", "value": "4100"}], dates__failed=None, dates__repaired=None)
    unit = another_visit(first, today).unit
    assert (hours and str(unit.hours), [str(meter.value) for meter in unit.meters]) == (hours, meters)
    assert unit.serials == first.unit.serials


def in_stock(sold):
    return a_claim(case="stock", dates={"presented": "2026-02-05", "purchased": sold}, owner={})


@pytest.mark.parametrize(
    ("today", "stock"),
    [(date(2026, 2, 20), True), (date(2026, 2, 21), False)],
    ids=["the day it was sold", "the day after"],
)
def test_a_unit_in_stock_is_not_in_stock_on_another_visit_after_it_was_sold(today, stock):
    second = another_visit(in_stock("2026-02-20"), today)
    assert (second.is_stock, second.dates.purchased) == (stock, date(2026, 2, 20))


@pytest.mark.parametrize(
    ("resold", "same"),
    [("2026-02-05", True), ("2026-02-06", False), ("2026-03-01", False), ("2026-03-02", True)],
    ids=["when it came in first", "the day after", "the day of the next visit", "after that"],
)
def test_the_owner_is_the_same_on_another_visit_until_it_is_sold_on(resold, same):
    first = a_claim(dates__resold=resold, owner={"name": "A. Customer"})
    assert (another_visit(first, LATER).owner.name == "A. Customer") is same


def test_whether_the_owner_was_the_first_is_asked_anew_where_it_was_sold_on():
    assert another_visit(a_claim(dates__resold="2026-02-27"), LATER).owner.first_owner is None


def test_a_unit_does_not_come_in_again_before_it_was_sold():
    with pytest.raises(BadInput, match=r"claim 26-0001: .*2025-03-13 is before"):
        another_visit(a_claim(), date(2025, 3, 13))


def test_that_one_of_two_units_in_stock_was_sold_says_nothing_of_the_other():
    assert alike(in_stock("2026-02-20")).dates.purchased is None


def test_a_unit_alike_shares_what_is_on_the_receipt():
    first = a_claim(plan="halden-2025", terms="us-tx", papers=["papers/letter.pdf"])
    second = alike(first)
    for key in ("maker", "plan", "terms", "owner", "proof", "papers"):
        assert getattr(second, key) == getattr(first, key)
    assert (second.unit.model, second.unit.kind, second.unit.use) == ("CS-70", "cut-off saw", "professional")
    assert (second.dates.purchased, second.dates.delivered) == (date(2025, 3, 14), date(2025, 3, 14))


def test_what_is_one_units_alone_is_not_a_unit_alikes():
    second = alike(a_claim(dates__registered="2025-03-20", unit__built="2025-01-02"))
    assert (second.unit.serials, second.unit.hours, second.unit.built) == ((), None, None)
    assert (second.dates.registered, second.dates.failed, second.dates.repaired) == (None, None, None)


@pytest.mark.parametrize("case", ["stock", "goodwill"])
def test_of_a_unit_alike_only_that_it_is_in_stock_is_known(case):
    first = a_claim(case=case, dates={"presented": "2026-02-05"})
    assert (alike(first).case == case) is (case == "stock")


BARE = {"number": "26-0001", "maker": "halden", "unit": {"model": "CS-70", "serials": []}}


@pytest.mark.parametrize(
    ("told", "words"),
    [
        ({}, []),
        ({"unit": {"model": "CS-70", "serials": [{"role": "unit", "value": "HC70-1"}]}}, ["the serial numbers"]),
        ({"unit": {"model": "CS-70", "serials": [], "use": "rental"}}, ["the use"]),
        ({"unit": {"model": "CS-70", "serials": [], "hours": "0"}}, ["the meters"]),
        ({"unit": {"model": "CS-70", "serials": [], "meters": [{"kind": "km", "value": "1"}]}}, ["the meters"]),
        ({"unit": {"model": "CS-70", "serials": [], "built": "2025-01-02"}}, ["the day it was built"]),
        ({"dates": {"purchased": "2025-03-14"}}, ["the day of sale"]),
        ({"dates": {"delivered": "2025-03-14"}}, ["the day of sale"]),
        ({"dates": {"registered": "2025-03-20"}}, ["the registration"]),
        ({"dates": {"never_registered": True}}, ["the registration"]),
        ({"dates": {"repaired": "2026-02-24"}}, ["the days of the repair"]),
        ({"dates": {"failed": "2026-02-02"}}, ["the days of the repair"]),
        ({"owner": {"name": "A. Customer"}}, ["the owner"]),
        ({"proof": {"kind": "receipt"}}, ["the proof of purchase"]),
        ({"papers": ["papers/letter.pdf"]}, ["the papers"]),
        ({"plan": "halden-2025"}, ["plan halden-2025"]),
    ],
)
def test_what_came_over_is_told_and_nothing_that_did_not(told, words):
    dates = {"presented": "2026-02-05", **told.get("dates", {})}
    assert told_of(Claim.model_validate({**BARE, **told, "dates": dates})) == ["model CS-70", *words]
