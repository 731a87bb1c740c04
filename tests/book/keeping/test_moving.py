import json
from itertools import groupby

import pytest
from book_builders import ANA, BEN, DAY, EDITED, OPENED, an_entry, happened, kept, many_entries

from claimpack.book.keeping.forgetting import Wish, forget
from claimpack.book.keeping.moving import TABLES, content_named, everything, hashes_of, refuse_unless_empty, restore
from claimpack.book.keeping.proof import book_problems
from claimpack.book.opening import open_book
from claimpack.errors import BadInput, WrongState

FILED = happened("filed", packet="cd" * 32, claimed="159.70", currency="USD", revision="2")


@pytest.fixture(params=["memory", "server"])
def lies_in(request):
    return request.param


@pytest.fixture
def full():
    """A book of three claims, one of them changed and filed."""
    book = open_book(":memory:", create=True)
    book.add([an_entry("26-0001", kept("photos/a.jpg")), an_entry("26-0002"), an_entry("26-0003")], ANA, OPENED)
    with book.change("26-0001", BEN) as change:
        change.save(change.claim, change.summary, EDITED, files=[kept("photos/b.jpg", "ef" * 32)])
    with book.change("26-0001", BEN) as change:
        change.save(change.claim, change.summary, FILED)
    return book


def rows_of(book):
    with everything(book) as read:
        return {name: list(read(name)) for name in TABLES}


def put_into(book, told):
    restore(book, lambda name: iter(told[name]))


def test_a_book_restored_is_the_same_row_for_row(full, book):
    put_into(book, rows_of(full))
    assert rows_of(book) == rows_of(full)


def test_a_restored_book_follows_from_its_history(full, book):
    put_into(book, rows_of(full))
    assert book_problems(book) == []


def test_a_restored_book_ends_its_history_where_the_old_one_did(full, book):
    put_into(book, rows_of(full))
    assert book.chain_end() == full.chain_end()


def test_a_restored_claim_is_listed_found_and_changed(full, book):
    put_into(book, rows_of(full))
    with book.change("26-0002", ANA) as change:
        change.save(change.claim, change.summary, EDITED)
    assert book.claims() != full.claims()
    assert [row.number for row in book.with_serials(["HC70-1"])] == ["26-0003", "26-0002", "26-0001"]
    assert book_problems(book) == []


def test_running_clocks_move_with_the_book(full, book):
    full.start_clock("Ben", "26-0001", "short block", BEN.at)
    put_into(book, rows_of(full))
    assert book.clocks() == full.clocks()


MANY = 503
"""More claims than are moved at a time."""


@pytest.fixture(scope="module")
def many():
    """The rows of a book of so many claims, and the end of its history."""
    source = open_book(":memory:", create=True)
    source.add(many_entries(MANY), ANA, OPENED)
    return rows_of(source), source.chain_end()


def test_many_claims_move_in_batches(many, book):
    rows, end = many
    put_into(book, rows)
    assert (book.count(), book.chain_end()) == (MANY, end)


def test_an_empty_book_moves_to_an_empty_book(book):
    put_into(book, rows_of(open_book(":memory:", create=True)))
    assert (book.count(), book.chain_end()[0]) == (0, 0)


def test_tables_are_told_by_their_keys_in_order(full):
    numbers = [(row["claim"], row["revision"]) for row in rows_of(full)["revisions"]]
    assert numbers == sorted(numbers)
    assert [number for number, _ in groupby(numbers, lambda pair: pair[0])] == ["26-0001", "26-0002", "26-0003"]


def test_a_book_with_a_claim_takes_no_other(full, book):
    book.add([an_entry("26-0009")], ANA, OPENED)
    with pytest.raises(WrongState, match="it holds 1 claims and 1 events"):
        put_into(book, rows_of(full))


def test_a_book_with_a_claim_is_not_empty(full):
    with pytest.raises(WrongState, match="the book is not empty"):
        refuse_unless_empty(full)


CHILDREN = ("serials", "held", "kept_files")


@pytest.mark.parametrize(("lost", "left"), [(("events",), "3 claims and 0"), ((*CHILDREN, "claims"), "0 claims and 5")])
def test_a_book_with_claims_or_a_history_alone_is_not_empty(full, lost, left):
    with full.engine.transaction() as connection:
        for table in lost:
            connection.execute(f"DELETE FROM {table}")  # noqa: S608
    with pytest.raises(WrongState, match=f"it holds {left} events"):
        refuse_unless_empty(full)


def test_an_empty_book_is_empty(book):
    assert refuse_unless_empty(book) is None


def changed_history(told):
    told["events"][0]["who"] = "Somebody"


def changed_claim(told):
    told["revisions"][0]["document"] = told["revisions"][0]["document"].replace("Will not start.", "Starts.")


def event_lost(told):
    told["events"].pop()


def file_lost(told):
    told["kept_files"].pop()


def claim_lost(told):
    told["claims"].pop()


def file_of_no_claim(told):
    told["kept_files"][0]["claim"] = "26-9999"


def no_rows(told):
    told["revisions"][0] = {"claim": "26-0001"}


@pytest.mark.parametrize(
    "change", [changed_history, changed_claim, event_lost, file_lost, claim_lost, file_of_no_claim, no_rows]
)
def test_rows_that_do_not_hold_together_are_not_kept(full, book, change):
    told = rows_of(full)
    change(told)
    with pytest.raises(BadInput, match="the archive"):
        put_into(book, told)


@pytest.mark.parametrize("change", [changed_history, file_of_no_claim])
def test_a_refused_archive_leaves_the_book_empty(full, book, change):
    told = rows_of(full)
    change(told)
    with pytest.raises(BadInput):
        put_into(book, told)
    assert (book.count(), book.chain_end()[0]) == (0, 0)


def test_the_content_needed_is_that_of_every_revision_and_every_filing(full):
    needed = {sha for name, told in rows_of(full).items() for row in told for sha in hashes_of(name, row)}
    assert needed == {"ab" * 32, "ef" * 32, "cd" * 32}


def test_an_event_without_a_packet_needs_no_content():
    assert list(hashes_of("events", {"what": "filed", "facts": json.dumps({})})) == []


def test_the_one_name_of_a_maker_moves_with_its_claim(full, book):
    named = full.get("26-0002").summary.model_copy(update={"maker": "halden", "maker_name": "Halden Tools"})
    with full.change("26-0002", ANA) as change:
        change.save(change.claim, named, EDITED)
    put_into(book, rows_of(full))
    assert [row.maker for row in book.claims()] == ["halden", "Halden Tools", "halden"]


def test_all_content_is_named_by_claim_and_file_or_filing(full):
    assert content_named(full) == {
        "ab" * 32: "claim 26-0001: photos/a.jpg, as in revision 1,",
        "ef" * 32: "claim 26-0001: photos/b.jpg",
        "cd" * 32: "claim 26-0001: the packet filed on 2026-03-01",
    }


def test_an_event_that_cannot_be_read_names_no_content(full):
    with full.engine.transaction() as connection:
        connection.execute("UPDATE events SET facts = 'x' WHERE what = 'filed'")
    assert "cd" * 32 not in content_named(full)


def test_a_packet_that_was_erased_on_request_is_needed_no_more(full):
    wish = Wish("26-0001", True, frozenset(), "the owner's data", "asked for", DAY)
    forget(full, wish, BEN, lambda claim, _files: full.get(claim.number).summary, lambda _sha256: None)
    assert content_named(full).keys() == {"ab" * 32, "ef" * 32}
