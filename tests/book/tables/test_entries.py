from __future__ import annotations

from contextlib import nullcontext

import pytest
from book_builders import EDITED, OPENED, SUMMARY, an_entry, at, happened, kept

from claimpack.book.tables.entries import EVERY, Change, Clock, Wanted
from claimpack.errors import BadInput, WrongState

FILED = happened("filed", claimed="150.00", currency="USD")
PAID = happened("paid", amount="150.00")


@pytest.fixture
def change():
    return Change(an_entry("26-0001", kept("photos/a.jpg")))


def test_a_change_that_is_not_saved_has_nothing_happen(change):
    assert (change.new_events, change.claim, change.files) == ((), change.entry.claim, change.entry.files)


def test_each_event_follows_from_the_one_before(change):
    change.save(change.claim, SUMMARY, FILED, PAID)
    assert [new_event.what for new_event in change.new_events] == ["filed", "paid"]


def test_what_happens_in_the_wrong_order_keeps_nothing_of_it(change):
    with pytest.raises(WrongState):
        change.save(change.claim, SUMMARY, PAID, FILED)
    assert change.new_events == ()


def test_a_claim_under_another_number_keeps_nothing_of_it(change):
    with pytest.raises(BadInput, match="number: 26-0002 is not 26-0001"):
        change.save(an_entry("26-0002").claim, SUMMARY, EDITED)
    assert change.claim.number == "26-0001"


@pytest.mark.parametrize(
    ("files", "left"), [(None, ["photos/a.jpg"]), ([], []), ([kept("photos/b.jpg")], ["photos/b.jpg"])]
)
def test_files_stay_unless_others_are_told(change, files, left):
    change.save(change.claim, SUMMARY, EDITED, files=files)
    assert [file.path for file in change.files] == left


PARTS = [{"part": "short block"}, {"part": "muffler"}]


@pytest.mark.parametrize("moved", [(), (happened("part sent", part="2"),)], ids=["held", "sent"])
def test_a_part_that_is_still_held_comes_off_a_claim_and_one_that_was_sent_stays(moved):
    change, less = Change(an_entry(held=PARTS), (OPENED, *moved)), an_entry(held=PARTS[:1]).claim
    with pytest.raises(BadInput, match="is sent") if moved else nullcontext():
        change.save(less, SUMMARY, EDITED)
    assert len(change.claim.held) == 1 + len(moved)


def test_a_later_save_is_measured_from_where_the_claim_stood_not_from_the_one_before(change):
    change.save(change.claim, SUMMARY, FILED)
    change.save(change.claim, SUMMARY, EDITED)
    assert change.new_events == (EDITED,)


def test_a_clock_to_be_stopped_is_remembered(change):
    clock = Clock("Ben", "26-0001", "clean", at(9))
    change.stop_clock(clock)
    assert change.stopped == clock


def test_every_claim_is_wanted_where_nothing_narrows():
    assert Wanted() == EVERY
