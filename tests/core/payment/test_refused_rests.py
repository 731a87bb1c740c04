from datetime import date
from decimal import Decimal

import pytest
from filed import FiledClaim

from claimpack.core.payment.refused_rests import RefusedRest, refused_rests, rest_as_json
from claimpack.core.payment.remarks import rests_said
from claimpack.core.plans.terms import Terms

TERMS = Terms.model_validate(
    {"id": "t", "name": "T", "answer_within": "P30D", "silence": "accepted", "pay_within": "P30D"}
)


def rests(*amounts, currency="USD", terms=None, **facts):
    claims = [
        FiledClaim(f"26-{place:04}", "Halden", "paid", currency=currency, refused_rest=Decimal(amount), **facts)
        for place, amount in enumerate(amounts, start=1)
    ]
    return refused_rests(reversed(claims), {claim.number: terms for claim in claims} if terms else {})


def test_claims_of_which_nothing_was_refused_are_left_out():
    assert [rest.claim for rest in rests("5.00", "0", "7.00")] == ["26-0001", "26-0003"]


def test_nothing_refused_is_nothing_said():
    assert rests_said(rests("0")) == ()


@pytest.mark.parametrize(
    ("amounts", "said"),
    [
        (["59.70"], "59.70 USD refused of 1 claim accepted in part, to be sent in again or let go: 26-0001"),
        (["5", "7"], "12.00 USD refused of 2 claims accepted in part, to be sent in again or let go: 26-0001, 26-0002"),
    ],
)
def test_the_sum_and_the_claims_are_said(amounts, said):
    assert rests_said(rests(*amounts)) == (said,)


def test_of_many_claims_six_are_named_and_the_others_counted():
    assert rests_said(rests(*["1"] * 8))[0].endswith("26-0005, 26-0006 and 2 more")


def test_currencies_are_not_added_up():
    (said,) = rests_said([*rests("5"), *rests("6", currency="EUR")])
    assert said.startswith("6.00 EUR and 5.00 USD refused of 2 claims")


def test_scripts_read_the_amount_in_whole_coins():
    told = rest_as_json(RefusedRest("26-0001", "Halden", "USD", Decimal("5.1")))
    assert told == {
        "claim": "26-0001",
        "maker": "Halden",
        "currency": "USD",
        "amount": "5.10",
        "accepted_by_silence_on": None,
        "pay_due": None,
    }


def test_what_silence_had_accepted_is_to_be_contested_and_told_apart():
    silent = rests("5.00", terms=TERMS, heard=date(2026, 2, 2))
    in_time = rests("7.00", terms=TERMS, heard=date(2026, 2, 1))
    contested, to_decide = rests_said([*in_time, *silent])
    assert contested.startswith("5.00 USD refused of 1 claim accepted in part after silence had accepted the whole")
    assert ("claimpack chase CLAIM" in contested, "to be sent in again or let go" in to_decide) == (True, True)


def test_scripts_read_the_days_of_silence():
    (silent,) = rests("5.00", terms=TERMS, heard=date(2026, 2, 2))
    told = rest_as_json(silent)
    assert (told["accepted_by_silence_on"], told["pay_due"]) == ("2026-02-01", "2026-03-03")
