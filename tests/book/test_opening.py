from __future__ import annotations

import pytest
from book_builders import ANA, OPENED, an_entry

from claimpack.book.opening import open_book
from claimpack.book.tables.migrations import pending
from claimpack.errors import BadInput, CannotWrite, NotFound


def test_a_book_that_is_not_there_is_not_made_by_looking(tmp_path):
    with pytest.raises(NotFound) as caught:
        open_book(str(tmp_path / "book.sqlite"))
    assert "claimpack shop init" in caught.value.do
    assert list(tmp_path.iterdir()) == []


def test_a_book_in_a_folder_that_is_not_there_cannot_be_made(tmp_path):
    with pytest.raises(CannotWrite):
        open_book(str(tmp_path / "gone" / "book.sqlite"), create=True)
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_is_no_book_says_so(tmp_path):
    (tmp_path / "book.sqlite").write_text("a letter to the maker, and no database at all\n" * 100)
    with pytest.raises(NotFound) as caught:
        open_book(str(tmp_path / "book.sqlite"))
    assert "not a database" in caught.value.what


def test_an_emptied_book_is_refused_and_not_made_anew(tmp_path):
    place = tmp_path / "book.sqlite"
    place.touch()
    for _ in range(2):
        with pytest.raises(BadInput):
            open_book(str(place))
    open_book(str(place), create=True).engine.dispose()
    assert open_book(str(place)).numbers() == []


def test_an_older_book_is_brought_up_to_date_as_it_is_opened(place):
    older = open_book(place, create=True)
    with older.engine.transaction() as connection:
        connection.execute("DELETE FROM migrations WHERE number = (SELECT max(number) FROM migrations)")
    older.engine.dispose()
    opened = open_book(place)
    assert pending(opened.engine) == ()
    opened.engine.dispose()


def test_a_book_opened_again_holds_what_it_held(place):
    first = open_book(place, create=True)
    first.add([an_entry("26-0001")], ANA, OPENED)
    first.engine.dispose()
    again = open_book(place)
    assert again.numbers() == ["26-0001"]
    again.engine.dispose()
