"""What is taken away, what a killed program left, and folders made at once."""

from __future__ import annotations

import errno
import os

import pytest
from old_files import aged

from claimpack.errors import CannotWrite
from claimpack.files import add_to_file, folder_at_once, keep_once, remove, stale_files, write_atomically

DAY = 86_400


def nobody_wants(_path):
    return False


def test_what_nobody_wants_is_stale_after_a_day_at_any_depth_and_told_by_name(tmp_path):
    stale = [aged(tmp_path / name, DAY + 60) for name in ("a", "b/c", "d")]
    aged(tmp_path / "young", DAY - 60)
    aged(tmp_path / "wanted", DAY + 60)
    assert stale_files(tmp_path, lambda path: path.name == "wanted") == stale


def test_a_folder_is_never_stale_itself(tmp_path):
    os.utime(aged(tmp_path / "kept" / "young", 0).parent, (0, 0))
    assert stale_files(tmp_path, nobody_wants) == []


def test_whoever_looks_for_stale_files_leaves_none(tmp_path):
    left = aged(tmp_path / "left", DAY + 60)
    stale_files(tmp_path, nobody_wants)
    assert list(tmp_path.iterdir()) == [left]


def test_a_folder_without_stale_files_need_not_take_any(tmp_path, monkeypatch):
    def refuse(**_options):
        raise PermissionError

    monkeypatch.setattr("tempfile.mkstemp", refuse)
    aged(tmp_path / "wanted", DAY + 60)
    assert stale_files(tmp_path, lambda _path: True) == []
    with pytest.raises(CannotWrite):
        stale_files(tmp_path, nobody_wants)


def test_a_file_that_is_gone_while_it_is_looked_at_is_not_stale(tmp_path):
    aged(tmp_path / "going", DAY + 60)
    assert stale_files(tmp_path, lambda path: bool(path.unlink())) == []


def test_what_is_kept_anew_begins_a_new_day(tmp_path):
    kept = aged(tmp_path / "kept", DAY + 60)
    assert keep_once(tmp_path, "kept", bytes) is False
    assert stale_files(tmp_path, nobody_wants) == []
    assert kept.exists()


def test_a_link_in_the_place_of_what_is_kept_is_not_taken_for_it(tmp_path):
    (tmp_path / "kept").symlink_to(aged(tmp_path / "theirs", 0))
    with pytest.raises(CannotWrite, match="is a link"):
        keep_once(tmp_path, "kept", b"ours".strip)


def test_what_is_gone_already_is_no_obstacle_to_taking_the_rest_away(tmp_path):
    last = aged(tmp_path / "last", 0)
    remove([tmp_path / "gone", last])
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_comes_in_grows_at_its_end(tmp_path):
    for part in (b"one ", b"two"):
        add_to_file(tmp_path / "coming", part)
    assert (tmp_path / "coming").read_bytes() == b"one two"


@pytest.mark.parametrize("is_there", [False, True])
def test_a_folder_is_made_with_those_above_it_and_takes_its_place_at_the_end(tmp_path, is_there):
    if is_there:
        (tmp_path / "deep" / "er" / "shop").mkdir(parents=True)
    with folder_at_once(tmp_path / "deep" / "er" / "shop") as place:
        (place / "shop.toml").touch()
        assert not (tmp_path / "deep" / "er" / "shop" / "shop.toml").exists()
    assert [path.name for path in tmp_path.rglob("*")] == ["deep", "er", "shop", "shop.toml"]


@pytest.mark.parametrize("file", ["shop", "shop/notes.txt"], ids=["a file", "a folder with a file in it"])
def test_a_folder_takes_the_place_of_nothing_that_is_there(tmp_path, file):
    aged(tmp_path / file, 0)
    with pytest.raises(CannotWrite, match="already exists"), folder_at_once(tmp_path / "shop"):
        pass
    assert (tmp_path / file).is_file()


def test_a_folder_that_cannot_be_filled_is_not_made(tmp_path):
    with pytest.raises(ZeroDivisionError), folder_at_once(tmp_path / "shop") as place:  # noqa: PT012
        (place / "shop.toml").touch()
        raise ZeroDivisionError
    assert list(tmp_path.iterdir()) == []


def test_a_name_too_long_for_the_disk_is_told_in_the_words_of_the_disk(tmp_path):
    with pytest.raises(CannotWrite) as caught:
        write_atomically(tmp_path / ("a" * 300), b"new")
    assert caught.value.why == os.strerror(errno.ENAMETOOLONG)
