from __future__ import annotations

import pytest
from book_builders import ANA, OPENED, an_entry, at

from claimpack.book.worked import claims_worked_on


def labour(technician="Ben", started="2026-03-01T09:00:00+00:00", ended="2026-03-01T10:00:00+00:00"):
    return [{"operation": "clean", "technician": technician, "started": started, "ended": ended}]


def numbers(book, technician="Ben"):
    return [entry.claim.number for entry in claims_worked_on(book, technician, at(9), at(10))]


def with_labour(book, **work):
    book.add([an_entry("26-0001", labour=labour(**work)), an_entry("26-0002")], ANA, OPENED)


def test_claims_with_a_technicians_work_of_the_day_are_found(book):
    with_labour(book)
    assert numbers(book) == ["26-0001"]


def test_a_name_is_found_in_any_case(book):
    with_labour(book)
    assert numbers(book, "BEN") == ["26-0001"]


def test_a_name_that_begins_alike_is_another_one(book):
    with_labour(book, technician="Benedict")
    assert numbers(book) == []


@pytest.mark.parametrize("name", ['Ben "Bolt" O\'Hara', "50%_Ben", "Zoë"])
def test_a_name_may_have_any_letters(book, name):
    with_labour(book, technician=name)
    assert numbers(book, name) == ["26-0001"]


@pytest.mark.parametrize(
    ("day", "found"),
    [("2026-02-27", False), ("2026-02-28", True), ("2026-03-02", True), ("2026-03-03", False)],
)
def test_a_day_more_on_either_side_is_looked_at(book, day, found):
    with_labour(book, started=f"{day}T09:00:00", ended=f"{day}T10:00:00")
    assert bool(numbers(book)) is found
