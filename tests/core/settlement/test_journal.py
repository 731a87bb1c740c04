import datetime as dt
from decimal import Decimal

import pytest
from filed import FiledClaim
from new_events import (
    FILED,
    OPENED,
    PAYMENT_UNDONE,
    REFUSED,
    REOPENED,
    WITHDRAWN,
    accepted_in_part,
    happened,
    paid,
    written_off,
)

from claimpack.core.events.events import Event
from claimpack.core.events.fold import stand
from claimpack.core.settlement.accounts import Accounts
from claimpack.core.settlement.journal import balances, by_movement, journal, within
from claimpack.errors import BadInput, WrongState

ACCOUNTS = Accounts(money="1010", receivable="1210", written_off="6900")
MEMO = happened("paid", amount="150.00", memo="CM-1", statement="hash")
BACK = happened("charged back", amount="20.00", memo="CM-2")


def entries(*happened, accounts=ACCOUNTS, kept=None):
    at = dt.datetime(2026, 3, 1, 9, tzinfo=dt.UTC)
    common = {"claim": "26-0001", "at": at, "who": "ann", "document": "", "previous": ""}
    told = [OPENED, FILED, *happened]
    events = [Event(**common, **one.model_dump(), revision=nth, hash=f"{nth:064}") for nth, one in enumerate(told)]
    claim = FiledClaim(paid=stand(told).paid if kept is None else kept)
    return journal(events, {claim.number: claim}, {claim.number: accounts})


def told(found):
    return [(one.movement, one.debit, one.credit, str(one.amount), one.memo) for one in found]


def test_a_payment_goes_from_what_the_maker_owes_to_the_bank():
    assert told(entries(MEMO)) == [("payment", "1010", "1210", "150.00", "CM-1")]


def test_a_charge_back_goes_the_other_way():
    assert told(entries(MEMO, BACK))[1] == ("charge-back", "1210", "1010", "20.00", "CM-2")


def test_what_is_given_up_goes_to_its_own_account_and_back_when_taken_up_again():
    assert told(entries(REFUSED, written_off("150.00"), REOPENED)) == [
        ("write-off", "6900", "1210", "150.00", ""),
        ("reversal", "1210", "6900", "150.00", ""),
    ]


def test_a_payment_undone_is_reversed_with_its_memo():
    assert told(entries(MEMO, PAYMENT_UNDONE))[1] == ("reversal", "1210", "1010", "150.00", "CM-1")


def test_what_is_given_up_has_not_the_memo_of_the_payment_before_it():
    part = happened("paid", amount="100.00", memo="CM-1")
    assert [one.memo for one in entries(part, written_off("50.00"))] == ["CM-1", ""]


def test_what_was_given_up_of_a_claim_begun_anew_is_reversed_in_the_currency_it_was_given_up_in():
    rest = happened("written off", amount="50.00", rest="50.00")
    found = entries(accepted_in_part("100.00"), rest, WITHDRAWN, REOPENED)
    assert [(one.movement, one.amount, one.currency) for one in found] == [
        ("write-off", Decimal("50.00"), "USD"),
        ("reversal", Decimal("50.00"), "USD"),
    ]


def test_what_was_given_up_and_comes_all_the_same_is_no_loss_any_more():
    rest = happened("written off", amount="50.00", rest="50.00")
    found = told(entries(accepted_in_part("100.00"), rest, paid("150.00")))
    assert [(one[0], one[3]) for one in found] == [("write-off", "50.00"), ("payment", "150.00"), ("reversal", "50.00")]


def test_entries_of_a_claim_are_under_its_own_accounts():
    assert told(entries(MEMO, accounts=ACCOUNTS.model_copy(update={"money": "2110"})))[0][1] == "2110"


def test_entries_that_do_not_come_to_what_the_book_keeps_are_refused():
    with pytest.raises(WrongState, match="26-0001"):
        entries(MEMO, kept=Decimal("149.99"))


@pytest.mark.parametrize(("since", "until", "count"), [(0, 0, 1), (1, None, 0), (None, -1, 0), (None, None, 1)])
def test_entries_are_narrowed_to_days_both_in(since, until, count):
    found = entries(MEMO)
    first, last = (None if off is None else found[0].on + dt.timedelta(off) for off in (since, until))
    assert len(within(found, first, last)) == count


def test_debits_and_credits_of_all_accounts_come_to_nothing():
    found = balances(entries(MEMO, BACK, written_off("20.00")))
    assert found == {"1010": {"USD": 130}, "1210": {"USD": -150}, "6900": {"USD": 20}}


def test_what_moved_is_added_up_by_kind_and_a_charge_back_to_no_payment():
    found = by_movement(entries(MEMO, BACK, written_off("20.00")))
    assert found == {"charge-back": {"USD": 20}, "payment": {"USD": 150}, "write-off": {"USD": 20}}


@pytest.mark.parametrize("other", ["money", "written_off"])
def test_what_makers_owe_must_have_an_account_of_its_own(other):
    with pytest.raises(BadInput):
        journal([], {}, {"26-0001": ACCOUNTS.model_copy(update={other: "1210"})})
