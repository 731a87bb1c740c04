from __future__ import annotations

import pytest

from claimpack.core.events.standing import Payment, Standing
from claimpack.core.steps.taken_over import TakenOver, claim_of, lacking, oddities, state_told

ROW = {"number": "25-0001", "maker": "halden", "model": "CS-70", "presented": "2025-10-01"}
FILED = {"filed": "2025-10-10", "claimed": "9", "currency": "USD"}


def row(**said):
    return TakenOver.model_validate({**ROW, **said})


@pytest.mark.parametrize(
    ("said", "keys"),
    [
        ({}, []),
        ({"state": "filed"}, ["filed", "claimed", "currency"]),
        ({"state": "part", "filed": "2025-10-10", "claimed": "9", "currency": "USD"}, ["answered", "accepted"]),
        ({"paid": "9"}, ["paid_on"]),
        (FILED | {"state": "filed", "accepted": "5"}, []),
        (FILED | {"state": "paid", "accepted": "9"}, []),
        (FILED | {"state": "paid", "accepted": "5"}, ["answered"]),
        (FILED | {"state": "paid"}, []),
    ],
    ids=[
        "a draft",
        "filed",
        "accepted in part",
        "paid",
        "not answered",
        "paid in full",
        "paid of a part",
        "paid alone",
    ],
)
def test_a_row_lacks_what_its_state_needs(said, keys):
    assert [key for key, _ in lacking(row(**said))] == keys


@pytest.mark.parametrize(
    ("said", "odd"),
    [({}, 0), ({"serial": "A-1"}, 1), ({"serial": "a 1"}, 1), ({"serial": "A-2"}, 0), ({"claimed": "9"}, 1)],
    ids=["nothing", "a serial twice", "written otherwise", "another serial", "a draft with an amount"],
)
def test_what_is_odd_about_a_row_is_told(said, odd):
    rows = [(place, row(**told), Standing(), "covered") for place, told in ((2, {"serial": "A-1"}), (3, said))]
    assert len(oddities(rows)) == odd


def test_what_a_row_leaves_out_is_left_out_of_its_claim():
    claim = claim_of(row(engine_serial="E-1"), "list.csv", {})
    assert ([serial.role for serial in claim.unit.serials], claim.dates.failed) == (["engine"], None)


@pytest.mark.parametrize(
    ("said", "state"),
    [
        ({}, "draft"),
        ({"filed": "2025-10-10"}, "filed"),
        (FILED | {"accepted": "9"}, "filed"),
        (FILED | {"answered": "2025-11-01"}, "filed"),
        (FILED | {"answered": "2025-11-01", "accepted": "9"}, "accepted"),
        (FILED | {"answered": "2025-11-01", "accepted": "8.99"}, "part"),
        (FILED | {"answered": "2025-11-01", "accepted": "0"}, "part"),
    ],
    ids=["nothing", "filed", "no day of an answer", "no amount", "all of it", "a cent less", "nothing of it"],
)
def test_days_and_amounts_alone_say_where_a_claim_stands(said, state):
    assert state_told(row(**said)) == state


PAID = Payment(on="2025-12-01", amount="5.00")


@pytest.mark.parametrize(
    ("standing", "verdict", "odd"),
    [
        (Standing(state="accepted", filed="2025-10-10", claimed="9", payments=(PAID,)), "covered", 1),
        (Standing(state="paid", filed="2025-10-10", claimed="5", payments=(PAID,)), "covered", 0),
        (Standing(state="filed", filed="2025-10-10", claimed="9"), "covered", 0),
        (Standing(state="filed", filed="2025-10-10", claimed="9"), "not covered", 1),
        (Standing(), "not covered", 0),
    ],
    ids=["paid in part", "paid", "filed", "filed out of cover", "a draft out of cover"],
)
def test_what_is_odd_about_where_a_row_leaves_its_claim_is_told(standing, verdict, odd):
    assert len(oddities([(2, row(), standing, verdict)])) == odd
