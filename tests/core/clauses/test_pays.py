from __future__ import annotations

import pytest
from builders import a_plan
from pydantic import ValidationError

from claimpack.core.clauses.pays import Pays


def test_one_handling_rate_is_written_as_one():
    assert Pays(parts_handling="0.20").model_dump(mode="json")["parts_handling"] == "0.20"


def test_bands_of_handling_are_read_back_as_written():
    pays = Pays(parts_handling=[{"up_to": "50.00", "rate": "0.30"}, {"rate": "0.10"}])
    assert Pays.model_validate(pays.model_dump(mode="json")) == pays


@pytest.mark.parametrize(
    "bands",
    [
        [],
        [{"rate": "0.1"}, {"up_to": "50", "rate": "0.3"}],
        [{"up_to": "50", "rate": "0.3"}, {"up_to": "50", "rate": "0.2"}],
        [{"up_to": "50", "rate": "0.3"}, {"up_to": "40", "rate": "0.2"}],
    ],
)
def test_bands_out_of_order_are_refused(bands):
    with pytest.raises(ValidationError):
        Pays(parts_handling=bands)


@pytest.mark.parametrize(("rate", "why"), [("15", "did you mean 0.15"), ("-0.1", "below 0"), ("a", "not a decimal")])
def test_a_handling_rate_that_is_no_fraction_is_refused(rate, why):
    with pytest.raises(ValidationError, match=why):
        a_plan(pays__parts_handling=rate)


def test_two_rates_for_the_same_labour_are_refused():
    with pytest.raises(ValidationError, match="two rates"):
        Pays(labour_rates=[{"class": "engine", "rate": "98"}, {"class": "Engine", "rate": "99"}])


@pytest.mark.parametrize(
    "terms",
    [
        [{"kind": "freight"}, {"kind": "freight", "cap": "5"}],
        [{"kind": "travel", "most_distance": "100"}],
        [{"kind": "travel", "per": "45", "of": "visit", "most_distance": "100"}],
        [{"kind": "freight", "per": "0.65"}],
    ],
)
def test_extras_that_mean_nothing_are_refused(terms):
    with pytest.raises(ValidationError):
        Pays(extras=terms)


def test_a_cap_that_no_coin_can_pay_is_refused():
    with pytest.raises(ValidationError, match="more decimals than USD"):
        a_plan(pays__extras=[{"kind": "freight", "cap": "5.005"}])
