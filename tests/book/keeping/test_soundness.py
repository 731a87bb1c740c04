from __future__ import annotations

import sqlite3
from contextlib import closing
from functools import partial

import pytest
from book_builders import ANA, BEN, EDITED, OPENED, an_entry, kept

from claimpack.book.keeping.proof import book_problems
from claimpack.book.keeping.soundness import damage, unlike_ours
from claimpack.book.opening import open_book
from claimpack.book.tables.schema import EVENTS


def unlike(book):
    with book.engine.transaction() as connection:
        return list(unlike_ours(connection))


def run(book, *statements):
    with book.engine.transaction() as connection:
        for statement in statements:
            connection.execute(statement)


def test_a_book_as_it_is_made_is_the_books_own(book):
    assert unlike(book) == []


def test_an_index_that_is_gone_is_named_and_found_again_once_it_is_back(book):
    run(book, "DROP INDEX claims_by_filed")
    gone = unlike(book)
    run(book, "CREATE INDEX claims_by_filed ON claims (filed)")
    assert (len(gone), unlike(book)) == (1, [])
    assert "claims_by_filed" in gone[0]


def test_an_index_over_other_columns_is_named(book):
    run(book, "DROP INDEX claims_by_filed", "CREATE INDEX claims_by_filed ON claims (model)")
    found = unlike(book)
    run(book, "DROP INDEX claims_by_filed", "CREATE INDEX claims_by_filed ON claims (filed)")
    assert len(found) == 1


def test_an_index_over_another_fact_is_named(book):
    with book.engine.transaction() as connection:
        made = {fact: INDEXES[fact](on_server=connection.on_server) for fact in ("again", "memo")}
    run(book, "DROP INDEX events_by_memo", made["again"].replace("events_by_again", "events_by_memo"))
    found = unlike(book)
    run(book, "DROP INDEX events_by_memo", made["memo"])
    assert (len(found), unlike(book)) == (1, [])


INDEXES = {index.fact: partial(EVENTS.made_index, index) for index in EVENTS.indexes}


@pytest.mark.parametrize(
    ("made", "named"),
    [
        ("CREATE TRIGGER spy AFTER UPDATE ON claims BEGIN UPDATE chain SET length = 0; END", "trigger spy"),
        ("CREATE VIEW spied AS SELECT * FROM claims", "view spied"),
        ("CREATE TABLE more (x)", "table more"),
        ("CREATE INDEX more ON claims (words)", "index more"),
        ("ALTER TABLE claims ADD COLUMN more TEXT", "table claims"),
        ("UPDATE migrations SET name = 'x' WHERE number = 1", "steps"),
        ("DELETE FROM migrations WHERE number = 1", "steps"),
    ],
)
def test_what_another_program_made_in_the_file_is_named(tmp_path, made, named):
    book = open_book(str(tmp_path / "book.sqlite"), create=True)
    run(book, made)
    found = unlike(book)
    assert (len(found), named in found[0]) == (1, True)


@pytest.mark.parametrize(
    ("made", "undone"),
    [
        ("CREATE RULE spy AS ON DELETE TO clocks DO INSTEAD NOTHING", "DROP RULE spy ON clocks"),
        ("ALTER TABLE claims ENABLE ROW LEVEL SECURITY", "ALTER TABLE claims DISABLE ROW LEVEL SECURITY"),
        ("CREATE TABLE heir () INHERITS (clocks)", "DROP TABLE heir; VACUUM ANALYZE clocks"),
    ],
)
def test_what_acts_on_the_books_tables_on_a_server_is_named(server, book_on_server, made, undone):
    server.run("emptied", made)
    found = unlike(book_on_server)
    server.run("emptied", *undone.split("; "))
    assert (len(found), unlike(book_on_server)) == (1, [])


@pytest.fixture
def on_disk(tmp_path):
    place = tmp_path / "book.sqlite"
    book = open_book(str(place), create=True)
    book.add([an_entry(f"26-{number:04}", kept("a.jpg")) for number in range(40)], ANA, OPENED)
    with book.change("26-0001", BEN) as change:
        change.save(change.claim, change.entry.summary, EDITED)
    book.engine.dispose()
    return place


@pytest.mark.parametrize("place", [":memory:", "postgresql://nobody@127.0.0.1:1/none"], ids=["memory", "server"])
def test_a_book_in_no_file_is_not_looked_through_beforehand(place):
    assert damage(place) == []


def test_a_file_that_was_only_used_is_sound(on_disk):
    assert damage(str(on_disk)) == []


def page_of(place, name):
    with closing(sqlite3.connect(place)) as connection:
        size = connection.execute("PRAGMA page_size").fetchone()[0]
        root = connection.execute("SELECT rootpage FROM sqlite_master WHERE name = ?", (name,)).fetchone()[0]
    return (root - 1) * size


@pytest.mark.parametrize("name", ["claims_by_filed", "events", "revisions", "sqlite_autoindex_claims_1"])
def test_a_damaged_page_is_found_before_anything_is_read(on_disk, name):
    content = bytearray(on_disk.read_bytes())
    content[page_of(on_disk, name) + 3] ^= 0xFF
    on_disk.write_bytes(content)
    assert damage(str(on_disk))


@pytest.mark.parametrize("content", [b"", b"no book at all" * 500, b"SQLite format 3\x00" + b"\x7f" * 8000])
def test_what_is_no_database_is_damage(on_disk, content):
    on_disk.write_bytes(content)
    assert damage(str(on_disk)) or book_problems(open_book(str(on_disk)))
