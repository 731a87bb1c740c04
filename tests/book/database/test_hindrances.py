from __future__ import annotations

import os
import shutil
from typing import NamedTuple

import pytest

from claimpack.book.database.hindrances import file_of, hindrance, is_read_only


class Usage(NamedTuple):
    """How much of a disk is used, as the system tells it."""

    total: int
    used: int
    free: int


@pytest.fixture
def place(tmp_path):
    (tmp_path / "book.sqlite").touch()
    return str(tmp_path / "book.sqlite")


def refusing(monkeypatch, path):
    """Let the system say that one path may not be written."""
    monkeypatch.setattr(os, "access", lambda asked, mode: not (str(asked) == str(path) and mode & os.W_OK))


def test_nothing_hinders_a_book_where_it_may_be_written(place):
    assert hindrance(place) is None


@pytest.mark.parametrize("which", ["book.sqlite", "."])
def test_a_folder_or_file_that_may_not_be_written_hinders(place, tmp_path, monkeypatch, which):
    refusing(monkeypatch, tmp_path / which)
    assert (is_read_only(place), hindrance(place).what) == (True, "its folder or file is read-only")


@pytest.mark.parametrize(("free", "what"), [(0, "the disk is full"), (63_999, "the disk is full"), (64_000, None)])
def test_a_disk_without_room_beside_the_book_hinders(place, monkeypatch, free, what):
    monkeypatch.setattr(shutil, "disk_usage", lambda _folder: Usage(10**9, 10**9 - free, free))
    found = hindrance(place)
    assert (found and found.what) == what


@pytest.mark.parametrize("elsewhere", [":memory:", "postgresql://me@host/book"])
def test_nothing_hinders_a_book_that_lies_in_no_file(monkeypatch, elsewhere):
    monkeypatch.setattr(os, "access", lambda *_: False)
    assert (is_read_only(elsewhere), hindrance(elsewhere)) == (False, None)


def test_a_folder_that_is_not_there_is_no_hindrance(tmp_path):
    assert hindrance(str(tmp_path / "gone" / "book.sqlite")) is None


@pytest.fixture
def link(place, tmp_path):
    """The same book, reached by a link in another folder."""
    (tmp_path / "link").mkdir()
    (tmp_path / "link" / "book.sqlite").symlink_to(place)
    return tmp_path / "link" / "book.sqlite"


def test_the_folder_of_a_link_may_be_read_only(link, monkeypatch):
    refusing(monkeypatch, link.parent)
    assert hindrance(str(link)) is None


@pytest.mark.parametrize("which", ["book.sqlite", "."])
def test_the_folder_or_file_that_a_link_leads_to_hinders(link, tmp_path, monkeypatch, which):
    refusing(monkeypatch, tmp_path / which)
    assert is_read_only(str(link))


def test_a_link_that_leads_round_in_a_circle_leads_to_no_file(tmp_path):
    circle = tmp_path / "book.sqlite"
    circle.symlink_to("book.sqlite")
    assert not file_of(str(circle)).is_file()
