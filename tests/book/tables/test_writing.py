from __future__ import annotations

import pytest
from book_builders import ANA, EDITED, OPENED, SUMMARY, an_entry, happened

from claimpack.book.database import engines
from claimpack.book.tables import schema
from claimpack.book.tables.writing import put, refuse_known
from claimpack.errors import BadInput


def numbers(count):
    return [f"26-{index:04}" for index in range(1, count + 1)]


def with_claims(book, count):
    book.add([an_entry(number) for number in numbers(count)], ANA, OPENED)


def refusal(book, asked):
    with pytest.raises(BadInput) as caught, engines.reading(book.engine) as connection:
        refuse_known(connection, asked)
    return caught.value.what


@pytest.mark.parametrize(
    ("there", "told"),
    [
        (1, "claim 26-0001 is already in the book"),
        (5, "claim 26-0001, 26-0002, 26-0003, 26-0004, 26-0005 is already in the book"),
        (7, "claim 26-0001, 26-0002, 26-0003, 26-0004, 26-0005 and 2 more is already in the book"),
    ],
)
def test_numbers_that_are_taken_are_told_in_order_the_sixth_and_on_counted(book, there, told):
    with_claims(book, there)
    assert refusal(book, ["99-1", *reversed(numbers(there))]) == told


def test_a_taken_number_is_found_among_more_than_are_asked_for_at_once(book):
    with_claims(book, 2)
    asked = [*(f"27-{index}" for index in range(600)), "26-0002"]
    assert refusal(book, asked) == "claim 26-0002 is already in the book"


def test_a_number_given_three_times_is_told_once(book):
    assert refusal(book, ["26-0002", "26-0001", "26-0002", "26-0002"]) == "claim 26-0002 is given twice"


def test_a_number_that_differs_in_case_is_another(book):
    book.add([an_entry("26-A")], ANA, OPENED)
    with engines.reading(book.engine) as connection:
        assert refuse_known(connection, ["26-a"]) is None


def test_more_rows_than_one_statement_takes_are_all_written(book):
    rows = [(f"technician {index}", "26-0001", "clean", "2026-03-01T09:00:00") for index in range(8000)]
    with engines.writing(book.engine) as connection:
        put(connection, schema.CLOCKS, rows)
        counted = connection.value("SELECT count(*) FROM clocks")
    assert counted == 8000


def test_marks_of_a_statement_in_a_text_are_text(book):
    with engines.writing(book.engine) as connection:
        put(connection, schema.CLOCKS, [("Ben ?", "26-0001", "clean: 100% %s", "2026-03-01")])
    clock = book.clocks()[0]
    assert (clock.technician, clock.claim, clock.operation) == ("Ben ?", "26-0001", "clean: 100% %s")


def test_no_rows_are_no_statement(book):
    with engines.writing(book.engine) as connection:
        put(connection, schema.CLOCKS, [])
    assert book.clocks() == []


def test_two_events_at_once_are_two_links_of_the_chain(book):
    with_claims(book, 1)
    with book.change("26-0001", ANA) as change:
        change.save(change.claim, SUMMARY, happened("filed", claimed="1.00", currency="USD"), happened("received"))
    events = book.history("26-0001")
    assert [event.previous for event in events[1:]] == [event.hash for event in events[:-1]]
    assert [event.revision for event in events] == [1, 2, 2]


def test_claims_added_together_follow_each_other_in_the_chain(book):
    with_claims(book, 3)
    assert book.chain_end() == (3, book.history()[-1].hash)


@pytest.mark.parametrize("lies_in", ["memory"])
def test_every_revision_and_event_carries_16_bytes_of_chance_of_its_own(book):
    with_claims(book, 60)
    with engines.reading(book.engine) as connection:
        salts = [salt for table in ("revisions", "events") for salt in connection.column(f"SELECT salt FROM {table}")]  # noqa: S608
    assert (len(set(salts)), {len(bytes.fromhex(salt)) for salt in salts}) == (120, {16})


def test_what_lay_beside_a_claim_before_is_gone_after_a_change(book):
    book.add([an_entry("26-0001", held=[{"part": "short block"}, {"part": "muffler"}])], ANA, OPENED)
    with book.change("26-0001", ANA) as change:
        change.save(change.claim.model_copy(update={"held": change.claim.held[:1]}), SUMMARY, EDITED)
    assert [row.part for row in book.held()] == ["short block"]
