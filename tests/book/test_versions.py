from __future__ import annotations

from decimal import Decimal

import pytest
from book_builders import ANA, OPENED, an_entry
from sqlalchemy import text

from claimpack.book.versions import versions
from claimpack.core.events import Happening


@pytest.fixture
def changed(book):
    """A book in which a claim was changed twice, and another one once."""
    book.add([an_entry("26-0001"), an_entry("26-0002")], ANA, OPENED)
    for number, hours in (("26-0001", "101"), ("26-0002", "7"), ("26-0001", "102")):
        with book.change(number, ANA) as change:
            entry = an_entry(number, unit__hours=hours)
            change.save(entry.claim, entry.digest, Happening(what="edited", on=ANA.at.date()))
    return book


def hours(book, first, last):
    return [(revision, claim and claim.unit.hours) for revision, claim in versions(book, "26-0001", first, last)]


def test_a_claim_is_read_at_every_revision_in_order(changed):
    assert hours(changed, 0, 9) == [(1, Decimal(100)), (2, Decimal(101)), (3, Decimal(102))]


def test_only_the_revisions_wanted_are_read(changed):
    assert [revision for revision, _ in hours(changed, 2, 3)] == [2, 3]


def test_a_revision_that_is_no_claim_any_more_is_none(changed):
    with changed.engine.begin() as connection:
        connection.execute(text("UPDATE revisions SET document = '{}' WHERE claim = '26-0001' AND revision = 2"))
    assert hours(changed, 1, 3) == [(1, Decimal(100)), (2, None), (3, Decimal(102))]
