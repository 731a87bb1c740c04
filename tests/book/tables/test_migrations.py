from __future__ import annotations

from decimal import Decimal

import pytest
from book_builders import ANA, OPENED, SUMMARY, an_entry, happened

from claimpack.book.book import Book
from claimpack.book.database.connections import database_errors
from claimpack.book.keeping.soundness import unlike_ours
from claimpack.book.opening import open_book
from claimpack.book.tables import schema
from claimpack.book.tables.entries import Wanted
from claimpack.book.tables.migrations import MIGRATIONS, Migration, applied, migrate, pending
from claimpack.core.events.fold import stand
from claimpack.errors import WrongState


@pytest.fixture
def bare(place):
    """A database without a table."""
    book = Book(place, "", all_shops=False)
    yield book.engine
    book.engine.dispose()


def tables(engine):
    with engine.transaction() as connection:
        return {name for name in schema.TABLES if connection.columns_of(name)}


def add_column(connection):
    connection.execute("ALTER TABLE claims ADD COLUMN colour TEXT")


def add_column_and_fail(connection):
    add_column(connection)
    connection.execute("SELECT * FROM nowhere")


COLOUR = Migration("a colour for claims", add_column)
WORSE = Migration("a step that fails", add_column_and_fail)


def has_colour(engine):
    with engine.transaction() as connection:
        return "colour" in connection.columns_of("claims")


def test_a_new_book_has_every_step_pending(bare):
    assert pending(bare) == MIGRATIONS
    assert applied(bare) == 0


def test_asking_what_is_pending_changes_nothing(bare):
    pending(bare)
    assert tables(bare) == set()


def test_a_migrated_book_has_nothing_pending(bare):
    migrate(bare)
    assert (pending(bare), applied(bare)) == ((), len(MIGRATIONS))


def test_migrating_again_changes_nothing(bare):
    migrate(bare)
    migrate(bare)
    assert applied(bare) == len(MIGRATIONS)


def test_steps_are_recorded_by_name_in_order(bare):
    migrate(bare, (*MIGRATIONS, COLOUR))
    with bare.transaction() as connection:
        names = list(connection.column("SELECT name FROM migrations ORDER BY number"))
    assert names == [*(step.name for step in MIGRATIONS), "a colour for claims"]


def test_an_older_book_is_brought_up_to_date_and_keeps_its_claims(place):
    book = open_book(place, create=True)
    book.add([an_entry("26-0001")], ANA, OPENED)
    migrate(book.engine, (*MIGRATIONS, COLOUR))
    assert has_colour(book.engine)
    assert book.get("26-0001").claim == an_entry("26-0001").claim
    book.engine.dispose()


def test_a_step_that_fails_leaves_neither_change_nor_record(bare):
    migrate(bare)
    with pytest.raises(database_errors()):
        migrate(bare, (*MIGRATIONS, WORSE))
    assert not has_colour(bare)
    assert pending(bare, (*MIGRATIONS, WORSE)) == (WORSE,)


def test_steps_before_one_that_fails_are_kept(bare):
    with pytest.raises(database_errors()):
        migrate(bare, (*MIGRATIONS, COLOUR, WORSE))
    assert applied(bare) == len(MIGRATIONS) + 1


def test_a_book_newer_than_the_program_is_refused(place):
    book = open_book(place, create=True)
    migrate(book.engine, (*MIGRATIONS, COLOUR))
    book.engine.dispose()
    with pytest.raises(WrongState) as caught:
        open_book(place)
    assert "newer than this program" in caught.value.what


@pytest.fixture
def third(place):
    """A book of the third step: one claim accepted in part; its standing and serial numbers as they were kept then."""
    book = open_book(place, create=True)
    book.add([an_entry("26-0001"), an_entry("26-0002")], ANA, OPENED)
    filed = happened("filed", claimed="159.70", currency="USD")
    answered = happened("answered", answer="part", amount="100.00")
    with book.change("26-0002", ANA) as change:
        change.save(change.claim, SUMMARY, filed, answered)
    with book.engine.transaction() as connection:
        for statement in BACK_TO_THE_THIRD:
            connection.execute(statement)
    yield book
    book.engine.dispose()


BACK_TO_THE_THIRD = (
    "DROP INDEX claims_by_refused_rest",
    *(
        f"ALTER TABLE claims DROP COLUMN {name}"
        for name in ("refused_rest", "heard", "owed_again", "charged_back_on", "charged_from")
    ),
    "ALTER TABLE revisions DROP COLUMN digest",
    "UPDATE serials SET serial = 'hc70 1' WHERE role = 'unit'",
    "UPDATE claims SET standing = '{}' WHERE number = '26-0002'",
    "DELETE FROM migrations WHERE number > 3",
)


def test_an_older_book_learns_what_was_refused_of_its_claims(third):
    migrate(third.engine)
    found = [(row.number, row.refused_rest) for row in third.claims(Wanted(refused_rest=True))]
    assert found == [("26-0002", Decimal("59.70"))]


def test_serial_numbers_of_an_older_book_are_found_without_their_hyphens(third):
    migrate(third.engine)
    assert len(third.with_serials(["HC701"])) == 2


def test_standings_of_an_older_book_follow_from_its_history(third):
    migrate(third.engine)
    assert third.get("26-0002").standing == third_standing()


def test_a_book_of_the_fourth_step_is_brought_up_to_date_as_well(third):
    with third.engine.transaction() as connection:
        connection.execute("ALTER TABLE claims ADD COLUMN refused_rest TEXT")
        connection.execute("INSERT INTO migrations VALUES (4, 'what was refused of a claim accepted in part')")
    migrate(third.engine)
    third.add([an_entry("26-0003")], ANA, OPENED)
    assert (third.get("26-0003").revision, third.get("26-0002").standing) == (1, third_standing())


def test_a_book_that_does_not_know_when_the_maker_was_heard_of_learns_it(third):
    migrate(third.engine)
    with third.engine.transaction() as connection:
        connection.execute("ALTER TABLE claims DROP COLUMN heard")
        connection.execute("DELETE FROM migrations WHERE number > 5")
    migrate(third.engine)
    heard = {row.number: row.heard for row in third.claims()}
    assert heard == {"26-0001": None, "26-0002": third_standing().heard}


def third_standing():
    told = (OPENED, happened("filed", claimed="159.70", currency="USD"))
    return stand([*told, happened("answered", answer="part", amount="100.00")])


def test_a_claim_nobody_can_read_does_not_stop_the_others(third):
    with third.engine.transaction() as connection:
        connection.execute("UPDATE revisions SET document = '{' WHERE claim = '26-0001'")
    migrate(third.engine)
    assert [row.number for row in third.claims(Wanted(refused_rest=True))] == ["26-0002"]


def test_a_book_of_the_first_step_learns_when_approvals_expire(bare):
    migrate(bare, MIGRATIONS[:1])
    with bare.transaction() as connection:
        connection.execute("DROP INDEX claims_by_approval_until")
        connection.execute("ALTER TABLE claims DROP COLUMN approval_until")
    migrate(bare)
    with bare.transaction() as connection:
        assert list(unlike_ours(connection)) == []


def test_an_older_book_finds_events_by_the_facts_that_are_asked_for(place):
    book = open_book(place, create=True)
    book.add([an_entry("26-0001")], ANA, happened("opened", memo="M-1"))
    with book.engine.transaction() as connection:
        for fact in schema.ASKED_FOR:
            connection.execute(f"DROP INDEX events_by_{fact}")
        connection.execute("DELETE FROM migrations WHERE number > 18")
    migrate(book.engine)
    with book.engine.transaction() as connection:
        assert list(unlike_ours(connection)) == []
    assert len(book.told("memo", "M-1")) == 1
    book.engine.dispose()
