"""Money rows: rounding, the minor units of ISO 4217, and sharing a total by largest remainders."""

from decimal import ROUND_HALF_EVEN, Decimal

import pytest

from claimpack.core.values.money import fits, minor_unit, rounded, share
from claimpack.errors import BadInput


@pytest.mark.practice
@pytest.mark.parametrize(
    ("amount", "half_up", "half_even"),
    [
        ("2.675", "2.68", "2.68"),
        ("2.665", "2.67", "2.66"),
        ("0.125", "0.13", "0.12"),
        ("1.005", "1.01", "1.00"),
        ("10.005", "10.01", "10.00"),
    ],
    ids=["M1", "M2 2.665", "M2 0.125", "M2 1.005", "M2 10.005"],
)
def test_halves_round_away_from_zero_and_not_to_even(amount, half_up, half_even):
    assert Decimal(amount).quantize(Decimal("0.01"), ROUND_HALF_EVEN) == Decimal(half_even)
    assert rounded(Decimal(amount), "USD") == Decimal(half_up)


@pytest.mark.practice
def test_a_binary_float_would_lose_a_cent():
    """M1: 2.675 in binary is a little less than it says."""
    assert round(2.675, 2) == 2.67
    assert rounded(Decimal("2.675"), "USD") == Decimal("2.68")


@pytest.mark.practice
def test_halves_below_zero_round_away_from_zero():
    """M3."""
    assert rounded(Decimal("-2.5"), "JPY") == -3


@pytest.mark.source("ISO 4217 minor units, through published restatements: M4, M5")
@pytest.mark.parametrize(
    ("currency", "decimals"),
    [("USD", 2), ("EUR", 2), ("GBP", 2), ("AUD", 2), ("INR", 2), ("JPY", 0), ("KWD", 3), ("BHD", 3)],
)
def test_a_currency_has_its_minor_unit(currency, decimals):
    assert minor_unit(currency) == decimals


@pytest.mark.source("ISO 4217 minor units, derived: M6")
@pytest.mark.parametrize(("amount", "currency", "pays"), [("12.345", "KWD", True), ("1000.5", "JPY", False)])
def test_an_amount_has_no_more_decimals_than_its_currency(amount, currency, pays):
    assert fits(Decimal(amount), currency) is pays


@pytest.mark.source("largest-remainder method, general references: M7, M8, M9")
@pytest.mark.parametrize(
    ("total", "weights", "parts"),
    [
        ("100.00", ["1", "1", "1"], ["33.34", "33.33", "33.33"]),
        ("0.05", ["3", "7"], ["0.02", "0.03"]),
        ("87.31", ["45.50", "22.00", "12.50"], ["49.66", "24.01", "13.64"]),
    ],
    ids=["M7", "M8", "M9"],
)
def test_a_total_is_shared_by_largest_remainders(total, weights, parts):
    assert share(Decimal(total), [Decimal(weight) for weight in weights], "USD") == [Decimal(part) for part in parts]


@pytest.mark.memory
def test_seats_are_shared_as_hares_quota_shares_them():
    """M10: ten seats; yen, since they have no smaller coin. The figures are from memory."""
    votes = [47_000, 16_000, 15_800, 12_000, 6_100, 3_100]
    assert share(Decimal(10), [Decimal(vote) for vote in votes], "JPY") == [5, 2, 1, 1, 1, 0]


@pytest.mark.source("largest-remainder method, general references: M11")
@pytest.mark.parametrize("total", ["0.01", "0.02", "99.99", "1234.57"])
def test_parts_add_up_and_each_is_the_floor_or_ceiling_of_its_share(total):
    weights = [Decimal("1.1"), Decimal("2.3"), Decimal("0.7")]
    parts = share(Decimal(total), weights, "USD")
    strays = [abs(part - Decimal(total) * weight / sum(weights)) for part, weight in zip(parts, weights, strict=True)]
    assert sum(parts) == Decimal(total)
    assert max(strays) < Decimal("0.01")


@pytest.mark.source("largest-remainder method, derived: M12")
def test_nothing_is_shared_as_nothing():
    assert share(Decimal(0), [Decimal(1), Decimal(2)], "USD") == [0, 0]


@pytest.mark.source("largest-remainder method, derived: M12")
def test_weights_that_are_all_zero_are_refused():
    with pytest.raises(BadInput):
        share(Decimal(1), [Decimal(0), Decimal(0)], "USD")
