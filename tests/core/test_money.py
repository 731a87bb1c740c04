from decimal import Decimal

import pytest

from claimpack.core.money import exact, fits, minor_unit, plain, rounded, share, to_step
from claimpack.errors import BadInput


def test_a_binary_float_is_no_exact_number():
    with pytest.raises(ValueError, match="decimal number"):
        exact(0.1)


@pytest.mark.parametrize("written", ["nan", "inf", "1e99", "twelve", "", "1,50"])
def test_what_is_no_amount_is_refused(written):
    with pytest.raises(ValueError, match="not"):
        exact(written)


def test_truth_values_are_no_numbers():
    with pytest.raises(ValueError, match="decimal number"):
        exact(True)


def test_decimals_are_kept_as_written():
    assert plain(exact("92.10")) == "92.10"


def test_large_numbers_print_without_an_exponent():
    assert plain(Decimal("1E+3")) == "1000"


def test_an_unknown_currency_is_refused():
    with pytest.raises(BadInput) as caught:
        minor_unit("USX")
    assert "USX" in caught.value.what


def test_amounts_round_half_away_from_zero():
    assert rounded(Decimal("2.665"), "USD") == Decimal("2.67")


def test_yen_have_no_decimals():
    assert rounded(Decimal("1000.5"), "JPY") == Decimal(1001)


def test_an_amount_with_too_many_decimals_does_not_fit():
    assert not fits(Decimal("12.345"), "USD")


def test_an_amount_with_trailing_zeros_fits():
    assert fits(Decimal("12.500"), "USD")


@pytest.mark.parametrize(
    ("hours", "way", "claimed"),
    [("0.25", "nearest", "0.3"), ("0.25", "up", "0.3"), ("0.25", "down", "0.2"), ("0.2", "up", "0.2")],
)
def test_hours_go_to_the_step(hours, way, claimed):
    assert to_step(Decimal(hours), Decimal("0.1"), way) == Decimal(claimed)


def test_shares_add_up_to_the_total():
    parts = share(Decimal("100.00"), [Decimal(1)] * 3, "USD")
    assert sum(parts) == Decimal("100.00")


def test_the_first_line_takes_the_unit_left_over():
    assert share(Decimal("0.05"), [Decimal(3), Decimal(7)], "USD") == [Decimal("0.02"), Decimal("0.03")]


def test_shares_over_nothing_are_refused():
    with pytest.raises(BadInput):
        share(Decimal(1), [Decimal(0)], "USD")


def test_nothing_is_shared_as_nothing():
    assert share(Decimal(0), [Decimal(1), Decimal(2)], "USD") == [0, 0]
