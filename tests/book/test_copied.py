from __future__ import annotations

import os
import shutil
import sqlite3
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import NamedTuple

import pytest
from book_builders import ANA, OPENED, an_entry

from claimpack.book.copied import engine_on_copy
from claimpack.book.opening import open_book
from claimpack.errors import CannotWrite, NotFound


class Usage(NamedTuple):
    """How much of a disk is used, as the system tells it."""

    total: int
    used: int
    free: int


def no_room(place, monkeypatch):
    """Let the disk be full; a link that leads round in a circle stands for what SQLite cannot make beside the book."""
    place.with_name("book.sqlite-shm").symlink_to("book.sqlite-shm")
    monkeypatch.setattr(shutil, "disk_usage", lambda _folder: Usage(10**9, 10**9, 0))


@pytest.fixture
def place(tmp_path):
    """A book with a claim, left whole in its file."""
    book = open_book(str(tmp_path / "book.sqlite"), create=True)
    book.add([an_entry("26-0001")], ANA, OPENED)
    book.engine.dispose()
    return tmp_path / "book.sqlite"


@pytest.fixture
def read_only(place, monkeypatch):
    """The same book in a folder that may not be written, as the system says."""
    monkeypatch.setattr(os, "access", lambda _path, mode: not mode & os.W_OK)
    return place


def test_a_book_that_may_be_written_is_not_copied(place):
    assert engine_on_copy(str(place)) is None


def test_a_book_that_may_not_be_written_is_read(read_only):
    assert open_book(str(read_only)).get("26-0001").revision == 1


def test_nothing_is_written_beside_a_book_that_is_only_read(read_only):
    open_book(str(read_only)).numbers()
    assert [path.name for path in read_only.parent.iterdir()] == ["book.sqlite"]


def test_a_change_is_refused_and_says_what_hinders_it(read_only):
    with pytest.raises(CannotWrite) as refused:
        open_book(str(read_only)).add([an_entry("26-0002")], ANA, OPENED)
    assert refused.value.what == "the book cannot be written: its folder or file is read-only"


def test_the_copy_itself_takes_no_writing(read_only):
    with (
        pytest.raises(sqlite3.OperationalError, match="readonly"),
        engine_on_copy(str(read_only)).transaction() as connection,
    ):
        connection.execute("DELETE FROM claims")


def test_two_readers_of_a_copy_do_not_stand_in_each_others_way(read_only):
    book = open_book(str(read_only))
    assert [book.get(entry.claim.number).revision for entry in book.entries()] == [1]


@pytest.mark.parametrize("written", [True, False])
def test_a_connection_that_one_thread_made_serves_another(place, monkeypatch, written):
    if not written:
        monkeypatch.setattr(os, "access", lambda _path, mode: not mode & os.W_OK)
    book = open_book(str(place))
    with ThreadPoolExecutor(1) as other:
        assert [book.count(), other.submit(book.count).result()] == [1, 1]


def test_a_full_disk_leaves_the_book_to_be_read(place, monkeypatch):
    no_room(place, monkeypatch)
    assert open_book(str(place)).numbers() == ["26-0001"]


@pytest.fixture
def broken_off(place, tmp_path):
    """The same book as a crash leaves it: its latest change lies beside the file."""
    book = open_book(str(place))
    book.add([an_entry("26-0002")], ANA, OPENED)
    left = tmp_path / "left"
    left.mkdir()
    for name in ("book.sqlite", "book.sqlite-wal"):
        shutil.copy(place.with_name(name), left)
    book.engine.dispose()
    return left / "book.sqlite"


def test_a_full_disk_is_named_where_the_file_is_not_the_whole_book(broken_off, monkeypatch):
    no_room(broken_off, monkeypatch)
    with pytest.raises(NotFound) as refused:
        open_book(str(broken_off))
    assert refused.value.what.endswith("the disk is full")
    assert refused.value.do == "Make room on the disk, then try again."


def test_a_change_beside_the_file_is_there_once_there_is_room(broken_off, monkeypatch):
    with monkeypatch.context() as full:
        no_room(broken_off, full)
        with pytest.raises(NotFound):
            open_book(str(broken_off))
    broken_off.with_name("book.sqlite-shm").unlink()
    assert open_book(str(broken_off)).numbers() == ["26-0001", "26-0002"]


@pytest.mark.parametrize("ending", ["-wal", "-journal"])
def test_changes_that_lie_beside_the_file_are_not_left_out(read_only, ending):
    read_only.with_name(f"book.sqlite{ending}").write_bytes(b"changes")
    assert engine_on_copy(str(read_only)) is None


@pytest.fixture
def link(tmp_path):
    """A link to the same book, in another folder."""
    (tmp_path / "link").mkdir()
    (tmp_path / "link" / "book.sqlite").symlink_to("../book.sqlite")
    return tmp_path / "link" / "book.sqlite"


def test_a_book_that_may_not_be_written_is_read_by_a_link_to_it(read_only, link):
    assert engine_on_copy(str(link)) is not None


def test_changes_that_lie_beside_what_a_link_leads_to_are_not_left_out(read_only, link):
    read_only.with_name("book.sqlite-wal").write_bytes(b"changes")
    assert engine_on_copy(str(link)) is None


def test_a_book_is_written_by_a_link_in_a_folder_that_is_only_read(place, link, monkeypatch):
    monkeypatch.setattr(os, "access", lambda path, mode: not (mode & os.W_OK and Path(path) == link.parent))
    open_book(str(link)).add([an_entry("26-0002")], ANA, OPENED)
    assert open_book(str(place)).numbers() == ["26-0001", "26-0002"]


def test_an_empty_log_leaves_nothing_out(read_only):
    read_only.with_name("book.sqlite-wal").touch()
    assert engine_on_copy(str(read_only)) is not None


def test_a_file_that_is_changed_while_it_is_copied_is_not_used(read_only, monkeypatch):
    read = Path.read_bytes

    def read_and_change(path):
        content = read(path)
        os.utime(path, ns=(0, 0))
        return content

    monkeypatch.setattr(Path, "read_bytes", read_and_change)
    assert engine_on_copy(str(read_only)) is None


def test_an_older_book_is_not_read_from_a_copy_since_it_must_be_brought_up_to_date(place, monkeypatch):
    book = open_book(str(place))
    with book.engine.transaction() as connection:
        connection.execute("DELETE FROM migrations WHERE number = (SELECT max(number) FROM migrations)")
    book.engine.dispose()
    monkeypatch.setattr(os, "access", lambda _path, mode: not mode & os.W_OK)
    assert engine_on_copy(str(place)) is None


@pytest.mark.parametrize("content", [b"", b"a letter to the maker\n" * 500], ids=["empty", "another file"])
def test_a_file_that_is_no_book_is_not_read(read_only, content):
    read_only.write_bytes(content)
    assert engine_on_copy(str(read_only)) is None
