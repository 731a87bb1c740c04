import datetime as dt
from decimal import Decimal

import pytest
from new_events import DAY, FILED, LATER, OPENED, PAYMENT_UNDONE, happened, paid

from claimpack.core.events.events import Event
from claimpack.core.events.fold import Folding, stand
from claimpack.core.settlement.booking import (
    LEFT_OUT,
    LeftOut,
    booked_of,
    booked_statements,
    left_out,
    undoing,
    with_left_out,
)
from claimpack.errors import WrongState

BOOKED = happened("paid", amount="100.00", memo="CM-1", statement="hash")
BACK = happened("charged back", amount="20.00", memo="CM-1", statement="hash")


def recorded(*events):
    at = dt.datetime(2026, 3, 1, 9, tzinfo=dt.UTC)
    common = {"claim": "26-0001", "at": at, "who": "ann", "document": "", "previous": ""}
    return [Event(**common, **each.model_dump(), revision=place) for place, each in enumerate(events, 1)]


def test_a_payment_keeps_the_memo_it_came_with():
    assert [payment.memo for payment in stand([OPENED, FILED, BOOKED, paid("1")]).payments] == ["CM-1", ""]


@pytest.mark.parametrize(
    ("asked", "found"), [({"memo": "CM-1"}, 1), ({"mark": "hash"}, 1), ({"memo": "CM-2"}, 0), ({"mark": "other"}, 0)]
)
def test_what_a_claim_has_of_a_statement_is_found_by_memo_or_file(asked, found):
    assert len(booked_of(stand([OPENED, FILED, BOOKED]), **asked).payments) == found


def test_what_was_undone_or_typed_in_by_hand_is_not_booked():
    by_hand = happened("paid", amount="5.00", memo="CM-1")
    assert booked_of(stand([OPENED, FILED, BOOKED, PAYMENT_UNDONE, by_hand]), "CM-1").payments == ()


def test_undoing_leaves_the_claim_as_it_stood_before():
    events = recorded(OPENED, FILED, paid("10.00"), BOOKED, BACK)
    after = Folding([*events, *undoing(events, "CM-1", LATER, "wrong memo")]).standing
    assert after == stand([OPENED, FILED, paid("10.00")])


def test_what_money_moved_after_is_not_undone():
    with pytest.raises(WrongState):
        undoing(recorded(OPENED, FILED, BOOKED, paid("10.00", DAY)), "CM-1", LATER, "wrong memo")


STRAY = LeftOut(3, Decimal("12.00"), "R-9, Ashby")
WITH_A_STRAY = happened("paid", amount="100.00", memo="CM-1", statement="hash", **{LEFT_OUT: "3 12.00 R-9, Ashby"})


def test_rows_that_a_statement_leaves_out_are_read_back_from_its_first_event():
    first, second = recorded(*with_left_out((BOOKED, BACK), [STRAY._replace(named="R-9; Ashby")]))
    assert (left_out(first), left_out(second)) == ([STRAY], [])


def test_where_no_row_is_left_out_nothing_is_said_of_any():
    assert with_left_out((BOOKED, BACK), []) == (BOOKED, BACK)


def statements(*events):
    """What is booked of the events of one claim, read latest first as the book gives them."""
    told = [event for event in recorded(*events) if "statement" in event.facts]
    return booked_statements({"26-0001": stand(events)}, reversed(told))


def test_a_booked_statement_tells_what_it_came_to_and_the_rows_it_left_out():
    (found,) = statements(OPENED, FILED, WITH_A_STRAY, BACK)
    assert (found.memo, found.claims, found.amount, found.left) == ("CM-1", ("26-0001",), Decimal("80.00"), (STRAY,))


def test_what_a_statement_left_out_is_forgotten_once_it_is_taken_back():
    taken_back = happened("payment undone", memo="CM-1", statement="hash")
    (found,) = statements(OPENED, FILED, WITH_A_STRAY, taken_back, BOOKED)
    assert found.left == ()


def test_the_latest_booked_statement_stands_first():
    later = happened("paid", LATER, amount="10.00", memo="CM-0", statement="other")
    assert [one.memo for one in statements(OPENED, FILED, BOOKED, later)] == ["CM-0", "CM-1"]
