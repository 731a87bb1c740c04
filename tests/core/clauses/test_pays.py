from __future__ import annotations

from decimal import Decimal

import pytest
from builders import a_plan
from pydantic import ValidationError

from claimpack.core.clauses.pays import Pays


def test_one_handling_rate_is_written_as_one():
    assert Pays(parts_handling="0.20").model_dump(mode="json")["parts_handling"] == "0.20"


@pytest.mark.parametrize(
    "bands",
    [[{"up_to": "50.00", "rate": "0.30"}, {"rate": "0.10"}], [{"up_to": "50.00", "rate": "0.30"}]],
    ids=["two", "one with an end"],
)
def test_bands_of_handling_are_written_as_they_were_read(bands):
    pays = Pays(parts_handling=bands)
    written = pays.model_dump(mode="json")
    assert (written["parts_handling"], Pays.model_validate(written)) == (bands, pays)


@pytest.mark.parametrize(
    ("cost", "rate"),
    [("0", "0.30"), ("49.99", "0.30"), ("50.00", "0.30"), ("50.01", "0.20"), ("200.00", "0.20"), ("200.01", "0")],
)
def test_the_cost_that_ends_a_band_is_in_it_and_above_the_last_nothing_is_added(cost, rate):
    pays = Pays(parts_handling=[{"up_to": "50.00", "rate": "0.30"}, {"up_to": "200.00", "rate": "0.20"}])
    assert pays.handling_rate(Decimal(cost)) == Decimal(rate)


def test_a_band_without_an_end_is_for_every_cost_above_the_others():
    pays = Pays(parts_handling=[{"up_to": "50.00", "rate": "0.30"}, {"rate": "0.10"}])
    assert pays.handling_rate(Decimal("9000.00")) == Decimal("0.10")


def test_that_nothing_is_added_to_parts_may_be_said():
    assert Pays(parts_handling="0").handling_rate(Decimal("12.50")) == 0


@pytest.mark.parametrize(("kind", "cap"), [("freight", 50), ("travel", 10), (None, 10)])
def test_an_extra_that_no_entry_names_falls_among_the_rest(kind, cap):
    pays = Pays(extras=[{"kind": "freight", "cap": "50"}, {"kind": "*", "cap": "10"}])
    assert pays.terms_of_extra(kind).cap == cap


def test_of_an_extra_that_no_entry_names_nothing_is_said_where_there_is_no_rest():
    assert Pays(extras=[{"kind": "freight"}]).terms_of_extra("travel") is None


def test_an_extra_needs_approval_only_where_that_is_said():
    extras = Pays(extras=[{"kind": "freight"}, {"kind": "travel", "approval": True}]).extras
    assert [terms.approval for terms in extras] == [False, True]


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
