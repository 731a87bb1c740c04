from __future__ import annotations

import datetime as dt
from decimal import Decimal

import pytest
from book_builders import ANA, BEN, DAY, EDITED, OPENED, SUMMARY, an_entry, happened, kept, rename, with_owner

from claimpack.book.tables.entries import Wanted
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.errors import AlreadyChanged, BadInput, NotFound, WrongState


def test_a_claim_comes_back_as_it_was_put_in(book):
    entry = an_entry("26-0001", kept("papers/receipt.pdf"), parts=[{"name": "Ring", "unit_cost": "3.1250"}])
    book.add([entry], ANA, OPENED)
    assert book.get("26-0001")[::3] == entry[::3]
    assert book.get("26-0001").files == entry.files


def test_a_new_claim_is_at_its_first_revision_and_a_draft(one):
    entry = one.get("26-0001")
    assert (entry.revision, entry.standing.state, entry.standing.opened) == (1, "draft", DAY)


def test_a_claim_that_is_not_there_suggests_the_nearest(one):
    with pytest.raises(NotFound) as caught:
        one.get("26-001")
    assert "26-0001" in caught.value.do


def test_a_claim_that_resembles_none_points_to_the_list(one):
    with pytest.raises(NotFound) as caught:
        one.get("zebra")
    assert "list" in caught.value.do


def test_a_number_is_given_once(one):
    with pytest.raises(BadInput) as caught:
        one.add([an_entry("26-0002"), an_entry("26-0001")], BEN, OPENED)
    assert "26-0001" in caught.value.what


def test_of_claims_added_together_all_are_kept_or_none(one):
    with pytest.raises(BadInput):
        one.add([an_entry("26-0002"), an_entry("26-0001")], BEN, OPENED)
    assert one.numbers() == ["26-0001"]


def test_a_number_given_twice_at_once_is_refused(book):
    with pytest.raises(BadInput) as caught:
        book.add([an_entry("26-0001"), an_entry("26-0001")], ANA, OPENED)
    assert "twice" in caught.value.what


def test_many_claims_are_added_at_once(book):
    assert book.add((an_entry(f"26-{index:04}") for index in range(503)), ANA, OPENED) == 503
    assert len(book.history()) == book.count() == 503


def test_adding_nothing_changes_nothing(book):
    assert book.add([], ANA, OPENED) == 0
    assert book.history() == []


def test_numbers_are_in_order_whatever_language_the_server_speaks(book):
    book.add([an_entry(number) for number in ("b-1", "A-2", "a-1", "B-1")], ANA, OPENED)
    assert book.numbers() == ["A-2", "B-1", "a-1", "b-1"]


def test_a_change_makes_the_next_revision(one):
    rename(one, "26-0001", "B. Customer")
    entry = one.get("26-0001")
    assert (entry.revision, entry.claim.owner.name) == (2, "B. Customer")


def test_lists_follow_a_change(one):
    rename(one, "26-0001", "B. Customer")
    assert [row.owner for row in one.claims(Wanted(text="b. customer"))] == ["B. Customer"]
    assert one.claims(Wanted(text="a. customer")) == []


def test_serials_held_parts_and_files_follow_a_change(book):
    book.add([an_entry("26-0001", kept("a.jpg"))], ANA, OPENED)
    with book.change("26-0001", BEN) as change:
        other = an_entry("26-0001", unit__serials=[{"role": "unit", "value": "Z-9"}]).claim
        change.save(other, SUMMARY, EDITED, files=[kept("b.jpg")])
    assert ([row.number for row in book.with_serials(["z 9"])], book.with_serials(["HC70-1"])) == (["26-0001"], [])
    assert [file.path for file in book.get("26-0001").files] == ["b.jpg"]


def test_files_stay_when_a_change_says_nothing_of_them(book):
    book.add([an_entry("26-0001", kept("a.jpg"))], ANA, OPENED)
    rename(book, "26-0001", "B. Customer")
    assert [file.path for file in book.get("26-0001").files] == ["a.jpg"]


def test_leaving_without_saving_changes_nothing(one):
    with one.change("26-0001", ANA) as change:
        with_owner(change.claim, "Nobody")
    assert (one.get("26-0001").revision, len(one.history())) == (1, 1)


def test_an_error_after_saving_changes_nothing(one):
    with pytest.raises(KeyboardInterrupt), one.change("26-0001", ANA) as change:  # noqa: PT012
        change.save(with_owner(change.claim, "Nobody"), SUMMARY, EDITED)
        raise KeyboardInterrupt
    assert (one.get("26-0001").claim.owner.name, len(one.history())) == ("A. Customer", 1)


def test_a_stale_change_is_refused_with_who_what_and_when(one):
    rename(one, "26-0001", "B. Customer", BEN)
    with pytest.raises(AlreadyChanged) as caught:
        rename(one, "26-0001", "C. Customer", revision=1)
    assert caught.value.why == "Ben, 2026-03-01 10:30: edited (changed: owner.name)."


def test_a_stale_change_loses_nothing(one):
    rename(one, "26-0001", "B. Customer", BEN)
    with pytest.raises(AlreadyChanged):
        rename(one, "26-0001", "C. Customer", revision=1)
    assert one.get("26-0001").claim.owner.name == "B. Customer"


def test_a_change_from_the_last_revision_is_taken(one):
    rename(one, "26-0001", "B. Customer", revision=1)
    assert one.get("26-0001").revision == 2


def test_a_number_cannot_change(one):
    with one.change("26-0001", ANA) as change, pytest.raises(BadInput) as caught:
        change.save(an_entry("26-0002").claim, SUMMARY, EDITED)
    assert "keeps its number" in caught.value.why


def test_what_does_not_follow_is_refused(one):
    with one.change("26-0001", ANA) as change, pytest.raises(WrongState) as caught:
        change.save(change.claim, SUMMARY, happened("paid", amount="10"))
    assert "draft" in caught.value.what


def test_two_things_that_happen_together_follow_each_other(one):
    with one.change("26-0001", ANA) as change:
        filed, paid = happened("filed", claimed="159.70", currency="USD"), happened("paid", amount="159.70")
        change.save(change.claim, SUMMARY, filed, paid)
    assert one.get("26-0001").standing.state == "paid"
    assert [event.revision for event in one.history("26-0001")] == [1, 2, 2]


def test_of_several_saves_the_last_counts(one):
    with one.change("26-0001", ANA) as change:
        change.save(with_owner(change.claim, "First"), SUMMARY, EDITED)
        change.save(with_owner(change.claim, "Last"), SUMMARY, EDITED)
    assert (one.get("26-0001").claim.owner.name, len(one.history())) == ("Last", 2)


def test_no_claim_no_change(book):
    with pytest.raises(NotFound), book.change("26-0001", ANA):
        pass
    assert book.count() == 0


def test_the_end_of_the_chain_is_the_last_event(three):
    assert three.chain_end() == (3, three.history()[-1].hash)


def test_a_filed_claim_is_listed_at_what_was_claimed(one):
    with one.change("26-0001", ANA) as change:
        change.save(change.claim, SUMMARY, happened("filed", claimed="150.00", currency="EUR"))
    row = one.claims()[0]
    assert (row.claimed, row.currency, row.outstanding) == (Decimal("150.00"), "EUR", Decimal("150.00"))


def test_the_filing_date_is_due_for_drafts_alone(book):
    due = SUMMARY.model_copy(update={"file_by": dt.date(2026, 3, 26)})
    book.add([an_entry("26-0001", summary=due)], ANA, OPENED)
    before = book.claims()[0].file_by
    with book.change("26-0001", ANA) as change:
        change.save(change.claim, due, happened("filed"))
    assert (before, book.claims()[0].file_by) == (dt.date(2026, 3, 26), None)


def test_claims_with_a_content_are_found_in_order(book):
    for number, sha256 in (("26-0002", "a" * 64), ("26-0001", "a" * 64), ("26-0003", "b" * 64)):
        book.add([an_entry(number, kept("photos/plate.jpg", sha256), kept("photos/copy.jpg", sha256))], ANA, OPENED)
    assert book.with_content(["a" * 64, "c" * 64]) == {"a" * 64: ["26-0001", "26-0002"]}


def test_a_claim_that_comes_to_nothing_stays_as_it_is(book):
    book.add([an_entry(summary=ClaimSummary(currency="USD", claimed=Decimal("0.00")))], ANA, OPENED)
    assert str(book.get("26-0001").summary.claimed) == "0.00"
