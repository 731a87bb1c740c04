from __future__ import annotations

import pytest

from claimpack.core.claims.measurements import against_limits, limits_in_words, refuse_commas, value_said
from claimpack.core.facts.failure import Finding
from claimpack.errors import BadInput


def measured(value, low="", high="", unit="psi"):
    return Finding(what="compression", value=value, unit=unit, low=low, high=high)


@pytest.mark.parametrize(
    ("value", "stands"),
    [
        ("109.9", "below"),
        ("110", "within"),
        ("110.1", "within"),
        ("149.9", "within"),
        ("150.0", "within"),
        ("150.1", "above"),
    ],
)
def test_a_value_on_a_limit_is_within(value, stands):
    assert against_limits(measured(value, "110", "150")) == stands


def test_values_are_compared_as_numbers():
    assert against_limits(measured("9", low="10")) == "below"


def test_values_below_zero_are_numbers():
    assert against_limits(measured("-3", low="-5", unit="inHg")) == "within"


@pytest.mark.parametrize("value", ["weak", "1,5", "NaN", "1e3", "about 40"])
def test_what_is_no_number_cannot_be_compared(value):
    assert against_limits(measured(value, "110", "150")) is None


def test_without_limits_nothing_can_be_said():
    assert against_limits(measured("42")) is None


def test_a_limit_that_is_no_number_might_decide():
    assert against_limits(measured("120", low="110", high="spec")) is None


def test_one_limit_decides_whatever_the_other_says():
    assert against_limits(measured("42", low="110", high="spec")) == "below"


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [("110", "150", "110 to 150 psi"), ("110", "", "at least 110 psi"), ("", "150", "at most 150 psi"), ("", "", "")],
)
def test_limits_are_told_in_words(low, high, words):
    assert limits_in_words(measured("42", low, high)) == words


@pytest.mark.parametrize(
    ("said", "written"),
    [
        ("0,3", "Write 0.3."),
        ("-1,5 mm", "Write -1.5 mm."),
        ("1,200", "Write 1.200 or 1200."),
        ("0,125", "Write 0.125."),
    ],
)
def test_a_comma_between_digits_is_refused_with_how_to_write_it(said, written):
    with pytest.raises(BadInput) as refused:
        refuse_commas([("VALUE", said)])
    assert refused.value.do == written


@pytest.mark.parametrize("said", ["0.3", "110, 112 and 109", "weak, blue", ""])
def test_a_comma_elsewhere_is_taken(said):
    assert refuse_commas([("VALUE", said)]) is None


@pytest.mark.parametrize(
    ("finding", "said"),
    [
        (measured("1240.5"), "1,240.5"),
        (measured("1240", low="1100", unit=""), "1,240"),
        (measured("1023", unit=""), "1023"),
        (measured("EN 12345"), "EN 12345"),
    ],
    ids=["with a unit", "with a limit", "a code alone", "no number"],
)
def test_thousands_stand_apart_in_what_was_counted_alone(finding, said):
    assert value_said(finding) == said
