from decimal import Decimal

import pytest

from claimpack.core.floors import labour_floor_gap, parts_floor_gap
from claimpack.core.terms import Terms

FLOOR = Terms(id="x", name="x", parts_floor="0.15", labour_floor="retail")
NONE = Terms(id="x", name="x")


@pytest.mark.parametrize(("handling", "gap"), [("0.14", "1.00"), ("0.15", "0"), ("0.16", "0")])
def test_a_plan_that_pays_the_floor_has_no_gap(handling, gap):
    assert parts_floor_gap(Decimal(100), Decimal(handling), FLOOR, "USD") == Decimal(gap)


def test_terms_without_a_floor_have_no_gap():
    assert parts_floor_gap(Decimal(100), Decimal(0), NONE, "USD") == 0


@pytest.mark.parametrize(("paid", "gap"), [("91.99", "0.01"), ("92.00", "0"), ("92.01", "0")])
def test_labour_below_the_retail_rate_has_a_gap(paid, gap):
    assert labour_floor_gap(Decimal(paid), Decimal("92.00"), FLOOR) == Decimal(gap)


def test_labour_has_no_floor_where_the_terms_have_none():
    assert labour_floor_gap(Decimal(1), Decimal(92), NONE) == 0


def test_a_shop_without_a_retail_rate_has_no_gap():
    assert labour_floor_gap(Decimal(1), None, FLOOR) == 0
