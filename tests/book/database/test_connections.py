from __future__ import annotations

import pytest
from book_builders import ANA, OPENED, an_entry

from claimpack.book.database.connections import Engine, database_errors, file_driver
from claimpack.book.database.engines import reading
from claimpack.book.database.sql import select
from claimpack.book.tables import schema

EVERY = select(schema.CLAIMS.names, "claims").then("ORDER BY number")


def test_rows_are_read_by_name_by_place_and_in_order(book):
    book.add([an_entry("26-0001")], ANA, OPENED)
    with reading(book.engine) as connection:
        row = connection.one(EVERY)
    assert (row["number"], row[0], next(iter(row)), list(row.keys())) == ("26-0001",) * 3 + (schema.CLAIMS.names,)


def test_rows_read_one_by_one_are_those_read_together(book):
    book.add([an_entry(f"26-{index:04}") for index in range(1200)], ANA, OPENED)
    with reading(book.engine) as connection:
        each = [row["number"] for row in connection.each(EVERY)]
        assert each == connection.column(EVERY)


def test_an_answer_without_a_row_is_none_or_a_fault(book):
    with reading(book.engine) as connection:
        assert (connection.first(EVERY), connection.value(EVERY)) == (None, None)
        with pytest.raises(LookupError):
            connection.one(EVERY)


def write_and_fail(engine):
    with engine.transaction() as connection:
        connection.execute("UPDATE chain SET length = 7")
        connection.execute("SELECT * FROM nowhere")


def test_what_was_begun_and_failed_is_undone(book):
    with pytest.raises(database_errors()):
        write_and_fail(book.engine)
    assert book.chain_end()[0] == 0


def test_the_columns_of_a_table_tell_which_may_be_empty(book):
    with reading(book.engine) as connection:
        assert connection.columns_of("events") == {each.name: each.may_be_empty for each in schema.EVENTS.columns}
        assert connection.columns_of("nowhere") == {}


def test_a_connection_is_used_again_as_long_as_its_server_answers(book_on_server):
    served_by = set()
    for _ in range(2):
        with reading(book_on_server.engine) as connection:
            served_by.add(connection.value("SELECT pg_backend_pid()"))
    assert len(served_by) == 1


def test_a_connection_that_the_server_cut_off_is_replaced(server):
    from claimpack.book.opening import open_book

    book = open_book(server.url("emptied"))
    with reading(book.engine) as connection:
        mine = connection.value("SELECT pg_backend_pid()")
    server.run("postgres", f"SELECT pg_terminate_backend({mine})")
    assert isinstance(book.count(), int)
    book.engine.dispose()


def an_engine(tmp_path, **how):
    return Engine("x", lambda: file_driver(str(tmp_path / "x.sqlite"), 0), **how)


@pytest.mark.parametrize("is_well", [True, False])
def test_a_connection_that_was_given_back_is_taken_again_as_long_as_it_is_well(tmp_path, is_well):
    engine = an_engine(tmp_path, is_well=lambda _: is_well)
    first = engine.driver()
    engine.take_back(first)
    assert (engine.driver() is first) == is_well


@pytest.mark.parametrize("alone", [True, False])
def test_two_at_once_have_a_connection_each_unless_it_holds_what_lies_nowhere_else(tmp_path, alone):
    engine = an_engine(tmp_path, alone=alone)
    with engine.transaction() as one, engine.transaction() as other:
        assert (one.driver is other.driver) == alone


def test_a_transaction_inside_another_ends_with_the_outer_one(tmp_path):
    engine = an_engine(tmp_path, alone=True)
    with engine.transaction() as outer:
        outer.execute("CREATE TABLE walls (name TEXT)")
        with engine.transaction() as inner:
            inner.execute("INSERT INTO walls VALUES ('north')")
        assert outer.driver.in_transaction
    with engine.transaction() as connection:
        assert connection.column("SELECT name FROM walls") == ["north"]


def test_a_connection_given_back_twice_is_kept_once(tmp_path):
    engine = an_engine(tmp_path)
    first = engine.driver()
    engine.take_back(first)
    engine.take_back(first)
    assert (engine.driver() is first, engine.driver() is first) == (True, False)
