from datetime import date

import pytest

from claimpack.core.claims.numbering import next_number

DAY = date(2026, 3, 1)


@pytest.mark.parametrize(
    ("taken", "number"),
    [
        ([], "26-0001"),
        (["26-0001", "26-0002"], "26-0003"),
        (["26-0041", "26-0002"], "26-0042"),
        (["25-0310"], "26-0001"),
        (["26-9999"], "26-10000"),
        (["26-9999", "26-10000"], "26-10001"),
        (["26-000123"], "26-0124"),
        (["26-0001", "26-X", "26-0007A", "26-1", "W-26-0050"], "26-0002"),
    ],
    ids=["none", "in a row", "a gap", "another year", "the last of four", "five digits", "zeros", "other forms"],
)
def test_numbers_count_on_from_the_highest_of_the_year(taken, number):
    assert next_number(DAY, taken) == number


def test_a_new_year_begins_anew():
    assert next_number(date(2027, 1, 1), ["26-0099"]) == "27-0001"
