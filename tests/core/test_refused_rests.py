from decimal import Decimal
from types import SimpleNamespace

import pytest

from claimpack.core.refused_rests import RefusedRest, refused_rests, rest_as_json, rests_said


def rests(*amounts, currency="USD"):
    claims = [
        SimpleNamespace(number=f"26-{place:04}", maker="Halden", currency=currency, refused_rest=Decimal(amount))
        for place, amount in enumerate(amounts, start=1)
    ]
    return refused_rests(reversed(claims))


def test_claims_of_which_nothing_was_refused_are_left_out():
    assert [rest.claim for rest in rests("5.00", "0", "7.00")] == ["26-0001", "26-0003"]


def test_nothing_refused_is_nothing_said():
    assert rests_said(rests("0")) == ""


@pytest.mark.parametrize(
    ("amounts", "said"),
    [
        (["59.70"], "59.70 USD refused of 1 claim accepted in part, to be sent in again or let go: 26-0001"),
        (["5", "7"], "12.00 USD refused of 2 claims accepted in part, to be sent in again or let go: 26-0001, 26-0002"),
    ],
)
def test_the_sum_and_the_claims_are_said(amounts, said):
    assert rests_said(rests(*amounts)) == said


def test_of_many_claims_six_are_named_and_the_others_counted():
    assert rests_said(rests(*["1"] * 8)).endswith("26-0005, 26-0006 and 2 more")


def test_currencies_are_not_added_up():
    said = rests_said([*rests("5"), *rests("6", currency="EUR")])
    assert said.startswith("6.00 EUR and 5.00 USD refused of 2 claims")


def test_scripts_read_the_amount_in_whole_coins():
    told = rest_as_json(RefusedRest("26-0001", "Halden", "USD", Decimal("5.1")))
    assert told == {"claim": "26-0001", "maker": "Halden", "currency": "USD", "amount": "5.10"}
