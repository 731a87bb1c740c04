# ruff: noqa: S608  # what somebody with another program would write
from __future__ import annotations

import hashlib
import json
import sqlite3
from contextlib import closing

import pytest
from book_builders import ANA, BEN, EDITED, OPENED, SUMMARY, an_entry, happened, kept

from claimpack.book.keeping.proof import book_problems
from claimpack.book.opening import open_book


@pytest.fixture
def lies_in():
    """The proof is of records as they are read; that both databases are read alike is asked of a few."""
    return "memory"


on_both = pytest.mark.parametrize("lies_in", ["memory", "server"])


@pytest.fixture
def lived(book):
    """A book with a history: three claims, one edited, one filed and paid in two payments."""
    held = [{"part": "short block", "shelf": "B3"}]
    book.add([an_entry("26-0001", kept("a.jpg")), an_entry("26-0002", held=held), an_entry("26-0003")], ANA, OPENED)
    for new_event in (happened("filed", claimed="100", currency="USD"), happened("paid", amount="40")):
        with book.change("26-0002", BEN) as change:
            change.save(change.claim, SUMMARY, new_event)
    with book.change("26-0001", BEN) as change:
        change.save(an_entry("26-0001", owner__name="B. Customer").claim, SUMMARY, EDITED)
    return book


def tamper(book, statement):
    """What somebody with another program could do."""
    with book.engine.transaction() as connection:
        connection.execute(statement)


def test_an_empty_book_is_whole(book):
    assert book_problems(book) == []


@on_both
def test_a_book_that_was_only_used_is_whole(lived):
    assert book_problems(lived) == []


@pytest.mark.parametrize(
    "change",
    [
        "who = 'Mallory'",
        "who = 'Ben '",
        "what = 'answered'",
        "what = 'a kind nobody knows'",
        "why = 'because'",
        "at = '2026-03-01T10:31:00+00:00'",
        "on_day = '2026-02-28'",
        "revision = 3",
        'facts = \'{"claimed": "900", "currency": "USD"}\'',
        "document = 'ff'",
    ],
)
def test_an_event_that_was_edited_is_named(lived, change):
    tamper(lived, f"UPDATE events SET {change} WHERE position = 4")
    assert any(problem.startswith("event 4 (") and "changed" in problem for problem in book_problems(lived))


@pytest.mark.parametrize(
    "change", ["at = 'noon'", "on_day = ''", "facts = '{'", "facts = '[1]'", "facts = '{\"a\": 1}'"]
)
def test_an_event_that_was_overwritten_by_nonsense_is_named(lived, change):
    tamper(lived, f"UPDATE events SET {change} WHERE position = 4")
    assert "event 4 (filed of 26-0002) was overwritten: it cannot be read" in book_problems(lived)


def test_an_event_sealed_again_breaks_the_next_one(lived):
    tamper(lived, "UPDATE events SET hash = 'ff' WHERE position = 4")
    assert "event 5 (paid of 26-0002) does not follow the event before it" in book_problems(lived)


@on_both
def test_a_deleted_event_is_missed_where_it_stood(lived):
    tamper(lived, "DELETE FROM events WHERE position = 2")
    assert "event 2 (opened of 26-0003) does not follow the event before it" in book_problems(lived)


def test_a_deleted_last_event_is_missed(lived):
    tamper(lived, "DELETE FROM events WHERE position = 6")
    assert any("holds 5 events, and the book counted 6" in problem for problem in book_problems(lived))


def test_a_history_that_was_wiped_out_is_missed(lived):
    tamper(lived, "DELETE FROM events")
    assert any("holds 0 events" in problem for problem in book_problems(lived))


def test_an_event_written_in_without_the_program_is_named(lived):
    columns = "claim, revision, at, on_day, who, what, why, facts, document, previous, hash"
    tamper(lived, f"INSERT INTO events (position, {columns}) SELECT 7, {columns} FROM events WHERE position = 5")
    assert "event 7 (paid of 26-0002) does not follow the event before it" in book_problems(lived)


@pytest.mark.parametrize("revision", [1, 2])
def test_a_document_that_was_edited_is_named_old_or_new(lived, revision):
    where = f"WHERE claim = '26-0001' AND revision = {revision}"
    tamper(lived, f"UPDATE revisions SET document = replace(document, 'Customer', 'Mallory') {where}")
    assert f"revision {revision} of claim 26-0001 is not the one that was recorded" in book_problems(lived)


@on_both
def test_a_document_overwritten_by_nonsense_is_named(lived):
    tamper(lived, "UPDATE revisions SET document = '{}' WHERE claim = '26-0003'")
    assert "claim 26-0003 cannot be read from the book" in book_problems(lived)


def test_an_old_revision_that_was_deleted_is_missed(lived):
    tamper(lived, "DELETE FROM revisions WHERE claim = '26-0001' AND revision = 1")
    assert book_problems(lived) == ["revision 1 of claim 26-0001 is gone from the book"]


def test_a_revision_nobody_recorded_is_named(lived):
    tamper(
        lived,
        "INSERT INTO revisions SELECT claim, 9, document, files, digest, salt FROM revisions WHERE claim = '26-0003'",
    )
    assert book_problems(lived) == ["revision 9 of claim 26-0003 is not the one that was recorded"]


@pytest.mark.parametrize(
    ("change", "named"),
    [
        ("state = 'paid'", "state"),
        ("outstanding = '0'", "outstanding"),
        ("claimed = '900'", "claimed"),
        ("owner = 'Mallory'", "owner"),
        ("serial = 'X'", "serial"),
        ("words = ''", "words"),
        ("presented = '2020-01-01'", "presented"),
        ("standing = '{}'", "standing"),
        ("verdict = 'not covered'", "verdict"),
    ],
)
def test_a_row_that_was_edited_is_named_with_its_column(lived, change, named):
    tamper(lived, f"UPDATE claims SET {change} WHERE number = '26-0002'")
    assert book_problems(lived) == [f"claim 26-0002 is not as its history left it: {named}"]


@pytest.mark.parametrize(
    ("statement", "problem"),
    [
        ("UPDATE serials SET serial = 'x' WHERE claim = '26-0002' AND role = 'unit'", "26-0002: serials"),
        ("DELETE FROM serials WHERE claim = '26-0002'", "26-0002: serials"),
        ("UPDATE held SET state = 'scrapped'", "26-0002: held parts"),
        ("DELETE FROM held", "26-0002: held parts"),
        ("UPDATE kept_files SET sha256 = 'ff'", "26-0001: files"),
        ("DELETE FROM kept_files", "26-0001: files"),
        ("UPDATE kept_files SET bytes = 999", "26-0001: files"),
        ("UPDATE kept_files SET taken = '2026-03-01T08:01:00+00:00'", "26-0001: files"),
        ("UPDATE kept_files SET likeness = 'f1'", "26-0001: files"),
    ],
)
def test_what_lies_beside_a_claim_is_proved_too(lived, statement, problem):
    tamper(lived, statement)
    number, what = problem.split(": ")
    assert book_problems(lived) == [f"claim {number} is not as its history left it: {what}"]


@on_both
def test_the_files_of_an_old_revision_are_proved(lived):
    tamper(lived, "UPDATE revisions SET files = 'ff  a.jpg' WHERE claim = '26-0001' AND revision = 1")
    assert book_problems(lived) == ["revision 1 of claim 26-0001 is not the one that was recorded"]


@on_both
def test_a_deleted_claim_is_missed(lived):
    for table in ("serials", "held", "kept_files"):
        tamper(lived, f"DELETE FROM {table} WHERE claim = '26-0003'")
    tamper(lived, "DELETE FROM claims WHERE number = '26-0003'")
    assert book_problems(lived) == ["claim 26-0003 is in the history, and gone from the book"]


@on_both
def test_a_claim_set_back_to_an_older_revision_is_named(lived):
    tamper(lived, "UPDATE claims SET revision = 1 WHERE number = '26-0001'")
    assert "claim 26-0001 is not at the revision its history left it at" in book_problems(lived)


def by_hand(row):
    """The hash of an event as anybody can compute it, from the row alone."""
    fields = {
        "claim": row["claim"], "revision": row["revision"], "at": row["at"], "on": row["on_day"],
        "who": row["who"], "what": row["what"], "why": row["why"], "facts": json.loads(row["facts"]),
        "document": row["document"], "previous": row["previous"], "salt": row["salt"],
    }  # fmt: skip
    canonical = json.dumps(fields, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(canonical.encode("utf-8")).hexdigest()


def rows_of(place, table, order):
    with closing(sqlite3.connect(place)) as connection:
        connection.row_factory = sqlite3.Row
        return connection.execute(f"SELECT * FROM {table} ORDER BY {order}").fetchall()


@pytest.fixture
def on_disk(tmp_path):
    place = str(tmp_path / "book.sqlite")
    book = open_book(place, create=True)
    book.add([an_entry("26-0001", kept("ä b.jpg"), kept("a.jpg")), an_entry("26-0002")], ANA, OPENED)
    with book.change("26-0001", BEN) as change:
        change.save(change.claim, SUMMARY, happened("filed", "wegen „Frist“ \\ \x41", reference="Ñ-7"))
    return place


def test_the_chain_holds_when_it_is_hashed_by_hand(on_disk):
    rows = rows_of(on_disk, "events", "position")
    assert [row["hash"] for row in rows] == [by_hand(row) for row in rows]
    assert [row["previous"] for row in rows] == ["0" * 64, *(row["hash"] for row in rows[:-1])]


def test_the_chain_ends_where_the_book_says(on_disk):
    end = rows_of(on_disk, "chain", "id")[0]
    last = rows_of(on_disk, "events", "position")[-1]
    assert (end["length"], end["hash"]) == (last["position"], last["hash"]) == (3, by_hand(last))


def test_an_event_carries_the_hash_of_the_document_the_digest_and_the_files(on_disk):
    first = rows_of(on_disk, "revisions", "claim, revision")[0]
    files = "\n".join(
        f"{'ab' * 32}  {name}\t1000\t2026-03-01T08:00:00+00:00\t{'f0' * 8}" for name in ("a.jpg", "ä b.jpg")
    )
    expected = hashlib.sha256(f"{first['document']}\n{first['digest']}\n{files}\n{first['salt']}".encode()).hexdigest()
    assert rows_of(on_disk, "events", "position")[0]["document"] == expected


def test_an_event_of_a_claim_without_files_carries_the_hash_of_its_document_and_digest(on_disk):
    last = rows_of(on_disk, "revisions", "claim, revision")[-1]
    expected = hashlib.sha256(f"{last['document']}\n{last['digest']}\n{last['salt']}".encode()).hexdigest()
    assert rows_of(on_disk, "events", "position")[1]["document"] == expected


EARLY = "UPDATE revisions SET files = substr(files, 1, instr(files, char(9)) - 1) WHERE files <> ''"
UNRECORDED = [f"revision {revision} of claim 26-0001 is not the one that was recorded" for revision in (1, 2)]


@pytest.mark.parametrize(
    ("change", "files"),
    [("likeness = 'f1'", []), ("sha256 = 'ff'", ["claim 26-0001 is not as its history left it: files"])],
)
def test_of_files_that_an_early_version_recorded_content_and_path_alone_are_compared(lived, change, files):
    tamper(lived, EARLY)
    tamper(lived, f"UPDATE kept_files SET {change}")
    assert book_problems(lived) == [*UNRECORDED, *files]


SHORTER = "replace(digest, '}', ',\"hold_for\":\"P1D\"}')"


def test_a_hold_made_shorter_behind_the_books_back_is_named(lived):
    tamper(lived, f"UPDATE claims SET digest = {SHORTER} WHERE number = '26-0002'")
    assert book_problems(lived) == ["claim 26-0002 is not as its history left it: digest"]


def test_a_hold_made_shorter_in_the_revision_too_is_named(lived):
    for table, column in (("claims", "number"), ("revisions", "claim")):
        tamper(lived, f"UPDATE {table} SET digest = {SHORTER} WHERE {column} = '26-0003'")
    assert book_problems(lived) == ["revision 1 of claim 26-0003 is not the one that was recorded"]


@on_both
def test_a_book_whose_digests_partly_name_the_maker_is_whole(lived):
    named = SUMMARY.model_copy(update={"maker": "halden", "maker_name": "Halden Tools"})
    lived.add([an_entry("26-0004", summary=named)], ANA, OPENED)
    assert {row.maker for row in lived.claims()} == {"halden", "Halden Tools"}
    assert book_problems(lived) == []


NOTHING = happened("filed", claimed="0.00", currency="USD")


@pytest.mark.parametrize(
    "course",
    [
        (happened("answered", answer="refused"), happened("corrected")),
        (happened("answered", answer="accepted"), happened("corrected")),
        (happened("written off", amount="0.00", why="nothing to get"), happened("reopened", why="again")),
        (happened("withdrawn", why="a mistake"), happened("reopened", why="again"), NOTHING),
    ],
    ids=["refused", "accepted", "written off", "withdrawn"],
)
def test_a_claim_for_nothing_is_whole_all_the_way(book, course):
    book.add([an_entry()], ANA, OPENED)
    for new_event in (NOTHING, *course):
        with book.change("26-0001", BEN) as change:
            change.save(change.claim, change.summary, new_event)
        assert book_problems(book) == []


@pytest.mark.parametrize("course", [("40", "60"), ("40",), ("100",)])
def test_money_paid_taken_back_and_written_off_is_whole_all_the_way(book, course):
    book.add([an_entry()], ANA, OPENED)
    paid = [happened("paid", amount=f"{amount}.00") for amount in course]
    back = happened("charged back", why="their audit", amount="40.00")
    gone = happened("written off", why="no use", amount="40.00")
    for new_event in (happened("filed", claimed="100.00", currency="USD"), *paid, back, gone, happened("reopened")):
        with book.change("26-0001", BEN) as change:
            change.save(change.claim, change.summary, new_event)
        assert book_problems(book) == []


def test_nothing_written_in_two_ways_as_earlier_versions_did_is_whole(book):
    book.add([an_entry()], ANA, OPENED)
    with book.change("26-0001", BEN) as change:
        change.save(change.claim, SUMMARY, NOTHING)
    tamper(book, "UPDATE claims SET claimed = '0.00', paid = '0.00', outstanding = '0.000'")
    assert book_problems(book) == []


@pytest.mark.parametrize(
    "change", ["claimed = '0.01'", "paid = ''", "outstanding = 'much'", "standing = '{}'", "standing = 'x'"]
)
def test_an_amount_that_says_something_else_is_named(lived, change):
    tamper(lived, f"UPDATE claims SET {change} WHERE number = '26-0002'")
    assert any("26-0002" in problem for problem in book_problems(lived))


@pytest.mark.parametrize("change", ["claim = '26-0009'", "started = 'noon'"])
def test_a_clock_that_runs_on_no_claim_or_since_no_time_is_named(lived, change):
    lived.start_clock("Ben", "26-0001", "find-fault", ANA.at)
    assert book_problems(lived) == []
    tamper(lived, f"UPDATE clocks SET {change}")
    assert len(book_problems(lived)) == 1
