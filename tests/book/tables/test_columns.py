import datetime as dt
from decimal import Decimal
from typing import NamedTuple

import pytest

from claimpack.book.tables.columns import kinds_of, readers, writers


class Row(NamedTuple):
    name: str
    count: int
    day: dt.date | None
    amount: Decimal
    later_amount: Decimal
    later_answer: bool
    later_text: str


ALWAYS = frozenset({"name", "count", "amount"})
FULL = Row("saw", 3, dt.date(2026, 3, 1), Decimal("1.50"), Decimal(2), later_answer=True, later_text="x")
EMPTY = Row("", 0, None, Decimal(0), Decimal(0), later_answer=False, later_text="")


def kept(row):
    columns = list(row)
    for place, convert in writers(Row, ALWAYS):
        columns[place] = convert(columns[place])
    return columns


def read(columns):
    found = list(columns)
    for place, convert in readers(Row, ALWAYS):
        found[place] = convert(found[place])
    return Row(*found)


def test_every_value_is_kept_by_its_kind():
    assert kept(FULL) == ["saw", 3, "2026-03-01", "1.50", "2", "yes", "x"]


def test_a_column_that_came_later_is_empty_where_it_has_nothing_to_say():
    assert kept(EMPTY) == ["", 0, None, "0", None, None, None]


@pytest.mark.parametrize("row", [FULL, EMPTY])
def test_what_is_kept_comes_back(row):
    assert read(kept(row)) == row


def test_the_kinds_stand_in_the_order_of_the_fields():
    assert list(kinds_of(Row)) == list(Row._fields)
