from datetime import date
from decimal import Decimal

import pytest
from filed import FiledClaim

from claimpack.core.pending import pending, totals
from claimpack.core.terms import Terms

TERMS = Terms(id="x", name="x", answer_within="P30D", silence="accepted", pay_within="P30D", resubmit_within="P30D")
TODAY = date(2026, 2, 15)


def listed(*claims, today=TODAY, terms=TERMS, **kind):
    return pending(claims, {claim.number: terms for claim in claims}, today, **kind)


def step(**facts):
    return listed(FiledClaim(**facts))[0].step


def test_what_is_not_filed_is_not_pending():
    assert listed(FiledClaim(state="draft", filed=None)) == []


def test_the_longest_overdue_comes_first():
    late = FiledClaim(number="late", filed=date(2025, 11, 1), received=date(2025, 11, 1))
    later = FiledClaim(number="later", filed=date(2025, 10, 1), received=date(2025, 10, 1))
    assert [item.claim for item in listed(late, FiledClaim(), later)] == ["later", "late", "26-0001"]


def test_the_shops_own_turn_comes_before_waiting():
    ours = FiledClaim(number="ours", state="questioned", filed=date(2026, 2, 10))
    assert [item.claim for item in listed(FiledClaim(), ours)] == ["ours", "26-0001"]


@pytest.mark.parametrize(
    ("facts", "said"),
    [
        ({"received": date(2026, 2, 1)}, "wait for the answer"),
        ({"received": date(2026, 1, 10)}, "ask for payment: accepted by silence"),
        ({"received": date(2025, 12, 1)}, "chase the payment: accepted by silence"),
        ({"received": None, "filed": date(2026, 1, 1)}, "ask when it was received, and chase the answer"),
        ({"state": "questioned"}, "answer the maker's question"),
        ({"state": "accepted", "accepted_on": date(2026, 2, 1)}, "wait for the payment"),
        ({"state": "accepted", "accepted_on": date(2026, 1, 1)}, "chase the payment"),
        ({"state": "refused"}, "send in again, or write off"),
        ({"state": "refused", "answered": date(2026, 2, 1), "refused_for_form": True}, "put right and send in again"),
        (
            {"state": "refused", "answered": date(2026, 1, 1), "refused_for_form": True},
            "write off: the time to send it in again is over",
        ),
    ],
)
def test_the_next_step_follows_from_the_state_and_the_dates(facts, said):
    assert step(**facts) == said


def test_every_bucket_is_told_even_when_empty():
    _, by_bucket = totals(listed(FiledClaim()))
    assert list(by_bucket) == ["0-30", "31-60", "61-90", "over 90"]


def test_two_currencies_are_never_added():
    yen = FiledClaim(number="yen", currency="JPY", outstanding=Decimal(500))
    whole, _ = totals(listed(FiledClaim(), yen))
    assert whole == {"USD": Decimal("100.00"), "JPY": Decimal(500)}


def test_a_shop_may_age_by_the_due_date():
    assert listed(FiledClaim(received=date(2025, 12, 1)), ageing="due")[0].bucket == "1-30"


def test_terms_and_their_section_are_named():
    cited = TERMS.model_copy(update={"cites": "Code 1"})
    assert listed(FiledClaim(), terms=cited)[0].cites == "Code 1"
