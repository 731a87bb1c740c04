from datetime import date
from decimal import Decimal

from filed import FiledClaim

from claimpack.core.payment.refused_rests import RefusedRest, refused_rests, rest_as_json
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


def test_scripts_read_the_days_of_silence():
    (silent,) = rests("5.00", terms=TERMS, heard=date(2026, 2, 2))
    told = rest_as_json(silent)
    assert (told["accepted_by_silence_on"], told["pay_due"]) == ("2026-02-01", "2026-03-03")
