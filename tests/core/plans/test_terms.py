from decimal import Decimal

import pytest
from pydantic import ValidationError

from claimpack.core.plans.terms import Terms, labour_floor_gap, parts_floor_gap


def terms(**keys):
    return Terms(id="us-xx", name="A law", **keys)


def test_a_floor_is_the_cost_and_its_part():
    assert terms(parts_floor="0.30").floor_of(Decimal("40.00")) == Decimal("52.00")


def test_without_a_floor_there_is_none():
    assert terms().floor_of(Decimal(40)) is None


def test_a_floor_of_nothing_is_the_cost():
    assert terms(parts_floor="0").floor_of(Decimal(40)) == 40


def test_silence_means_nothing_where_the_terms_do_not_say():
    assert terms().silence == "nothing"


@pytest.mark.parametrize("key", ["answer_within", "pay_within", "resubmit_within", "inspect_within", "audit_reach"])
def test_terms_that_are_absent_are_not_known_to_exist(key):
    assert getattr(terms(), key) is None


def test_a_term_is_a_period():
    with pytest.raises(ValidationError, match="period"):
        terms(answer_within="30 days")


def test_a_floor_below_nothing_is_refused():
    with pytest.raises(ValidationError, match="parts_floor"):
        terms(parts_floor="-0.1")


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
