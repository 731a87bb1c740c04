"""A claim priced by its verdict: failures that are not covered, kinds of line that no window pays, and finding out."""

from __future__ import annotations

from decimal import Decimal

import pytest
from builders import a_claim, a_plan

from claimpack.core.pricing.pricing import price
from claimpack.core.pricing.retail import NO_RETAIL
from claimpack.core.pricing.window_pays import Cover, LeftTo, PaidPart
from claimpack.core.values.wording.sentence import say

TWO = [{"component": "short block"}, {"component": "gear case"}]
PLAN = a_plan(
    operation=[{"code": "find", "hours": "1.0"}, {"code": "block", "hours": "1.6", "includes": ["grip"]}],
    kit=[{"number": "K-70", "includes": ["G-1"]}],
    pays={"labour_rate": "92.00", "diagnosis": {"operation": "find", "hours": "0.5", "else": "owner"}},
)
CLOSED = Cover(closed={2})
LEFT = Cover(closed={2}, left={2: LeftTo("shop", say("price.failure-closed", failure=2, component="gear case"))})
NO_PARTS = {"parts": PaidPart(Decimal(0), why=say("price.share-over", window="engine", event="2026-02-05"))}
KIT = {"name": "gasket kit", "number": "K-70", "unit_cost": "40.00"}
GASKET = {"name": "gasket", "number": "G-1", "unit_cost": "5.00"}


def priced(cover, **lines):
    return price(a_claim(failure=TWO, **lines), PLAN, NO_RETAIL, cover)


def payers(found):
    return [line.payer for line in found.lines]


@pytest.mark.parametrize(
    ("entry", "payer"),
    [
        ({"failure": 2}, "owner"),
        ({"failure": 2, "payer": "shop"}, "shop"),
        ({"failure": 2, "operation": "grip", "hours": "1"}, "maker"),
    ],
    ids=["of what is not covered", "the shop's own", "other work"],
)
def test_finding_a_fault_that_is_not_covered_is_paid_by_whom_the_plan_says(entry, payer):
    assert payers(priced(CLOSED, labour=[{"operation": "find", **entry}])) == [payer]


def test_finding_a_fault_that_is_covered_is_the_makers_beside_one_that_is_not():
    assert payers(priced(CLOSED, labour=[{"operation": "find"}])) == ["maker", "shop"]


def test_the_owner_pays_all_hours_of_finding_what_is_not_covered():
    (line,) = priced(CLOSED, labour=[{"operation": "find", "failure": 2}]).lines
    assert (line.quantity, line.failure, [note.key for note in line.notes][-1]) == (1, 2, "price.no-diagnosis")


@pytest.mark.parametrize(
    ("entry", "cover", "hours"),
    [
        ({}, Cover(), "1.6"),
        ({"payer": "owner"}, Cover(), "0"),
        ({"failure": 2}, CLOSED, "0"),
        ({}, CLOSED, "1.6"),
        ({}, Cover(paid=({"labour": PaidPart(Decimal("0.5"))},)), "1.6"),
        ({}, Cover(paid=({"labour": PaidPart(Decimal(0))},)), "0"),
        ({}, Cover(paid=({"parts": PaidPart(Decimal(0))},)), "1.6"),
    ],
    ids=["covered", "the owner's", "not covered", "beside one not covered", "half", "nothing", "nothing of parts"],
)
def test_hours_are_asked_of_the_maker_for_what_it_pays_any_of(entry, cover, hours):
    (time,) = priced(cover, labour=[{"operation": "block", **entry}]).labour
    assert time.claimed == Decimal(hours)


def test_lines_of_a_failure_left_to_the_shop_are_the_shops_and_say_why():
    (line,) = priced(LEFT, parts=[{**GASKET, "failure": 2}]).lines
    assert (line.payer, line.failure, line.notes[-1].key) == ("shop", 2, "price.failure-closed")


def test_what_another_maker_covers_is_counted_apart():
    voltane = say("price.failure-elsewhere", failure=2, component="battery", maker="Voltane")
    cover = Cover(closed={2}, left={2: LeftTo("other maker", voltane)})
    amounts = priced(cover, parts=[GASKET, {**KIT, "failure": 2}]).amounts
    assert (amounts.claimed, amounts.other_maker, amounts.shop) == (5, 40, 0)


def test_what_the_owner_pays_of_a_failure_left_to_the_shop_stays_the_owners():
    assert payers(priced(LEFT, parts=[{**GASKET, "failure": 2, "payer": "owner"}])) == ["owner"]


def test_what_is_covered_beside_a_failure_left_to_the_shop_is_the_makers():
    assert payers(priced(LEFT, parts=[GASKET], labour=[{"operation": "block"}])) == ["maker", "maker"]


@pytest.mark.parametrize(
    ("cover", "amounts"),
    [(Cover(), ["40.00", "0.00"]), (LEFT, ["40.00", "5.00"]), (Cover(paid=({}, NO_PARTS)), ["40.00", "5.00"])],
    ids=["both covered", "the kit's failure not covered", "no parts paid of the kit's failure"],
)
def test_a_kit_the_maker_does_not_pay_includes_nothing_that_it_pays(cover, amounts):
    found = priced(cover, parts=[{**KIT, "failure": 2}, GASKET])
    assert [str(line.amount) for line in found.lines] == amounts


@pytest.mark.parametrize(("cover", "hours"), [(Cover(), ["1.6", "0"]), (LEFT, ["0", "1"])])
def test_work_the_maker_does_not_pay_includes_nothing_that_it_pays(cover, hours):
    found = priced(cover, labour=[{"operation": "block", "failure": 2}, {"operation": "grip", "hours": "1"}])
    assert [time.claimed for time in found.labour] == [Decimal(one) for one in hours]


def test_where_one_failure_is_all_there_is_a_kit_includes_its_parts_though_no_window_pays_parts():
    assert [str(line.amount) for line in priced(Cover(paid=(NO_PARTS,)), parts=[KIT, GASKET]).lines] == [
        "40.00",
        "0.00",
    ]
