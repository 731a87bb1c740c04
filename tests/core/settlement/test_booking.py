import datetime as dt

import pytest
from new_events import DAY, FILED, LATER, OPENED, PAYMENT_UNDONE, happened, paid

from claimpack.core.events.events import Event
from claimpack.core.events.fold import Folding, stand
from claimpack.core.settlement.booking import booked_of, undoing
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
