from __future__ import annotations

import datetime as dt
from decimal import Decimal

import pytest
from book_builders import ANA, BEN, DAY, DIGEST, EDITED, OPENED, an_entry, at, happened, kept

from claimpack.book.entries import Wanted
from claimpack.core.claim import Claim
from claimpack.errors import AlreadyChanged, BadInput, NotFound, WrongState


def with_owner(claim: Claim, name: str) -> Claim:
    return claim.model_copy(update={"owner": claim.owner.model_copy(update={"name": name})})


def rename(book, number, name, author=ANA, revision=None):
    with book.change(number, author, revision) as change:
        change.save(with_owner(change.claim, name), DIGEST, EDITED)


@pytest.fixture
def one(book):
    book.add([an_entry("26-0001")], ANA, OPENED)
    return book


@pytest.fixture
def three(book):
    book.add(
        [
            an_entry("26-0001", owner__name="Ida North", dates__presented="2026-02-05", maker="halden"),
            an_entry("26-0002", owner__name="Per West", dates__presented="2026-02-07", maker="Orrin-Vale"),
            an_entry("26-0003", owner__name="Ida South", dates__presented="2026-02-06", maker="halden"),
        ],
        ANA,
        OPENED,
    )
    return book


def numbers(rows):
    return [row.number for row in rows]


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
    assert book.add((an_entry(f"26-{index:04}") for index in range(1201)), ANA, OPENED) == 1201
    assert len(book.history()) == book.count() == 1201


def test_adding_nothing_changes_nothing(book):
    assert book.add([], ANA, OPENED) == 0
    assert book.history() == []


def test_numbers_are_in_order_whatever_language_the_server_speaks(book):
    book.add([an_entry(number) for number in ("b-1", "A-2", "a-1", "B-1")], ANA, OPENED)
    assert book.numbers() == ["A-2", "B-1", "a-1", "b-1"]


def test_a_list_shows_the_latest_brought_in_first(three):
    assert numbers(three.claims()) == ["26-0002", "26-0003", "26-0001"]


def test_a_list_stops_at_its_limit(three):
    assert numbers(three.claims(Wanted(limit=1))) == ["26-0002"]


def test_a_count_knows_no_limit(three):
    assert three.count(Wanted(limit=1, maker="halden")) == 2


def test_a_list_shows_the_facts_of_a_claim(three):
    row = three.claims()[0]
    assert (row.owner, row.serial, row.component, row.presented) == (
        "Per West", "HC70-1", "short block", dt.date(2026, 2, 7)
    )  # fmt: skip
    assert (row.state, row.verdict, row.claimed, row.currency) == ("draft", "covered", Decimal("159.70"), "USD")


def test_a_list_is_narrowed_to_a_maker_however_it_is_written(three):
    assert numbers(three.claims(Wanted(maker="orrin vale"))) == ["26-0002"]


def test_a_list_is_narrowed_to_states(three):
    with three.change("26-0002", ANA) as change:
        change.save(change.claim, DIGEST, happened("withdrawn"))
    assert numbers(three.claims(Wanted(states=("withdrawn",)))) == ["26-0002"]
    assert three.count(Wanted(states=("draft", "filed"))) == 2


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("26-0002", ["26-0002"]),
        ("per WEST", ["26-0002"]),
        ("west per", ["26-0002"]),
        ("ida", ["26-0003", "26-0001"]),
        ("sout", ["26-0003"]),
        ("hc70_1", ["26-0002", "26-0003", "26-0001"]),
        ("won't", []),
        ("%", []),
        ("26_0002", ["26-0002"]),
        ("not start.", ["26-0002", "26-0003", "26-0001"]),
        ("  -  ", ["26-0002", "26-0003", "26-0001"]),
    ],
)
def test_claims_are_found_by_words_in_any_order_and_case(three, text, found):
    assert numbers(three.claims(Wanted(text=text))) == found


def test_a_serial_is_looked_up_whole(book):
    book.add([an_entry("26-0001", unit__serials=[{"role": "unit", "value": "HC70-118"}])], ANA, OPENED)
    book.add([an_entry("26-0118", unit__serials=[{"role": "unit", "value": "HC70-999"}])], ANA, OPENED)
    assert numbers(book.claims(Wanted(text="hc70-118"))) == ["26-0001"]


@pytest.mark.parametrize("text", ["ÅSE", "åse", "STRASSE", "straße"])
def test_letters_beyond_english_are_found_in_any_case(book, text):
    book.add([an_entry("26-0001", owner__name="Åse Straße")], ANA, OPENED)
    assert numbers(book.claims(Wanted(text=text))) == ["26-0001"]


def test_a_unit_is_known_by_any_of_its_serials(book):
    book.add([an_entry("26-0001", unit__serials=[{"role": "unit", "value": "A-1"}])], ANA, OPENED)
    two = [{"role": "battery", "value": "B-1"}, {"role": "battery", "value": "b 2"}]
    book.add([an_entry("26-0002", unit__serials=two)], ANA, OPENED)
    assert numbers(book.with_serials(["a 1", "B-2", ""])) == ["26-0002", "26-0001"]


def test_no_serial_is_on_no_claim(three):
    assert three.with_serials(["", ""]) == []


def test_whole_claims_come_by_number_with_their_files(book):
    book.add([an_entry("26-0002", kept("b.jpg"), kept("a.jpg")), an_entry("26-0001")], ANA, OPENED)
    assert [(entry.claim.number, len(entry.files)) for entry in book.entries()] == [("26-0001", 0), ("26-0002", 2)]


def test_of_claims_asked_for_those_there_come(three):
    asked = ["26-0003", "26-9999", "26-0001", "26-0003"]
    assert [entry.claim.number for entry in three.entries(asked)] == ["26-0001", "26-0003"]


def test_more_claims_are_asked_for_than_one_question_holds(book):
    book.add((an_entry(f"26-{index:04}") for index in range(600)), ANA, OPENED)
    assert len(list(book.entries(book.numbers()))) == 600


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
        change.save(other, DIGEST, EDITED, files=[kept("b.jpg")])
    assert (numbers(book.with_serials(["z 9"])), book.with_serials(["HC70-1"])) == (["26-0001"], [])
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
        change.save(with_owner(change.claim, "Nobody"), DIGEST, EDITED)
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
        change.save(an_entry("26-0002").claim, DIGEST, EDITED)
    assert "keeps its number" in caught.value.why


def test_what_does_not_follow_is_refused(one):
    with one.change("26-0001", ANA) as change, pytest.raises(WrongState) as caught:
        change.save(change.claim, DIGEST, happened("paid", amount="10"))
    assert "draft" in caught.value.what


def test_two_things_that_happen_together_follow_each_other(one):
    with one.change("26-0001", ANA) as change:
        filed, paid = happened("filed", claimed="159.70", currency="USD"), happened("paid", amount="159.70")
        change.save(change.claim, DIGEST, filed, paid)
    assert one.get("26-0001").standing.state == "paid"
    assert [event.revision for event in one.history("26-0001")] == [1, 2, 2]


def test_of_several_saves_the_last_counts(one):
    with one.change("26-0001", ANA) as change:
        change.save(with_owner(change.claim, "First"), DIGEST, EDITED)
        change.save(with_owner(change.claim, "Last"), DIGEST, EDITED)
    assert (one.get("26-0001").claim.owner.name, len(one.history())) == ("Last", 2)


def test_no_claim_no_change(book):
    with pytest.raises(NotFound), book.change("26-0001", ANA):
        pass
    assert book.count() == 0


def test_an_older_revision_can_be_read(one):
    rename(one, "26-0001", "B. Customer")
    assert [one.revision("26-0001", number).owner.name for number in (1, 2)] == ["A. Customer", "B. Customer"]


def test_an_older_revision_knows_its_files(book):
    book.add([an_entry("26-0001", kept("two  blanks.jpg", "11" * 32))], ANA, OPENED)
    with book.change("26-0001", BEN) as change:
        change.save(change.claim, DIGEST, EDITED, files=[])
    assert book.revision_files("26-0001", 1) == {"two  blanks.jpg": "11" * 32}
    assert book.revision_files("26-0001", 2) == {}


def test_a_revision_that_never_was_is_not_found(one):
    with pytest.raises(NotFound) as caught:
        one.revision("26-0001", 2)
    assert "no revision 2" in caught.value.what


def test_the_history_tells_who_what_when_and_why(one):
    with one.change("26-0001", BEN) as change:
        change.save(change.claim, DIGEST, happened("filed", "sent by mail", reference="R-7"))
    event = one.history("26-0001")[-1]
    assert (event.who, event.what, event.at, event.why) == ("Ben", "filed", at(10, 30), "sent by mail")
    assert (event.facts, event.on) == ({"reference": "R-7"}, DAY)


def test_the_history_of_a_claim_is_its_own(three):
    assert [event.claim for event in three.history("26-0002")] == ["26-0002"]


def test_the_end_of_the_chain_is_the_last_event(three):
    assert three.chain_end() == (3, three.history()[-1].hash)


def test_a_filed_claim_is_listed_at_what_was_claimed(one):
    with one.change("26-0001", ANA) as change:
        change.save(change.claim, DIGEST, happened("filed", claimed="150.00", currency="EUR"))
    row = one.claims()[0]
    assert (row.claimed, row.currency, row.outstanding) == (Decimal("150.00"), "EUR", Decimal("150.00"))


def test_the_filing_date_is_due_for_drafts_alone(book):
    due = DIGEST.model_copy(update={"file_by": dt.date(2026, 3, 26)})
    book.add([an_entry("26-0001", digest=due)], ANA, OPENED)
    before = book.claims()[0].file_by
    with book.change("26-0001", ANA) as change:
        change.save(change.claim, due, happened("filed"))
    assert (before, book.claims()[0].file_by) == (dt.date(2026, 3, 26), None)


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
