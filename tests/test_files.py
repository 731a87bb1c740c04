import errno
import hashlib
import os
import tempfile
from pathlib import Path

import pytest

from claimpack.errors import BadInput, CannotWrite, NotFound
from claimpack.files import (
    BIGGEST_TEXT,
    content_hash,
    copy_once,
    hash_of,
    make_folders,
    read_bytes,
    read_text,
    write_atomically,
    write_together,
    writing_atomically,
)

FULL = OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


@pytest.fixture
def old(tmp_path):
    """Two files that were there before."""
    paths = (tmp_path / "packet.pdf", tmp_path / "tag.pdf")
    for path in paths:
        path.write_bytes(b"old")
    return paths


@pytest.fixture
def fails(monkeypatch):
    """Make a call to the system fail from its n-th time on, as a full disk would."""

    def arrange(owner, name, times):
        real, calls = getattr(owner, name), []

        def call(*arguments, **options):
            calls.append(arguments)
            if len(calls) >= times:
                raise FULL
            return real(*arguments, **options)

        monkeypatch.setattr(owner, name, call)

    return arrange


def names(folder):
    return sorted(path.name for path in folder.iterdir())


def test_a_file_is_written_whole(tmp_path):
    write_atomically(tmp_path / "deep" / "down" / "packet.pdf", b"new")
    assert (tmp_path / "deep" / "down" / "packet.pdf").read_bytes() == b"new"


def test_an_old_file_is_replaced_and_nothing_is_left_over(tmp_path, old):
    write_together(dict.fromkeys(old, b"new"))
    assert [path.read_bytes() for path in old] == [b"new", b"new"]
    assert names(tmp_path) == ["packet.pdf", "tag.pdf"]


def test_a_replaced_file_keeps_who_may_read_it(old):
    old[0].chmod(0o640)
    write_atomically(old[0], b"new")
    assert old[0].stat().st_mode & 0o777 == 0o640


def test_a_new_file_may_be_read_as_any_other(tmp_path):
    (tmp_path / "by hand").touch()
    write_atomically(tmp_path / "packet.pdf", b"new")
    assert (tmp_path / "packet.pdf").stat().st_mode == (tmp_path / "by hand").stat().st_mode


@pytest.mark.parametrize(
    ("owner", "name", "times"),
    [
        (os, "fsync", 1),
        (os, "fsync", 2),
        (Path, "chmod", 1),
        (Path, "chmod", 2),
        (Path, "replace", 1),
        (Path, "mkdir", 1),
    ],
)
def test_old_files_are_whole_when_a_step_fails(tmp_path, old, fails, owner, name, times):
    fails(owner, name, times)
    with pytest.raises(CannotWrite) as caught:
        write_together(dict.fromkeys(old, b"new"))
    assert caught.value.why == "No space left on device"
    assert [path.read_bytes() for path in old] == [b"old", b"old"]
    assert names(tmp_path) == ["packet.pdf", "tag.pdf"]


def test_every_file_is_old_or_new_when_the_second_cannot_be_put_in_place(tmp_path, old, fails):
    fails(Path, "replace", 2)
    with pytest.raises(CannotWrite) as caught:
        write_together(dict.fromkeys(old, b"new"))
    assert "packet.pdf was replaced" in caught.value.do
    assert [path.read_bytes() for path in old] == [b"new", b"old"]
    assert names(tmp_path) == ["packet.pdf", "tag.pdf"]


@pytest.mark.parametrize(
    ("number", "do"),
    [
        (errno.ENOSPC, "Make room or choose another folder; nothing was replaced."),
        (errno.EROFS, "Choose a folder you may write in, or ask for the right to write there; nothing was replaced."),
        (errno.EACCES, "Choose a folder you may write in, or ask for the right to write there; nothing was replaced."),
        (errno.ENAMETOOLONG, "Choose another name or folder; nothing was replaced."),
    ],
)
def test_the_file_that_was_wanted_is_named_and_what_helps(tmp_path, monkeypatch, number, do):
    def refuse(**options):
        raise OSError(number, os.strerror(number), f"{options['dir']}/.packet.pdf.x7wpd4hh")

    monkeypatch.setattr(tempfile, "mkstemp", refuse)
    with pytest.raises(CannotWrite) as caught:
        write_atomically(tmp_path / "packet.pdf", b"new")
    assert caught.value.lines() == [f"{tmp_path / 'packet.pdf'} cannot be written", os.strerror(number), do]


def test_of_several_files_the_one_that_could_not_be_written_is_named(tmp_path, old):
    old[1].unlink()
    old[1].mkdir()
    with pytest.raises(CannotWrite) as caught:
        write_together(dict.fromkeys(old, b"new"))
    assert caught.value.what == f"{old[1]} cannot be written"


def test_a_folder_in_the_files_place_is_refused(tmp_path):
    (tmp_path / "packet.pdf").mkdir()
    with pytest.raises(CannotWrite):
        write_atomically(tmp_path / "packet.pdf", b"new")
    assert names(tmp_path) == ["packet.pdf"]


def test_a_pipe_is_neither_read_nor_replaced(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    for attempt in (read_text, read_bytes, content_hash, lambda path: write_atomically(path, b"new")):
        with pytest.raises((BadInput, CannotWrite), match="is a pipe or a device"):
            attempt(tmp_path / "pipe")
    assert (tmp_path / "pipe").is_fifo()


def test_no_stream_takes_a_pipes_place(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(CannotWrite, match="is a pipe or a device"), writing_atomically(tmp_path / "pipe"):
        pass
    assert names(tmp_path) == ["pipe"]


def test_a_link_stays_one_and_leads_to_the_new_content(tmp_path, old):
    (tmp_path / "link.pdf").symlink_to("packet.pdf")
    write_atomically(tmp_path / "link.pdf", b"new")
    assert (old[0].read_bytes(), (tmp_path / "link.pdf").is_symlink()) == (b"new", True)


def test_a_link_that_leads_round_in_a_circle_is_refused(tmp_path):
    (tmp_path / "link.pdf").symlink_to("link.pdf")
    with pytest.raises(CannotWrite, match=r"link\.pdf cannot be written"):
        write_atomically(tmp_path / "link.pdf", b"new")
    assert names(tmp_path) == ["link.pdf"]


def test_a_file_in_the_folders_place_is_refused(old):
    with pytest.raises(CannotWrite) as caught:
        write_atomically(old[0] / "tag.pdf", b"new")
    assert "nothing was replaced" in caught.value.do
    assert old[0].read_bytes() == b"old"


def test_a_stream_appears_whole_at_its_end(tmp_path):
    with writing_atomically(tmp_path / "claims.csv") as stream:
        stream.write(b"number\n")
        before = (tmp_path / "claims.csv").exists()
    assert (before, (tmp_path / "claims.csv").read_bytes()) == (False, b"number\n")


def test_a_stream_that_is_broken_off_leaves_the_old_file(old, tmp_path):
    with pytest.raises(KeyboardInterrupt), writing_atomically(old[0]) as stream:  # noqa: PT012
        stream.write(b"half")
        raise KeyboardInterrupt
    assert old[0].read_bytes() == b"old"
    assert names(tmp_path) == ["packet.pdf", "tag.pdf"]


@pytest.mark.parametrize(("owner", "name", "times"), [(os, "fsync", 1), (os, "fsync", 2), (Path, "replace", 1)])
def test_a_stream_that_cannot_be_kept_leaves_the_old_file(old, fails, owner, name, times):
    fails(owner, name, times)
    with pytest.raises(CannotWrite), writing_atomically(old[0]) as stream:
        stream.write(b"new")
    assert old[0].read_bytes() == b"old"


def test_a_copy_is_made_once(tmp_path, old):
    target = tmp_path / "kept"
    copy_once(old[0], target, hash_of(b"old"))
    written = target.stat().st_mtime_ns
    copy_once(old[1], target, hash_of(b"old"))
    assert (target.read_bytes(), target.stat().st_mtime_ns) == (b"old", written)


def test_folders_are_made_with_those_above_them(tmp_path):
    make_folders([tmp_path / "a" / "b", tmp_path / "a"])
    assert (tmp_path / "a" / "b").is_dir()


def test_a_folder_that_cannot_be_made_is_named(old):
    with pytest.raises(CannotWrite) as caught:
        make_folders([old[0] / "below"])
    assert str(old[0] / "below") in caught.value.what


def test_the_hash_of_a_file_is_that_of_its_content(tmp_path):
    content = b"0123456789" * 300_000
    (tmp_path / "big").write_bytes(content)
    assert content_hash(tmp_path / "big") == hash_of(content) == hashlib.sha256(content).hexdigest()


@pytest.mark.parametrize("read", [read_text, read_bytes, content_hash])
def test_a_file_that_is_not_there_is_not_found(tmp_path, read):
    with pytest.raises(NotFound):
        read(tmp_path / "gone")


@pytest.mark.parametrize("read", [read_text, read_bytes, content_hash])
def test_a_folder_is_no_file(tmp_path, read):
    with pytest.raises(BadInput) as caught:
        read(tmp_path)
    assert "is a folder" in caught.value.what


@pytest.mark.parametrize("content", [b"Fr\xc3\xa4ser", b"\xef\xbb\xbfFr\xc3\xa4ser"])
def test_text_is_utf8_with_or_without_a_mark(tmp_path, content):
    (tmp_path / "claim.toml").write_bytes(content)
    assert read_text(tmp_path / "claim.toml") == "Fräser"


def test_text_in_another_encoding_is_refused_with_its_line(tmp_path):
    (tmp_path / "claim.toml").write_bytes(b"one\ntwo\nFr\xe4ser\n")
    with pytest.raises(BadInput) as caught:
        read_text(tmp_path / "claim.toml")
    assert "line 3" in caught.value.what


def test_text_that_is_far_too_large_is_refused(tmp_path):
    (tmp_path / "claim.toml").write_bytes(b"a" * (BIGGEST_TEXT + 1))
    with pytest.raises(BadInput) as caught:
        read_text(tmp_path / "claim.toml")
    assert "2 MB" in caught.value.what
