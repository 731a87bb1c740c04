from __future__ import annotations

import pytest
from book_builders import ANA, OPENED, an_entry

from claimpack.book.database.engines import reading
from claimpack.book.database.sql import Sql, all_of, any_of, begins, condition, ends, has, one_of, select

A, B = condition("a = ?", 1), condition("b = ? OR c = ?", 2, 3)


def test_conditions_keep_their_values_in_the_order_of_their_marks():
    found = select(["x", "y"], "t").where(A, any_of([B, A])).then("ORDER BY x LIMIT ?", 5)
    assert found.text == "SELECT x, y FROM t WHERE (a = ?) AND ((b = ? OR c = ?) OR (a = ?)) ORDER BY x LIMIT ?"
    assert found.values == (1, 2, 3, 1, 5)


def test_a_statement_without_conditions_is_about_every_row():
    assert Sql("SELECT 1").where() == Sql("SELECT 1")


def test_no_value_is_one_of_none():
    assert one_of("a", ()) == Sql("1 = 0")


def test_conditions_in_conditions_keep_together():
    assert all_of([B, A]).text == "(b = ? OR c = ?) AND (a = ?)"


@pytest.mark.parametrize("piece", ["100%", "a_b", "a/b", "?", "%s", "'; DROP TABLE claims; --"])
def test_a_piece_is_found_as_it_is_written_and_in_no_other_way(book, piece):
    book.add([an_entry("26-0001", owner__name=f"x{piece}y"), an_entry("26-0002", owner__name="xaXby 100")], ANA, OPENED)
    asked = (has("owner", piece), begins("owner", f"x{piece}"), ends("owner", f"{piece}y"))
    with reading(book.engine) as connection:
        found = [connection.column(Sql("SELECT number FROM claims").where(each)) for each in asked]
    assert found == [["26-0001"]] * 3


def test_a_piece_is_found_in_any_case_where_so_asked(book):
    book.add([an_entry("26-0001", owner__name="Ana B")], ANA, OPENED)
    with reading(book.engine) as connection:
        found = connection.value(Sql("SELECT number FROM claims").where(has("owner", "aNA b", in_any_case=True)))
    assert found == "26-0001"
