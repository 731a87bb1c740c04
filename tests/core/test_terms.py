from decimal import Decimal

import pytest
from pydantic import ValidationError

from claimpack.core.terms import Terms


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
