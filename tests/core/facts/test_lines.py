import pytest
from builders import a_claim
from pydantic import ValidationError


@pytest.mark.parametrize("quantity", ["0", "-1"])
def test_a_quantity_is_above_zero(quantity):
    with pytest.raises(ValidationError):
        a_claim(parts=[{"name": "ring", "quantity": quantity}])


def test_a_binary_float_is_no_money():
    with pytest.raises(ValidationError, match="decimal number"):
        a_claim(extras=[{"what": "freight", "amount": 12.5}])


def test_labour_cannot_end_before_it_starts():
    with pytest.raises(ValidationError, match="before started"):
        a_claim(labour=[{"operation": "x", "started": "2026-02-24T10:00:00", "ended": "2026-02-24T09:00:00"}])


def test_labour_cannot_mix_times_with_and_without_a_zone():
    with pytest.raises(ValidationError, match="time zone"):
        a_claim(labour=[{"operation": "x", "started": "2026-02-24T09:00:00Z", "ended": "2026-02-24T10:00:00"}])


@pytest.mark.parametrize(("named", "worker"), [("Ben", "Ben"), ("Somebody", ""), ("unknown", ""), ("", "")])
def test_a_word_that_stands_for_anybody_names_no_technician(named, worker):
    assert a_claim(labour=[{"operation": "x", "technician": named}]).labour[0].worker == worker
