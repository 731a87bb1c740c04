"""Claims found by an index of letters are those that reading every claim finds."""

from __future__ import annotations

import random

import pytest
from book_builders import ANA, DAY, EDITED, OPENED, SUMMARY, an_entry, many_entries, rename

from claimpack.book.book import Book
from claimpack.book.database.engines import reading
from claimpack.book.keeping.forgetting import Wish, forget, wipe
from claimpack.book.keeping.moving import everything, restore
from claimpack.book.keeping.proof import book_problems
from claimpack.book.keeping.soundness import unlike_ours
from claimpack.book.opening import open_book
from claimpack.book.tables.entries import Wanted
from claimpack.book.tables.finder import MADE, may_say, seen_by
from claimpack.book.tables.migrations import migrate
from claimpack.book.tables.writing import end_chain

MANY, LIVED = 60, (OPENED, *[EDITED] * 8)
"""Claims, and what happened to each: together more than is looked at one by one."""


@pytest.fixture
def busy(place):
    """A book of many claims, of which one was added and one renamed since the index was brought up."""
    book = open_book(place, create=True)
    book.add(many_entries(MANY), ANA, *LIVED)
    book.add([an_entry("27-0001", owner__name='O\'Hara "Zoë" 50%_ 花火大会')], ANA, OPENED)
    rename(book, "15-000001", "Zacharias Quirk")
    yield book
    book.engine.dispose()


def numbers(book, text, limit=None):
    return [row.number for row in book.claims(Wanted(text=text, limit=limit))]


def texts(book):
    """Pieces of what claims say, some put together, some turned round, and what nobody says."""
    chance = random.Random(7)
    with reading(book.engine) as connection:
        said = connection.column("SELECT words FROM claims ORDER BY number")
    for words in chance.sample(said, 40):
        first, second = sorted(chance.sample(range(len(words)), 2))
        yield words[first : min(second, first + chance.choice((3, 5, 9, 20)))]
        yield " ".join(chance.sample(words.split(), 2))
        yield words[first : first + 7][::-1]
    yield from ("hc70000012", "HC70-0000_12", "5550142", "gyroscope", "zo", "%_", "quirk", "Owner 1", "花火大会", '"')


def without_index(book):
    with book.engine.transaction() as connection:
        connection.execute("DROP INDEX claims_by_words" if connection.on_server else "DROP TABLE finder")


def test_whatever_is_looked_for_is_found_as_it_is_without_the_index(busy):
    wanted = list(texts(busy))
    found = [(numbers(busy, text), numbers(busy, text, limit=2), busy.count(Wanted(text=text))) for text in wanted]
    without_index(busy)
    assert found == [
        (numbers(busy, text), numbers(busy, text, limit=2), busy.count(Wanted(text=text))) for text in wanted
    ]
    assert {len(of_all) for of_all, *_ in found} > {0, 1, MANY}


def test_the_index_is_asked_for_three_letters_and_not_for_two(busy):
    with reading(busy.engine) as connection:
        assert [bool(may_say(connection, [piece])) for piece in ("quirk", "qui", "qu")] == [True, True, False]


def test_a_claim_renamed_is_found_by_its_new_name_alone_once_the_index_is_brought_up(busy):
    with busy.change_all([f"15-{index:06}" for index in range(MANY)], ANA) as changes:
        for change in changes:
            change.save(change.claim, SUMMARY, *[EDITED] * 9)
    busy.add([an_entry("27-0002")], ANA, OPENED)
    assert (numbers(busy, "quirk"), "15-000001" in numbers(busy, "owner 1")) == (["15-000001"], False)
    assert book_problems(busy) == []


@pytest.mark.parametrize(("claims", "is_asked"), [(2000, True), (2001, False)])
def test_of_a_text_that_too_many_claims_say_the_index_is_not_asked(tmp_path, claims, is_asked):
    book = open_book(str(tmp_path / "book.sqlite"), create=True)
    run(book, MADE)
    with book.engine.transaction() as connection:
        connection.driver.executemany(
            "INSERT INTO finder (rowid, said) VALUES (?, 'gyroscope')", ((place,) for place in range(1, claims + 1))
        )
    with reading(book.engine) as connection:
        assert bool(may_say(connection, ["gyroscope"])) is is_asked


@pytest.mark.parametrize(("events", "seen"), [(500, 0), (501, 501)])
def test_the_index_is_brought_up_once_it_is_more_than_500_events_behind(tmp_path, events, seen):
    book = open_book(str(tmp_path / "book.sqlite"), create=True)
    book.add([an_entry("26-0001")], ANA, OPENED, *[EDITED] * (events - 1))
    rename(book, "26-0001", "Vera Quirk")
    with reading(book.engine) as connection:
        assert seen_by(connection) == seen


@pytest.mark.parametrize(("behind", "is_asked"), [(2000, True), (2001, False)])
def test_an_index_that_is_far_behind_is_not_asked(tmp_path, behind, is_asked):
    book = open_book(str(tmp_path / "book.sqlite"), create=True)
    told = "INSERT INTO finder (rowid, said) VALUES (7, 'gyroscope')"
    run(book, MADE, told)
    with book.engine.transaction() as connection:
        end_chain(connection, 7 + behind, "")
    with reading(book.engine) as connection:
        assert bool(may_say(connection, ["gyroscope"])) is is_asked


def test_an_index_that_was_brought_up_is_not_written_by_every_change(tmp_path):
    book = open_book(str(tmp_path / "book.sqlite"), create=True)
    book.add([an_entry("26-0001")], ANA, OPENED, *[EDITED] * 500)
    for name in ("Vera Quirk", "Vera North", "Vera South"):
        rename(book, "26-0001", name)
    with reading(book.engine) as connection:
        assert seen_by(connection) == 501


def test_few_events_are_not_taken_in_one_by_one(tmp_path):
    book = open_book(str(tmp_path / "book.sqlite"), create=True)
    book.add([an_entry("26-0001")], ANA, OPENED)
    rename(book, "26-0001", "Zacharias Quirk")
    with reading(book.engine) as connection:
        assert seen_by(connection) == 0
    assert numbers(book, "quirk") == ["26-0001"]


def test_a_book_restored_is_found_in_by_its_index(busy, tmp_path):
    copy = open_book(str(tmp_path / "copy.sqlite"), create=True)
    with everything(busy) as read:
        restore(copy, read)
    with reading(copy.engine) as connection:
        assert seen_by(connection) == copy.event_count()
    assert (numbers(copy, "quirk"), book_problems(copy)) == (["15-000001"], [])


def test_an_older_book_is_found_in_by_its_index(busy):
    without_index(busy)
    with busy.engine.transaction() as connection:
        connection.execute("DELETE FROM migrations WHERE number > 19")
    migrate(busy.engine)
    with reading(busy.engine) as connection:
        assert may_say(connection, ["quirk"])
    assert (numbers(busy, "quirk"), book_problems(busy)) == (["15-000001"], [])


@pytest.fixture
def in_file(tmp_path):
    """A book in a file whose index knows every claim but one."""
    book = open_book(str(tmp_path / "book.sqlite"), create=True)
    book.add(many_entries(MANY), ANA, *LIVED)
    book.add([an_entry("27-0001", owner__name="Zacharias Quirk")], ANA, OPENED)
    return book


def run(book, *statements):
    with book.engine.transaction() as connection:
        for statement in statements:
            connection.execute(statement)
    # a connection of before would know the index as it was
    book.engine.dispose()


NO_MODULE = ("PRAGMA writable_schema = ON", "UPDATE sqlite_master SET sql = replace(sql, 'fts5', 'fts0')")


def test_a_machine_without_the_module_finds_the_same_and_changes_the_book(in_file):
    run(in_file, *NO_MODULE)
    found = numbers(in_file, "owner 1")
    rename(in_file, "15-000001", "Vera Quirk")
    assert len(found) > 1
    assert numbers(in_file, "quirk") == ["27-0001", "15-000001"]


def letters(book):
    """Every three letters that the index of a book in a file has."""
    with book.engine.transaction() as connection:
        connection.execute("CREATE VIRTUAL TABLE temp.terms USING fts5vocab(main, finder, row)")
        found = set(connection.column("SELECT term FROM temp.terms"))
        connection.execute("DROP TABLE temp.terms")
    return found


def forget_owner(book, number):
    wish = Wish(number, True, frozenset(), "the owner's data", "asked for", DAY)
    forget(book, wish, ANA, lambda *_: SUMMARY, lambda _: None)
    return wipe(book.engine)


def test_what_was_erased_is_in_no_letters_of_the_file(in_file, tmp_path):
    with in_file.change("15-000001", ANA) as change:
        change.save(change.claim, SUMMARY, *[EDITED] * 600)
    rename(in_file, "15-000001", "Vera North")
    before = letters(in_file)
    assert forget_owner(in_file, "27-0001")
    assert before - letters(in_file) >= {"zac", "ach", "qui", "irk"}
    assert b"zacharias" not in (tmp_path / "book.sqlite").read_bytes().lower()
    assert book_problems(in_file) == []


def test_what_is_erased_without_the_module_leaves_no_letters(in_file):
    run(in_file, *NO_MODULE)
    assert forget_owner(in_file, "15-000001")
    with reading(in_file.engine) as connection:
        left = [connection.value(f"SELECT count(*) FROM finder_{name}") for name in ("content", "idx", "data")]  # noqa: S608
    assert left == [0, 0, 2]


def test_a_machine_with_the_module_makes_the_index_again_that_one_without_emptied(in_file):
    run(in_file, *NO_MODULE)
    assert forget_owner(in_file, "15-000001")
    run(in_file, NO_MODULE[0], "UPDATE sqlite_master SET sql = replace(sql, 'fts0', 'fts5')")
    assert (numbers(in_file, "quirk"), book_problems(in_file)) == (["27-0001"], [])
    rename(in_file, "15-000002", "Vera Quirk")
    with reading(in_file.engine) as connection:
        assert may_say(connection, ["quirk"])
    assert (numbers(in_file, "quirk"), book_problems(in_file)) == (["27-0001", "15-000002"], [])


@pytest.mark.parametrize(
    "done",
    [
        "UPDATE finder_content SET c0 = 'x' WHERE id = 18",
        "DELETE FROM finder_content WHERE id = 18",
        "DELETE FROM finder WHERE rowid = 18",
        "UPDATE finder_data SET block = zeroblob(length(block)) WHERE id > 10",
    ],
)
def test_an_index_that_does_not_have_what_claims_say_is_named(in_file, done):
    assert book_problems(in_file) == []
    run(in_file, done)
    found = book_problems(in_file)
    assert (len(found), "claims are found" in found[0]) == (1, True)


def test_in_a_book_whose_index_is_damaged_claims_are_found_and_changed(in_file):
    run(in_file, "DELETE FROM finder_data")
    rename(in_file, "15-000001", "Vera Quirk")
    assert numbers(in_file, "quirk") == ["27-0001", "15-000001"]


def test_a_part_of_the_index_that_is_gone_is_named(in_file):
    with in_file.engine.transaction() as connection:
        connection.execute("DROP TABLE finder_config")
        assert list(unlike_ours(connection)) == ["table finder_config is gone from the book"]


def test_who_may_not_have_the_index_on_a_server_finds_without_it(server):
    server.run("postgres", "DROP DATABASE IF EXISTS plain", "CREATE DATABASE plain", "CREATE ROLE pia LOGIN")
    server.run("plain", "GRANT ALL ON SCHEMA public TO pia", "REVOKE CREATE ON DATABASE plain FROM PUBLIC")
    book = Book(server.url("plain").replace("postgres@", "pia@"), "", all_shops=False)
    migrate(book.engine)
    book.add([an_entry("27-0001", owner__name="Zacharias Quirk")], ANA, OPENED)
    with reading(book.engine) as connection:
        assert may_say(connection, ["quirk"]) == []
    assert (numbers(book, "quirk"), book_problems(book)) == (["27-0001"], [])
    book.engine.dispose()
