from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from claimpack.core.events.events import Event
from claimpack.core.steps.taken_over import TakenOver
from claimpack.core.steps.taken_over_history import history_of, undoing
from claimpack.errors import BadInput

TODAY = date(2026, 3, 1)
ROW = {"number": "25-0001", "maker": "halden", "model": "CS-70", "presented": "2025-10-01"}
FILED = {**ROW, "filed": "2025-10-10", "claimed": "150.00", "currency": "USD"}
ACCEPTED = {**FILED, "answered": "2025-11-01", "accepted": "150.00"}


def history(row, **changes):
    return history_of(TakenOver.model_validate({**row, **changes}), "i-1", TODAY)


def events(row, **changes):
    return [(event.what, str(event.on)) for event in history(row, **changes).events]


@pytest.mark.parametrize(
    ("row", "state"),
    [(ROW, "draft"), (FILED, "filed"), (ACCEPTED, "accepted"), ({**ACCEPTED, "accepted": "100.00"}, "accepted")],
    ids=["nothing", "filed", "accepted", "in part"],
)
def test_days_and_amounts_alone_say_where_a_claim_stands(row, state):
    assert history(row).standing.state == state


def test_everything_happened_on_the_day_the_list_says():
    paid = {**ACCEPTED, "paid": "150.00", "paid_on": "2025-12-01"}
    told = [("imported", "2026-03-01"), ("filed", "2025-10-10"), ("answered", "2025-11-01"), ("paid", "2025-12-01")]
    assert events(paid) == told


@pytest.mark.parametrize("received", ["2025-10-10", "2025-10-11"])
def test_a_claim_may_be_received_from_the_day_it_was_filed(received):
    assert str(history(FILED, received=received).standing.received) == received


@pytest.mark.parametrize(
    ("row", "named"),
    [
        ({**FILED, "received": "2025-10-09"}, "received: 2025-10-09"),
        ({**FILED, "claimed": None}, "claimed"),
        ({**FILED, "currency": None}, "currency"),
        ({**FILED, "claimed": "150.001"}, "claimed"),
        ({**FILED, "state": "draft"}, "filed"),
        ({**FILED, "state": "paid", "paid": "100.00", "paid_on": "2025-12-01"}, "paid"),
    ],
    ids=["too early", "no amount", "no currency", "half a cent", "filed and a draft", "paid and not all of it"],
)
def test_a_row_that_contradicts_itself_is_refused_with_its_key(row, named):
    with pytest.raises(BadInput) as refused:
        history(row)
    assert named in refused.value.what


def test_what_is_not_paid_is_outstanding():
    assert history(ACCEPTED, paid="40.00", paid_on="2025-12-01").standing.outstanding == Decimal("110.00")


def answer_of(row, **changes):
    """What is recorded of the maker's answer."""
    (answer,) = (event for event in history(row, **changes).events if event.what == "answered")
    return answer.facts


@pytest.mark.parametrize(
    ("changes", "facts"),
    [
        ({}, {"answer": "accepted"}),
        ({"accepted": "149.99"}, {"answer": "part", "amount": "149.99"}),
        ({"state": "filed", "accepted": None}, {"answer": "accepted"}),
        ({"state": "paid", "accepted": None}, {"answer": "accepted"}),
        ({"state": "paid", "accepted": "150.00"}, {"answer": "accepted"}),
        ({"state": "paid", "accepted": "100.00"}, {"answer": "part", "amount": "100.00"}),
        ({"state": "accepted", "accepted": "100.00"}, {"answer": "accepted"}),
        ({"state": "refused", "accepted": None}, {"answer": "refused"}),
        ({"state": "questioned", "accepted": None}, {"answer": "questioned"}),
    ],
    ids=[
        *("all of it", "a cent less", "a day alone", "paid", "paid and accepted", "paid of a part"),
        *("said to be accepted", "refused", "questioned"),
    ],
)
def test_what_the_maker_answered_follows_from_the_state_that_is_said_and_the_amounts(changes, facts):
    paid = {"paid": changes.get("accepted") or "150.00", "paid_on": "2025-12-01"} if "paid" in changes.values() else {}
    assert answer_of(ACCEPTED, **changes, **paid) == facts


def test_a_part_that_is_accepted_needs_its_amount():
    with pytest.raises(BadInput, match="how much the maker accepts is missing"):
        history(ACCEPTED, state="part", accepted=None)


def recorded(row):
    """The events of a claim that was taken over, as the book keeps them."""
    return [Event.model_construct(claim="25-0001", **dict(event)) for event in history(row).events]


def test_an_import_is_taken_back_with_its_payment_and_its_answer_the_last_first():
    events = recorded({**ACCEPTED, "paid": "40.00", "paid_on": "2025-12-01"})
    undone = undoing(events, "i-1", TODAY, "Wrong list.")
    assert [event.what for event in undone] == ["payment undone", "answer undone", "withdrawn"]


def test_a_claim_taken_over_anew_loses_what_came_with_the_last_import_alone():
    first = recorded(FILED)
    back = [Event.model_construct(claim="25-0001", **dict(event)) for event in undoing(first, "i-1", TODAY, "Wrong.")]
    anew = history_of(TakenOver.model_validate(ACCEPTED), "i-2", TODAY, (*first, *back)).events
    events = [*first, *back, *(Event.model_construct(claim="25-0001", **dict(event)) for event in anew)]
    assert [event.what for event in undoing(events, "i-2", TODAY, "Wrong.")] == ["answer undone", "withdrawn"]
