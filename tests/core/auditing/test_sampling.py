from datetime import date
from decimal import Decimal
from fractions import Fraction

import pytest

from claimpack.core.auditing.sampling import (
    draw,
    probability_of_at_most,
    sample_size,
    seed_of,
    tolerated,
    tolerated_said,
    upper_bound,
)
from claimpack.errors import BadInput

NUMBERS = [f"26-{index:04}" for index in range(200)]
FIVE, SURE = Decimal(5), Decimal(95)


@pytest.mark.parametrize(("population", "wrong"), [(100, 5), (101, 6), (3, 1), (1, 1)])
def test_what_can_be_tolerated_is_rounded_up(population, wrong):
    assert tolerated(population, FIVE) == wrong


@pytest.mark.parametrize(("population", "said"), [(100, "5 % (5 claims)"), (104, "5 % (5.2, rounded up to 6 claims)")])
def test_what_can_be_tolerated_says_whether_it_was_rounded_up(population, said):
    assert tolerated_said(population, Decimal(5)) == said


@pytest.mark.parametrize(
    ("errors", "wrong", "sample", "chance"),
    [(0, 2, 3, Fraction(7, 15)), (2, 4, 5, Fraction(6 + 60 + 120, 252)), (3, 4, 5, Fraction(246, 252))],
)
def test_probabilities_are_exact(errors, wrong, sample, chance):
    assert probability_of_at_most(errors, 10, wrong, sample) == chance


def test_a_sample_larger_than_the_sound_claims_must_hold_an_error():
    assert probability_of_at_most(0, 10, 4, 7) == 0


def test_the_sample_size_is_the_smallest_that_is_enough():
    size = sample_size(200, FIVE, SURE)
    risk = Fraction(5, 100)
    assert probability_of_at_most(0, 200, 10, size) <= risk < probability_of_at_most(0, 200, 10, size - 1)


@pytest.mark.parametrize(("confidence", "size"), [("49", 1), ("50", 1), ("51", 2)], ids=["below", "equal", "above"])
def test_a_risk_that_is_just_met_is_met(confidence, size):
    assert sample_size(2, Decimal(50), Decimal(confidence)) == size


def test_of_few_claims_nearly_all_are_looked_at():
    assert (sample_size(1, FIVE, SURE), sample_size(10, FIVE, SURE)) == (1, 10)


def test_more_confidence_asks_for_a_larger_sample():
    assert sample_size(1000, FIVE, Decimal(99)) > sample_size(1000, FIVE, SURE)


def test_a_fraction_of_a_percent_can_be_asked_for():
    assert sample_size(1000, Decimal("0.5"), Decimal("97.5")) > sample_size(1000, Decimal("0.5"), SURE)


def test_the_same_seed_draws_the_same_sample_whatever_the_order():
    first = draw(NUMBERS, FIVE, SURE, "a")
    assert draw(reversed(NUMBERS), FIVE, SURE, "a") == first
    assert draw(NUMBERS, FIVE, SURE, "b").numbers != first.numbers


def test_a_seed_draws_the_same_sample_on_every_machine():
    # printf 'seed\n1' | sha256sum, and so on to 4: 4d95…, 493b…, a9fc…, cbd5…
    assert draw(["1", "2", "3", "4"], Decimal(50), Decimal(60), "seed").numbers == ("1", "2")


def test_a_sample_is_in_order_and_holds_no_claim_twice():
    drawn = draw([*NUMBERS, *NUMBERS], FIVE, SURE, "a")
    assert drawn.numbers == tuple(sorted(set(drawn.numbers)))
    assert drawn.population == 200


def test_every_claim_is_drawn_about_as_often_as_any_other():
    times = dict.fromkeys(NUMBERS[:20], 0)
    for seed in range(400):
        for number in draw(NUMBERS[:20], Decimal(20), Decimal(80), str(seed)).numbers:
            times[number] += 1
    expected = sum(times.values()) / 20
    assert all(abs(count - expected) < 5 * expected**0.5 for count in times.values())


def test_the_seed_follows_from_the_day_and_the_claims():
    today = date(2026, 3, 1)
    assert seed_of(NUMBERS, today).startswith("2026-03-01-")
    assert seed_of(NUMBERS[::-1], today) == seed_of(NUMBERS, today)
    assert seed_of(NUMBERS[1:], today) != seed_of(NUMBERS, today)


def test_the_bound_is_the_largest_number_the_sample_does_not_speak_against():
    most = upper_bound(200, 45, 1, SURE).most
    risk = Fraction(5, 100)
    assert probability_of_at_most(1, 200, most + 1, 45) <= risk < probability_of_at_most(1, 200, most, 45)


def test_when_all_are_looked_at_the_bound_is_what_was_found():
    assert upper_bound(200, 200, 7, SURE).most == 7


@pytest.mark.parametrize("sample", [1, 20_000])
def test_a_sample_of_one_claim_or_of_twenty_thousand_has_a_bound(sample):
    assert upper_bound(20_001, sample, sample, SURE).most == 20_001


def test_a_bound_is_worked_out_for_a_million_claims():
    assert upper_bound(1_000_000, 1, 1, SURE).most == 1_000_000


def test_all_of_more_claims_than_a_bound_is_worked_out_for_are_counted():
    assert upper_bound(20_001, 20_001, 3, SURE).most == 3


def test_when_every_claim_drawn_is_wrong_all_may_be():
    assert upper_bound(200, 10, 10, SURE).most == 200


def test_a_bound_is_told_in_one_sentence_with_its_caution():
    assert str(upper_bound(2000, 59, 1, SURE)) == (
        "With 95 % confidence, at most 154 of 2,000 claims (7.7 %) hold an error: 1 error was found in 59 drawn at "
        "random. An upper bound is no estimate: there may be far fewer."
    )


@pytest.mark.parametrize(("errors", "said"), [(0, "no error was found"), (2, "2 errors were found")])
def test_a_bound_says_how_many_errors_were_found(errors, said):
    assert said in str(upper_bound(2000, 59, errors, SURE))


def test_the_rate_is_rounded_up():
    assert upper_bound(3, 3, 1, SURE).most_percent == Decimal("33.4")


@pytest.mark.parametrize(("option", "number"), [("--tolerable", "5"), ("--confidence", "95")])
def test_a_percentage_that_suits_is_shown(option, number):
    wrong = (SURE, Decimal(0)) if option == "--confidence" else (Decimal(0), SURE)
    with pytest.raises(BadInput) as refused:
        sample_size(100, *wrong)
    assert refused.value.do == f"Write it as in {option} {number}."


@pytest.mark.parametrize("percent", ["0", "100", "-5", "120"])
def test_no_percentage_outside_0_and_100(percent):
    with pytest.raises(BadInput, match="not a percentage between 0 and 100"):
        sample_size(100, Decimal(percent), SURE)


@pytest.mark.parametrize(
    ("numbers", "said"),
    [
        ((0, 1, 0), "no claim to draw from"),
        ((1_000_001, 1, 0), "1,000,001 claims are more"),
        ((10, 0, 0), "--sample: 0 cannot"),
        ((10, 11, 0), "--sample: 11 cannot"),
        ((10, 5, 6), "--errors: 6 cannot"),
        ((10, 5, -1), "--errors: -1 cannot"),
        ((900_000, 20_001, 0), "--sample: 20,001 claims are more"),
    ],
)
def test_numbers_of_no_sample_are_refused(numbers, said):
    with pytest.raises(BadInput, match=said):
        upper_bound(*numbers, SURE)


@pytest.mark.parametrize(
    ("errors", "said"), [(1, "Exactly 1 of 6 claims (16.7 %) holds an error"), (0, "Exactly 0 of 6 claims")]
)
def test_where_all_were_looked_at_the_count_is_exact(errors, said):
    bound = str(upper_bound(6, 6, errors, Decimal(95)))
    assert (bound.startswith(said), "confidence" in bound) == (True, False)
