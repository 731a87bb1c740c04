from __future__ import annotations

import datetime as dt

import pytest
from book_builders import BEN, EDITED, SUMMARY, at

from claimpack.errors import AlreadyChanged, BadInput, NotFound


def test_a_clock_runs_until_it_is_dropped(one):
    one.start_clock("Ben", "26-0001", "short-block-replace", at(9))
    running = one.clocks()
    one.drop_clock("Ben")
    assert (running, one.clocks()) == ([("Ben", "26-0001", "short-block-replace", at(9))], [])


def test_a_technician_has_one_clock(one):
    one.start_clock("Ben", "26-0001", "short-block-replace", at(9))
    with pytest.raises(BadInput) as caught:
        one.start_clock("Ben", "26-0001", "carburettor", at(10))
    assert "since 2026-03-01 09:00: short-block-replace on claim 26-0001" in caught.value.what


def test_two_technicians_have_a_clock_each(one):
    one.start_clock("Cy", "26-0001", "pull engine", at(10))
    one.start_clock("Ben", "26-0001", "pull engine", at(9))
    assert [clock[0] for clock in one.clocks()] == ["Ben", "Cy"]


def test_a_clock_runs_on_a_claim_that_is_there(book):
    with pytest.raises(NotFound):
        book.start_clock("Ben", "26-0001", "pull engine", at(9))
    assert book.clocks() == []


def test_clocks_of_several_offsets_come_in_their_true_order(one):
    east = dt.datetime(2026, 3, 1, 11, 0, tzinfo=dt.timezone(dt.timedelta(hours=3)))
    one.start_clock("Cy", "26-0001", "pull engine", at(9))
    one.start_clock("Ben", "26-0001", "pull engine", east)
    assert [clock.technician for clock in one.clocks()] == ["Ben", "Cy"]


def test_a_clock_is_taken_away_with_the_change_it_counts_in(one):
    one.start_clock("Ben", "26-0001", "pull engine", at(9))
    clock = one.clocks()[0]
    with one.change("26-0001", BEN) as change:
        change.stop_clock(clock)
        change.save(change.claim, SUMMARY, EDITED)
    assert one.clocks() == []


def test_a_clock_runs_on_where_the_change_is_not_saved(one):
    one.start_clock("Ben", "26-0001", "pull engine", at(9))
    clock = one.clocks()[0]
    with one.change("26-0001", BEN) as change:
        change.stop_clock(clock)
    assert len(one.clocks()) == 1


def stopped_again(one, clock):
    with one.change("26-0001", BEN) as change:
        change.stop_clock(clock)
        change.save(change.claim, SUMMARY, EDITED)


@pytest.mark.parametrize("anew", [False, True], ids=["stopped", "started anew"])
def test_a_clock_that_is_no_longer_the_same_changes_nothing(one, anew):
    one.start_clock("Ben", "26-0001", "pull engine", at(9))
    clock = one.clocks()[0]
    one.drop_clock("Ben")
    if anew:
        one.start_clock("Ben", "26-0001", "pull engine", at(10))
    with pytest.raises(AlreadyChanged, match="started anew"):
        stopped_again(one, clock)
    assert (one.get("26-0001").revision, len(one.clocks())) == (1, int(anew))
