from __future__ import annotations

import datetime as dt
from decimal import Decimal

import pytest
from book_builders import ANA, DIGEST, OPENED, an_entry, happened, kept

from claimpack.book.entries import Wanted


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


@pytest.mark.parametrize("said", ["tessaly", "TESSALY PUMPS", "Tessaly-Pumps", "tsl"])
def test_a_maker_is_found_by_each_of_its_words(three, said):
    named = DIGEST.model_copy(update={"maker": "tessaly", "maker_name": "Tessaly Pumps"})
    three.add([an_entry("26-0004", digest=named, maker="TSL")], ANA, OPENED)
    assert numbers(three.claims(Wanted(maker=said))) == ["26-0004"]


@pytest.mark.parametrize("said", ["tess", "pumps", "tessaly_pumps%", "%"])
def test_a_part_of_a_makers_word_is_another_maker(three, said):
    named = DIGEST.model_copy(update={"maker": "tessaly", "maker_name": "Tessaly Pumps"})
    three.add([an_entry("26-0004", digest=named)], ANA, OPENED)
    assert three.claims(Wanted(maker=said)) == []


def test_the_makers_of_the_book_are_each_told_once(three):
    assert three.makers() == ["Orrin-Vale", "halden"]


def test_a_list_knows_the_day_the_maker_was_first_heard_of(book):
    book.add([an_entry("26-0001")], ANA, OPENED)
    told = [
        happened("filed", on=dt.date(2026, 2, 6), claimed="150.00", currency="USD", received="2026-02-06"),
        happened("answered", on=dt.date(2026, 2, 9), answer="questioned"),
        happened("answered", on=dt.date(2026, 2, 20), answer="refused"),
    ]
    with book.change("26-0001", ANA) as change:
        change.save(change.claim, DIGEST, *told)
    row = book.claims()[0]
    assert (row.state, row.answered, row.heard) == ("refused", dt.date(2026, 2, 20), dt.date(2026, 2, 9))


def test_a_list_knows_when_the_maker_of_a_paid_claim_with_a_refused_rest_was_first_heard_of(book):
    book.add([an_entry("26-0001")], ANA, OPENED)
    told = [
        happened("filed", on=dt.date(2026, 2, 6), claimed="150.00", currency="USD", received="2026-02-06"),
        happened("answered", on=dt.date(2026, 2, 9), answer="part", amount="100.00"),
        happened("paid", on=dt.date(2026, 2, 20), amount="100.00"),
    ]
    with book.change("26-0001", ANA) as change:
        change.save(change.claim, DIGEST, *told)
    row = book.claims(Wanted(refused_rest=True))[0]
    assert (row.state, row.heard) == ("paid", dt.date(2026, 2, 9))
