from __future__ import annotations

import pytest
from book_builders import ANA, BEN, EDITED, OPENED, SUMMARY, an_entry

from claimpack.book.database import engines
from claimpack.book.refusals import clock_changed, clock_runs, no_such_claim, of_another_shop, stale


@pytest.fixture
def shelf(book):
    book.add([an_entry(number) for number in ("26-0001", "26-0002", "25-0310", "RO-771", "SAW-A")], ANA, OPENED)
    return book


def suggested(book, number):
    with engines.reading(book.engine) as connection:
        return no_such_claim(connection, number).do


def changed(book, update, author=BEN):
    with book.change("26-0001", author) as change:
        change.save(change.claim.model_copy(update=update), SUMMARY, EDITED)


def told(book, revision=1):
    with engines.reading(book.engine) as connection:
        return stale(connection, "26-0001", revision).why


@pytest.mark.parametrize(
    ("typed", "near"),
    [
        ("26-001", "26-0001"),
        ("26-00022", "26-0002"),
        ("2-0310", "25-0310"),
        ("saw-a", "SAW-A"),
        ("saw-bc", "SAW-A"),
        ("zaw-a", "SAW-A"),
        ("RO_771", "RO-771"),
    ],
    ids=[
        "a digit missing",
        "one too many",
        "at its beginning",
        "another case",
        "another case and end",
        "another case and beginning",
        "a sign of the query language",
    ],
)
def test_a_mistyped_number_suggests_the_nearest(shelf, typed, near):
    assert suggested(shelf, typed) == f"Did you mean {near}?"


@pytest.mark.parametrize(("count", "number"), [("310", "25-0310"), ("0310", "25-0310"), ("2", "26-0002"), ("10", "")])
def test_the_count_of_a_claim_typed_alone_suggests_the_latest_of_that_count(shelf, count, number):
    assert suggested(shelf, count) == (f"Did you mean {number}?" if number else "See: claimpack list")


def test_the_same_count_of_two_years_suggests_the_later_one(shelf):
    shelf.add([an_entry("25-0002")], ANA, OPENED)
    assert suggested(shelf, "2") == "Did you mean 26-0002?"


@pytest.mark.parametrize("typed", ["", "%", "_" * 7, "zebra", "二六", "x" * 5000])
def test_a_number_like_none_points_to_the_list(shelf, typed):
    assert suggested(shelf, typed) == "See: claimpack list"


@pytest.mark.parametrize("lies_in", ["memory"])
@pytest.mark.parametrize("typed", ["REP-9x", "REP-9xy"])
def test_the_nearest_is_found_among_more_claims_than_are_looked_at(book, typed):
    book.add([an_entry(f"REP-{index}") for index in range(1, 302)], ANA, OPENED)
    assert suggested(book, typed) == "Did you mean REP-9?"


def test_an_empty_book_suggests_nothing(book):
    assert suggested(book, "26-0001") == "See: claimpack list"


def test_a_stale_change_is_told_by_who_when_what_and_the_key_inside_its_table(shelf):
    owner = shelf.get("26-0001").claim.owner.model_copy(update={"phone": "555-0142"})
    changed(shelf, {"owner": owner})
    assert told(shelf) == "Ben, 2026-03-01 10:30: edited (changed: owner.phone)."


def test_a_table_that_was_not_there_before_is_told_by_its_name(shelf):
    changed(shelf, {"approval": an_entry(approval={"number": "A-1"}).claim.approval})
    assert told(shelf) == "Ben, 2026-03-01 10:30: edited (changed: approval)."


def test_several_changes_are_told_one_after_the_other_and_their_keys_once(shelf):
    changed(shelf, {"maker": "tessaly"}, ANA)
    changed(shelf, {"maker": "orrin", "terms": "us-tx"})
    assert told(shelf) == "Ana, 2026-03-01 09:00: edited; Ben, 2026-03-01 10:30: edited (changed: maker, terms)."


def test_a_change_that_was_taken_back_names_no_key(shelf):
    changed(shelf, {"maker": "tessaly"}, ANA)
    changed(shelf, {"maker": "halden"})
    assert "changed:" not in told(shelf)


def test_a_revision_that_is_still_to_come_is_stale_without_anybody(shelf):
    assert told(shelf, revision=9) == "It stands at another revision."


def test_whoever_refuses_a_claim_of_another_shop_may_say_why_and_what_to_do():
    usual, told = of_another_shop("26-0001", "hollis"), of_another_shop("26-0001", "hollis", "Ask them.", "Theirs.")
    assert ("hollis" in usual.do, bool(usual.why)) == (True, True)
    assert (told.why, told.do) == ("Theirs.", "Ask them.")


def test_a_second_clock_is_refused_with_where_the_first_runs():
    refusal = clock_runs("Ben", "26-0001", "short-block-replace", "2026-02-28T23:59:30-05:00")
    assert (
        refusal.what == "Ben's clock is already running, since 2026-02-28 23:59: short-block-replace on claim 26-0001"
    )


def test_a_clock_that_is_gone_says_whose():
    assert clock_changed("Ben").what.startswith("Ben's clock was stopped or started anew")
