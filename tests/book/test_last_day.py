from datetime import date

from shop_builders import a_shop, happen, the_desk

from claimpack.book.book import open_book
from claimpack.book.last_day import last_day


def test_the_last_day_is_that_of_the_latest_event(tmp_path):
    shop = a_shop(tmp_path)
    happen(shop, "26-0001", "withdrawn")
    assert last_day(the_desk(shop).book) == date(2026, 3, 1)


def test_an_empty_book_knows_no_day(tmp_path):
    assert last_day(open_book(str(tmp_path / "book.db"), create=True)) is None
