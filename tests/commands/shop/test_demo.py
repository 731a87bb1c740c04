"""An invented shop to try: a Monday morning with something of everything in it, on whatever day it is made."""

import datetime as dt

import pytest
from running import claimpack

NOW = dt.datetime(2029, 4, 2, 8, 0, tzinfo=dt.UTC)
"""Years after the plans that come with the program stop being sold under."""


@pytest.fixture(scope="module")
def place(tmp_path_factory):
    place = tmp_path_factory.mktemp("demo")
    assert claimpack("shop", "demo", "try", folder=place, now=NOW).code == 0
    return place / "try"


def _asked(place, *words):
    return claimpack(*words, "--json", folder=place, now=NOW).json


@pytest.mark.parametrize(
    "state", ["draft", "filed", "questioned", "accepted", "refused", "paid", "written off", "withdrawn"]
)
def test_claims_lie_there_in_every_state(place, state):
    claims = _asked(place, "list", "--all", "--limit", "0")["claims"]
    assert state in {claim["state"] for claim in claims}


@pytest.mark.parametrize("state", ["held", "called back", "sent", "released", "scrapped"])
def test_parts_are_kept_in_every_state(place, state):
    assert state in {part["state"] for part in _asked(place, "hold", "list", "--state", "all")["parts"]}


def test_money_is_late(place):
    assert any(claim["days_overdue"] for claim in _asked(place, "pending")["claims"])


def test_its_book_and_every_picture_are_proved(place):
    assert claimpack("shop", "verify", folder=place, now=NOW).code == 0


def test_a_folder_that_is_there_is_left_alone(place):
    ran = claimpack("shop", "demo", ".", folder=place, now=NOW)
    assert ran.code == 2
    assert "is there already" in ran.err
