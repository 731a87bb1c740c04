from datetime import date
from decimal import Decimal
from types import SimpleNamespace

import pytest
from builders import a_claim
from happenings import FILED, OPENED, accepted_in_part, paid

from claimpack.core.digest import Digest
from claimpack.core.listed import listed, stood
from claimpack.core.states import stand
from claimpack.core.terms import Terms
from claimpack.core.waiting import is_late, waits_for

TODAY = date(2026, 3, 1)
TERMS = Terms.model_validate({"id": "t", "name": "T", "answer_within": "P30D", "silence": "accepted"})
DAYS = ("file_by", "filed", "received", "answered", "heard", "accepted_on", "paid_on", "owed_again")
EMPTY = {
    **dict.fromkeys(DAYS),
    "refused_for_form": False,
    "currency": "USD",
    "refused_rest": Decimal(0),
    "outstanding": Decimal(10),
    "approval_wanted": False,
    "asks_goodwill": False,
    "approval_until": None,
}


def next_of(terms=None, **row):
    return waits_for(SimpleNamespace(**{**EMPTY, "state": "draft", "verdict": "covered", **row}), terms, TODAY)


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ({"verdict": "undecided"}, "find out if it is covered"),
        ({"verdict": "not covered"}, "tell the owner: not covered"),
        ({"verdict": "not covered", "asks_goodwill": True}, "file the request for goodwill"),
        (
            {"verdict": "not covered", "asks_goodwill": True, "file_by": TODAY},
            "file the request for goodwill by 2026-03-01",
        ),
        ({}, "repair, then file"),
        ({"file_by": date(2026, 3, 2)}, "file by 2026-03-02"),
        ({"file_by": TODAY}, "file by 2026-03-01"),
        ({"file_by": date(2026, 2, 28)}, "file by 2026-02-28 (late)"),
        ({"approval_wanted": True}, "get the maker's approval, repair, then file"),
        ({"approval_wanted": True, "file_by": TODAY}, "get the maker's approval, file by 2026-03-01"),
        ({"approval_until": date(2026, 2, 28)}, "get the maker's approval, repair, then file"),
        ({"approval_until": TODAY}, "repair, then file"),
    ],
)
def test_a_draft_waits_for_the_shop(row, says):
    assert next_of(**row) == says


@pytest.mark.parametrize("asks", [True, False])
def test_a_favour_is_late_after_its_last_day_as_a_covered_claim_is(asks):
    late = {"state": "draft", "verdict": "not covered", "file_by": date(2026, 2, 28), "asks_goodwill": asks}
    assert is_late(SimpleNamespace(**{**EMPTY, **late}), TODAY) is asks


@pytest.mark.parametrize("state", ["paid", "written off", "withdrawn"])
def test_a_settled_claim_waits_for_nothing(state):
    assert next_of(state=state, filed=date(2026, 1, 2)) == ""


def test_a_filed_claim_without_terms_waits_for_the_answer():
    assert next_of(state="filed", filed=date(2026, 1, 2)) == "wait for the answer"


def test_a_claim_refused_for_form_is_to_be_put_right():
    refused = {"state": "refused", "filed": date(2026, 1, 2), "answered": date(2026, 2, 1), "refused_for_form": True}
    assert next_of(**refused) == "put right and send in again"


def test_under_terms_a_late_answer_counts_by_its_day():
    says = next_of(TERMS, state="filed", filed=date(2026, 1, 2), received=date(2026, 1, 5))
    assert says == "ask for payment: accepted by silence"


@pytest.mark.parametrize(
    ("accepted", "says"), [("150", ""), ("100", "contest or write off 50.00 USD")], ids=["whole", "part"]
)
def test_a_paid_claim_waits_only_for_what_was_not_accepted(accepted, says):
    events = [OPENED, FILED, accepted_in_part(accepted), paid(accepted)]
    assert waits_for(listed(a_claim(), 1, Digest(), stood(stand(events))), None, TODAY) == says


def test_a_paid_claim_of_a_list_says_how_much_of_it_was_not_accepted():
    assert (
        next_of(state="paid", filed=date(2026, 1, 2), refused_rest=Decimal("31.78")) == "contest or write off 31.78 USD"
    )


PART_PAID_LATE = {
    "state": "paid",
    "filed": date(2026, 1, 2),
    "received": date(2026, 1, 2),
    "heard": date(2026, 2, 20),
    "refused_rest": Decimal("31.78"),
}


def test_a_rest_refused_after_silence_is_to_be_chased():
    assert next_of(TERMS, **PART_PAID_LATE) == "chase 31.78 USD: silence accepted it on 2026-02-01"


def test_a_rest_refused_in_time_may_be_written_off():
    assert next_of(TERMS, **{**PART_PAID_LATE, "heard": date(2026, 2, 1)}) == "contest or write off 31.78 USD"
