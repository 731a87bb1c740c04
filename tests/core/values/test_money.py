import json
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter

from claimpack.core.facts.by_library import in_its_words
from claimpack.core.values.money import (
    Number,
    PartOfOne,
    coins,
    exact,
    fits,
    grouped,
    in_money,
    minor_unit,
    plain,
    plain_or_none,
    rounded,
    share,
    summed,
    to_step,
    under_each_other,
    unit_price,
)
from claimpack.errors import BadInput


def test_a_binary_float_is_no_exact_number():
    with pytest.raises(ValueError, match="decimal number"):
        exact(0.1)


@pytest.mark.parametrize("written", ["nan", "inf", "1e99", "twelve", "", "1,50", "1_8.4", "١٨"])
def test_what_is_no_amount_is_refused(written):
    with pytest.raises(ValueError, match="not"):
        exact(written)


@pytest.mark.parametrize(("digits", "is_one"), [(12, True), (13, True), (14, False)])
def test_an_amount_has_thirteen_digits_before_the_point_at_most(digits, is_one):
    try:
        exact("9" * digits)
        assert is_one
    except ValueError:
        assert not is_one


@pytest.mark.parametrize(("letters", "ends"), [(57, "x'"), (58, "x'"), (59, "x...")])
def test_what_is_no_number_is_told_in_full_up_to_sixty_letters(letters, ends):
    with pytest.raises(ValueError, match="is not a decimal number") as caught:
        exact("x" * letters)
    assert str(caught.value).partition(" is not")[0].endswith(ends)


@pytest.mark.parametrize(("written", "number"), [("$600", "600"), ("300 h", "300"), ("$ 92.50 per hour", "92.50")])
def test_of_a_number_with_a_sign_or_a_unit_the_number_alone_is_asked_for(written, number):
    with pytest.raises(ValueError, match=rf"; write the number alone: {number}$"):
        exact(written)


@pytest.mark.parametrize("written", ["0", "0.000000", "12", "1200.50", "-0.000001"])
def test_a_number_that_python_writes_in_ordinary_digits_keeps_its_decimals(written):
    assert str(exact(written)) == written


def test_a_number_of_thousands_of_digits_is_told_in_short():
    with pytest.raises(ValueError, match="not an amount") as caught:
        exact(10**4000)
    assert len(str(caught.value)) < 120


def test_truth_values_are_no_numbers():
    with pytest.raises(ValueError, match="decimal number"):
        exact(True)


def test_decimals_are_kept_as_written():
    assert plain(exact("92.10")) == "92.10"


@pytest.mark.parametrize(
    ("written", "said"),
    [("1E+3", "1000"), ("9e12", "9000000000000"), ("0.000001", "0.000001"), ("0E-9", "0"), ("0E+9", "0")],
)
def test_a_number_is_in_json_in_ordinary_digits(written, said):
    assert json.loads(TypeAdapter(in_its_words(Number)).dump_json(exact(written))) == said


@given(st.decimals(allow_nan=False, allow_infinity=False, min_value=-(10**14), max_value=10**14))
def test_whatever_is_a_number_python_writes_in_ordinary_digits(drawn):
    try:
        number = exact(drawn)
    except ValueError:
        return
    assert (str(number), number) == (plain(number), drawn)


@pytest.mark.parametrize("written", ["0.0000009", "-1E-7"])
def test_less_than_a_millionth_is_refused(written):
    with pytest.raises(ValueError, match="smaller than a millionth"):
        exact(written)


def test_large_numbers_print_without_an_exponent():
    assert plain(Decimal("1E+3")) == "1000"


def test_nothing_stays_nothing():
    assert (plain_or_none(None), plain_or_none(Decimal("1E+2"))) == (None, "100")


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


@pytest.mark.parametrize(("weights", "shares"), [((56, 44), ("0.06", "0.04")), ((54, 46), ("0.05", "0.05"))])
def test_the_line_with_the_largest_remainder_takes_the_unit_left_over(weights, shares):
    assert share(Decimal("0.10"), [Decimal(each) for each in weights], "USD") == [Decimal(each) for each in shares]


def test_shares_over_nothing_are_refused():
    with pytest.raises(BadInput):
        share(Decimal(1), [Decimal(0)], "USD")


def test_nothing_is_shared_as_nothing():
    assert share(Decimal(0), [Decimal(1), Decimal(2)], "USD") == [0, 0]


def test_a_total_no_coin_can_pay_is_not_shared():
    with pytest.raises(BadInput, match="more decimals than USD"):
        share(Decimal("0.005"), [Decimal(1)], "USD")


def test_nothing_below_zero_is_still_nothing():
    assert plain(exact("-0.00")) == "0.00"


@pytest.mark.parametrize(("written", "kept"), [("1." + "0" * 12, True), ("1." + "0" * 13, False)])
def test_a_number_has_a_dozen_decimals_at_most(written, kept):
    def is_kept():
        try:
            return exact(written) == 1
        except ValueError:
            return False

    assert is_kept() is kept


def test_the_smallest_step_for_the_most_hours_is_counted():
    assert to_step(Decimal(9_999_999_999_999), Decimal("0.000001"), "nearest") == 9_999_999_999_999


@pytest.mark.parametrize(
    "rounds", [lambda: rounded(Decimal("1E+13"), "USD"), lambda: to_step(Decimal("1E+13"), Decimal(1), "up")]
)
def test_a_number_beyond_belief_is_refused(rounds):
    with pytest.raises(BadInput, match="nobody could owe that"):
        rounds()


WEIGHTS = st.lists(st.integers(0, 10**9).map(lambda units: Decimal(units).scaleb(-2)), min_size=1, max_size=6)


@settings(max_examples=100, deadline=None)
@given(total=st.integers(0, 10**9), weights=WEIGHTS.filter(any), currency=st.sampled_from(["USD", "JPY", "KWD"]))
def test_shares_add_up_and_stray_less_than_a_unit(total, weights, currency):
    unit = Decimal(1).scaleb(-minor_unit(currency))
    parts = share(total * unit, weights, currency)
    exact_shares = [total * unit * weight / sum(weights) for weight in weights]
    assert sum(parts) == total * unit
    assert all(abs(part - share_of) < unit for part, share_of in zip(parts, exact_shares, strict=True))


@pytest.mark.parametrize(
    ("amount", "currency", "written"),
    [("60", "USD", "60.00 USD"), ("20925", "JPY", "20,925 JPY"), ("1.5", "", "1.5")],
)
def test_an_amount_is_written_in_whole_coins_with_its_currency(amount, currency, written):
    assert in_money(Decimal(amount), currency) == written


@pytest.mark.parametrize(
    ("amount", "currency", "whole"),
    [("1.005", "USD", "1.01"), ("1.5", "JPY", "2"), ("1.0005", "KWD", "1.001"), ("1.005", "", "1.005")],
)
def test_an_amount_is_in_whole_coins_where_the_currency_is_known(amount, currency, whole):
    assert coins(Decimal(amount), currency) == Decimal(whole)


@pytest.mark.parametrize("written", ["0", "0.15", "1", "1.00"])
def test_a_share_is_a_fraction_of_one(written):
    assert TypeAdapter(in_its_words(PartOfOne)).validate_python(written) == Decimal(written)


@pytest.mark.parametrize(("written", "meant"), [("15", "0.15"), ("8.1", "0.081"), ("1.01", "0.0101"), ("100", "1")])
def test_a_share_above_one_is_refused_with_the_fraction_it_may_mean(written, meant):
    with pytest.raises(ValueError, match=f"did you mean {meant}\\?"):
        TypeAdapter(in_its_words(PartOfOne)).validate_python(written)


def test_a_share_beyond_all_per_cents_means_nothing():
    with pytest.raises(ValueError, match=r"as 0\.15 for 15 % \["):
        TypeAdapter(in_its_words(PartOfOne)).validate_python("200")


@pytest.mark.parametrize(
    ("number", "language", "said"),
    [
        ("1234567.50", "en-US", "1,234,567.50"),
        ("1234.5", "es", "1\u00a0234.5"),
        ("999.99", "es", "999.99"),
        ("-1234", "en", "-1,234"),
    ],
)
def test_thousands_stand_apart_as_the_language_has_it(number, language, said):
    assert grouped(Decimal(number), language) == said


def test_numbers_under_each_other_have_as_many_decimals():
    assert under_each_other([Decimal(1), Decimal("1.6"), None, Decimal("1200.25")]) == [
        "1.00",
        "1.60",
        "\u2013",
        "1,200.25",
    ]


def test_an_amount_of_money_is_grouped_and_has_its_coins():
    assert in_money(Decimal("12345.5"), "USD") == "12,345.50 USD"


def test_amounts_are_added_up_by_currency_in_the_order_of_the_codes():
    amounts = [("USD", Decimal("1.50")), ("CAD", Decimal(2)), ("USD", Decimal("0.25"))]
    assert list(summed(amounts).items()) == [("CAD", Decimal(2)), ("USD", Decimal("1.75"))]


@pytest.mark.parametrize(("price", "written"), [("1.5", "1.50 USD"), ("1200.0125", "1,200.0125 USD")])
def test_the_price_of_a_piece_keeps_the_decimals_that_no_coin_can_pay(price, written):
    assert unit_price(Decimal(price), "USD") == written


def test_the_price_of_a_piece_is_as_it_was_written_where_the_currency_is_not_known():
    assert unit_price(Decimal("1200.5"), "") == "1,200.5"


@pytest.mark.parametrize("weights", [["-1", "2"], ["2", "-1"], ["0", "0"]])
def test_nothing_is_shared_over_weights_below_zero_or_all_of_them_zero(weights):
    with pytest.raises(BadInput):
        share(Decimal(1), [Decimal(weight) for weight in weights], "USD")


def test_a_line_that_weighs_nothing_gets_nothing():
    assert share(Decimal("1.00"), [Decimal(0), Decimal(3)], "USD") == [0, Decimal("1.00")]
