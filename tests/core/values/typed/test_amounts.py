import pytest

from claimpack.core.values.typed.amounts import amount_written, without_unit


@pytest.mark.parametrize(
    ("written", "currency", "amount"),
    [
        ("$1,200.00", "USD", "1200.00"),
        ("1.200,00", "USD", "1200.00"),
        ("1,200", "USD", "1200"),
        ("USD 140", "USD", "140"),
        ("38.155", "USD", "38.155"),
        ("€ 12,50", "EUR", "12.50"),
        ("1 200,00", "EUR", "1200.00"),
        ("0,125", "EUR", "0.125"),
        ("1.234.567", "EUR", "1234567"),
        ("1'200.50", "CHF", "1200.50"),
        ("38.155", "", "38.155"),
        ("1,234,567", "", "1234567"),
        ("kr 12,50", "SEK", "12.50"),
        ("USD -5", "USD", "-5"),
    ],
)
def test_an_amount_is_read_as_people_write_it(written, currency, amount):
    assert amount_written(written, currency) == amount


@pytest.mark.parametrize(
    ("written", "currency"), [("1,200", "EUR"), ("1.200", "EUR"), ("1,200", ""), ("12,50", ""), ("12,50", "USD")]
)
def test_an_amount_that_reads_two_ways_is_refused(written, currency):
    with pytest.raises(ValueError, match="write"):
        amount_written(written, currency)


@pytest.mark.parametrize(("written", "currency"), [("€12", "USD"), ("$140", ""), ("GBP 9", "EUR")])
def test_another_currency_is_refused(written, currency):
    with pytest.raises(ValueError, match="currency"):
        amount_written(written, currency)


@pytest.mark.parametrize("written", ["abc", "-5", "1,2,3", "5 MB", "12,34.50", "1,200.5 0", "1,200.٣", ""])
def test_what_is_no_amount_is_left_to_others(written):
    assert amount_written(written, "USD") == written


def test_points_between_thousands_are_not_guessed_where_the_currency_is_not_known():
    assert amount_written("1.234.567") == "1.234.567"


@pytest.mark.parametrize(
    ("written", "number"),
    [("300 h", "300"), ("$92/hr", "$92"), ("92 an hour", "92"), ("25 per claim", "25"), ("300 miles", "300 miles")],
)
def test_words_for_an_hour_or_a_claim_are_left_off(written, number):
    assert without_unit(written) == number
