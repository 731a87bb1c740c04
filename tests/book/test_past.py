from __future__ import annotations

import re

import pytest
from book_builders import (
    ANA,
    BEN,
    DAY,
    EDITED,
    OPENED,
    SUMMARY,
    an_entry,
    at,
    happened,
    kept,
    plans_about_events,
    rename,
)

from claimpack.book.book import Book
from claimpack.book.tables.migrations import migrate
from claimpack.book.tables.schema import ASKED_FOR
from claimpack.errors import NotFound


def test_an_older_revision_can_be_read(one):
    rename(one, "26-0001", "B. Customer")
    assert [one.revision("26-0001", number).owner.name for number in (1, 2)] == ["A. Customer", "B. Customer"]


def test_an_older_revision_knows_its_files(book):
    book.add([an_entry("26-0001", kept("two  blanks.jpg", "11" * 32))], ANA, OPENED)
    with book.change("26-0001", BEN) as change:
        change.save(change.claim, SUMMARY, EDITED, files=[])
    assert book.revision_files("26-0001", 1) == {"two  blanks.jpg": "11" * 32}
    assert book.revision_files("26-0001", 2) == {}


def test_a_revision_that_never_was_is_not_found(one):
    with pytest.raises(NotFound) as caught:
        one.revision("26-0001", 2)
    assert "no revision 2" in caught.value.what


def test_the_history_tells_who_what_when_and_why(one):
    with one.change("26-0001", BEN) as change:
        change.save(change.claim, SUMMARY, happened("filed", "sent by mail", reference="R-7"))
    event = one.history("26-0001")[-1]
    assert (event.who, event.what, event.at, event.why) == ("Ben", "filed", at(10, 30), "sent by mail")
    assert (event.facts, event.on) == ({"reference": "R-7"}, DAY)


def test_every_event_comes_one_by_one_as_the_history_has_them(three):
    assert list(three.each_event()) == three.history()


def test_histories_come_claim_by_claim_in_the_order_of_the_claims(three):
    told = list(three.histories())
    assert [claim for claim, _ in told] == [entry.claim.number for entry in three.entries()]
    assert told[0][1] == three.history(told[0][0])


def test_the_history_of_a_claim_is_its_own(three):
    assert [event.claim for event in three.history("26-0002")] == ["26-0002"]


def test_events_that_carry_a_fact_come_latest_first(one):
    for place in ("B1", "B2"):
        with one.change("26-0001", BEN) as change:
            change.save(change.claim, SUMMARY, happened("edited", shelf=place))
    assert [event.facts["shelf"] for event in one.told("shelf")] == ["B2", "B1"]


@pytest.mark.parametrize("memo", ["M-1", 'M "1" ü', "M" * 200])
def test_events_are_asked_for_by_what_a_fact_says_in_whatever_letters(one, memo):
    for told in (memo, f"{memo}0", memo[:-1]):
        with one.change("26-0001", BEN) as change:
            change.save(change.claim, SUMMARY, happened("edited", aside="", memo=told, zone="Z" * 300))
    assert [event.facts["memo"] for event in one.told("memo", memo)] == [memo]
    assert len(one.told("memo")) == 3


@pytest.mark.parametrize("shop", ["", "north"])
def test_facts_that_are_asked_for_are_found_by_an_index(tmp_path, shop):
    book = Book(str(tmp_path / "book.sqlite"), shop, all_shops=False)
    migrate(book.engine)
    plans = plans_about_events(book, lambda: [book.told(fact) for fact in ASKED_FOR])
    assert [re.findall(r"events USING INDEX events_by_(\w+)", plan) for plan in plans] == [[fact] for fact in ASKED_FOR]


def test_of_histories_only_what_carries_one_of_some_facts_is_told(one):
    for facts in ({"shelf": "B1"}, {"note": '"shelf": "B2"'}, {"part": "1"}):
        with one.change("26-0001", BEN) as change:
            change.save(change.claim, SUMMARY, happened("edited", **facts))
    told = [(claim, [event.facts for event in events]) for claim, events in one.histories(("shelf", "part"))]
    assert told == [("26-0001", [{"shelf": "B1"}, {"part": "1"}])]


def test_a_text_that_looks_like_a_fact_is_none(one):
    with one.change("26-0001", BEN) as change:
        change.save(change.claim, SUMMARY, happened("edited", note='"shelf": "B1"'))
    assert one.told("shelf") == []
