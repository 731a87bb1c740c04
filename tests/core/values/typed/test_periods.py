from __future__ import annotations

from decimal import Decimal

import pytest

from claimpack.core.values.periods import Period
from claimpack.core.values.typed.periods import list_written, percent_written, period_written


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("24 months", Period(months=24)),
        ("1 year and 6 months", Period(years=1, months=6)),
        ("90-day", Period(days=90)),
        ("two years", Period(years=2)),
        ("2 Yrs", Period(years=2)),
        ("p12m", Period(months=12)),
    ],
)
def test_a_time_is_read_as_people_write_it(written, meant):
    assert period_written(written) == meant


@pytest.mark.parametrize("written", ["24", "soon", "p. 4", "2 years 3 years", "12 months of use", "0 days"])
def test_what_is_no_time_or_has_no_unit_is_refused(written):
    with pytest.raises(ValueError, match=r"."):
        period_written(written)


def test_a_list_has_each_word_once_whatever_stands_between_them():
    assert list_written("air filter, spark plug and  starter rope; air filter") == [
        "air filter",
        "spark plug",
        "starter rope",
    ]


@pytest.mark.parametrize("written", ["20 %", "20", "0.20"])
def test_a_percentage_is_read_as_a_fraction(written):
    assert percent_written(written) == Decimal("0.20")


@pytest.mark.parametrize("written", ["0", "0 %"])
def test_nothing_is_a_percentage_as_well(written):
    assert percent_written(written) == 0


@pytest.mark.parametrize("written", ["1", "120 %", "-5", "20 % more"])
def test_a_percentage_that_may_be_two_things_or_is_none_is_refused(written):
    with pytest.raises(ValueError, match=r"."):
        percent_written(written)
