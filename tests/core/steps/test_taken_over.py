from __future__ import annotations

import pytest

from claimpack.core.events.standing import Standing
from claimpack.core.steps.taken_over import TakenOver, claim_of, lacking, oddities

ROW = {"number": "25-0001", "maker": "halden", "model": "CS-70", "presented": "2025-10-01"}


def row(**said):
    return TakenOver.model_validate({**ROW, **said})


@pytest.mark.parametrize(
    ("said", "keys"),
    [
        ({}, []),
        ({"state": "filed"}, ["filed", "claimed", "currency"]),
        ({"state": "part", "filed": "2025-10-10", "claimed": "9", "currency": "USD"}, ["answered", "accepted"]),
        ({"paid": "9"}, ["paid_on"]),
    ],
    ids=["a draft", "filed", "accepted in part", "paid"],
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
