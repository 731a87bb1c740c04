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


@pytest.mark.parametrize(
    "ended", ["2026-02-24T09:00:00", "2026-02-24T09:01:00", None], ids=["at once", "later", "runs"]
)
def test_labour_may_end_as_it_starts(ended):
    told = {"operation": "x", "started": "2026-02-24T09:00:00"} | ({"ended": ended} if ended else {})
    assert a_claim(labour=[told]).labour[0].started.hour == 9


def test_labour_does_not_end_without_a_start():
    with pytest.raises(ValidationError, match="ended is given without started"):
        a_claim(labour=[{"operation": "x", "ended": "2026-02-24T09:00:00"}])


def test_labour_may_start_and_end_with_a_zone():
    told = {"operation": "x", "started": "2026-02-24T09:00:00Z", "ended": "2026-02-24T09:00:00-05:00"}
    assert a_claim(labour=[told]).labour[0].ended.hour == 9


@pytest.mark.parametrize(
    "extra",
    [
        {"amount": "12.50"},
        {"kind": "freight", "amount": "0"},
        {"kind": "travel", "amount": "12.50"},
        {"kind": "travel", "distance": "0"},
        {"kind": "travel"},
    ],
    ids=["of no kind", "freight for nothing", "a visit at an amount", "a visit next door", "a visit at a flat rate"],
)
def test_an_extra_is_at_an_amount_or_is_a_visit(extra):
    assert a_claim(extras=[{"what": "x", **extra}]).extras[0].kind == extra.get("kind")


@pytest.mark.parametrize(
    ("extra", "said"),
    [
        ({}, "amount is missing"),
        ({"kind": "freight"}, "amount is missing"),
        ({"kind": "freight", "distance": "34"}, "distance is for kind"),
        ({"kind": "freight", "distance": "34", "amount": "12.50"}, "distance is for kind"),
        ({"distance": "34", "amount": "12.50"}, "distance is for kind"),
        ({"kind": "travel", "distance": "34", "amount": "12.50"}, "give an amount or a distance"),
    ],
)
def test_an_extra_that_has_no_price_or_two_is_refused(extra, said):
    with pytest.raises(ValidationError, match=said):
        a_claim(extras=[{"what": "x", **extra}])


def test_a_held_part_is_in_no_box_until_somebody_says_so():
    assert a_claim(held=[{"part": "coil"}]).held[0].boxed is False
