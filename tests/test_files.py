import errno
import os
import tempfile
from pathlib import Path

import pytest

from claimpack.errors import BadInput, CannotWrite
from claimpack.file_contents import content_hash, read_bytes, read_text
from claimpack.files import (
    folder_at_once,
    keep_once,
    make_folders,
    make_private_file,
    write_atomically,
    write_folder,
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
    write_atomically(tmp_path / "packet.pdf", b"new")
    assert (tmp_path / "packet.pdf").read_bytes() == b"new"


def test_a_folder_that_was_mistyped_is_not_made(tmp_path):
    with pytest.raises(CannotWrite) as caught:
        write_atomically(tmp_path / "nosuch" / "claims.csv", b"new")
    assert caught.value.do.startswith("Make the folder first")
    assert names(tmp_path) == []


def test_a_folder_is_filled_at_any_depth(tmp_path):
    write_folder(tmp_path / "out", {"photos/deep/plate.jpg": b"new", "claim.toml": b"new"})
    assert (tmp_path / "out" / "photos" / "deep" / "plate.jpg").read_bytes() == b"new"


@pytest.mark.parametrize("planted", ["packet.pdf", "photos"], ids=["a file", "a folder"])
def test_a_link_planted_in_a_folder_is_not_followed(tmp_path, planted):
    (tmp_path / "theirs").mkdir()
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / planted).symlink_to(tmp_path / "theirs")
    with pytest.raises(CannotWrite, match="is a link"):
        write_folder(tmp_path / "out", {"packet.pdf": b"new", "photos/1.jpg": b"new"})
    assert (names(tmp_path / "theirs"), (tmp_path / "out" / planted).is_symlink()) == ([], True)
    assert "1.jpg" not in {path.name for path in tmp_path.rglob("*")}


def test_a_folder_may_itself_be_reached_through_a_link(tmp_path):
    (tmp_path / "real").mkdir()
    (tmp_path / "out").symlink_to("real")
    write_folder(tmp_path / "out", {"packet.pdf": b"new"})
    assert names(tmp_path / "real") == ["packet.pdf"]


def test_an_old_file_is_replaced_and_nothing_is_left_over(tmp_path, old):
    write_together(dict.fromkeys(old, b"new"))
    assert [path.read_bytes() for path in old] == [b"new", b"new"]
    assert names(tmp_path) == ["packet.pdf", "tag.pdf"]


def test_a_replaced_file_keeps_who_may_read_it(old):
    old[0].chmod(0o640)
    write_atomically(old[0], b"new")
    assert old[0].stat().st_mode & 0o777 == 0o640


@pytest.mark.parametrize(
    ("of_folder", "of_file", "of_inner"),
    [(0o755, 0o600, 0o700), (0o700, 0o600, 0o700), (0o770, 0o660, 0o770), (0o775, 0o660, 0o770), (0o777, 0o600, 0o700)],
    ids=["read by all", "private", "shared by a group", "shared, read by all", "written by all"],
)
def test_what_is_new_is_for_its_owner_and_for_the_group_that_shares_the_folder(tmp_path, of_folder, of_file, of_inner):
    tmp_path.chmod(of_folder)
    write_folder(tmp_path, {"tag.pdf": b"", "papers/receipt.pdf": b""})
    make_private_file(tmp_path / "book.sqlite")
    found = [(tmp_path / name).stat().st_mode & 0o777 for name in ("tag.pdf", "papers/receipt.pdf", "book.sqlite")]
    assert (found, (tmp_path / "papers").stat().st_mode & 0o777) == ([of_file] * 3, of_inner)


LEFT = ".packet.pdf.a1b2c3d4.claimpack-part"


@pytest.mark.parametrize(
    ("name", "age", "stays"),
    [(LEFT, 90_000, False), (LEFT, 80_000, True), (".packet.pdf.swp", 90_000, True)],
    ids=["of a killed run", "maybe being written", "somebody else's"],
)
def test_what_a_killed_run_left_is_swept_by_a_later_one(tmp_path, name, age, stays):
    left = tmp_path / name
    left.touch()
    now = left.stat().st_mtime
    os.utime(left, (now - age, now - age))
    write_atomically(tmp_path / "tag.pdf", b"new")
    assert left.exists() is stays


def test_a_folder_that_a_killed_run_left_is_swept_by_a_later_one(tmp_path):
    with folder_at_once(tmp_path / "shop") as place:
        left = tmp_path / place.name.replace(".shop", ".other")
        (left / "vault").mkdir(parents=True)
        now = place.stat().st_mtime
    os.utime(left, (now - 90_000, now - 90_000))
    write_atomically(tmp_path / "tag.pdf", b"new")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["shop", "tag.pdf"]


def test_a_folder_made_at_once_sweeps_too(tmp_path):
    left = tmp_path / LEFT
    left.touch()
    os.utime(left, (0, 0))
    with folder_at_once(tmp_path / "shop"):
        assert not left.exists()


@pytest.mark.parametrize(
    ("owner", "name", "times"),
    [
        (os, "fsync", 1),
        (os, "fsync", 2),
        (Path, "chmod", 1),
        (Path, "chmod", 2),
        (Path, "replace", 1),
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
    with pytest.raises(CannotWrite, match="pipe"), writing_atomically(tmp_path / "pipe"):
        pass
    assert names(tmp_path) == ["pipe"]


@pytest.mark.parametrize("leads_to", ["packet.pdf", "link.pdf", "nowhere.pdf"])
def test_nothing_is_written_through_a_link(tmp_path, old, leads_to):
    (tmp_path / "link.pdf").symlink_to(leads_to)
    with pytest.raises(CannotWrite, match=r"link\.pdf is a link"):
        write_atomically(tmp_path / "link.pdf", b"new")
    assert (old[0].read_bytes(), names(tmp_path)) == (b"old", ["link.pdf", "packet.pdf", "tag.pdf"])


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


def test_a_file_is_not_told_to_be_safe_before_the_folder_that_names_it(tmp_path, fails):
    fails(os, "fsync", 2)
    with pytest.raises(CannotWrite):
        write_atomically(tmp_path / "packet.pdf", b"new")


def test_content_is_kept_once(tmp_path):
    is_new = [keep_once(tmp_path, "kept", content.encode) for content in ("first", "again")]
    assert (*is_new, (tmp_path / "kept").read_bytes()) == (True, False, b"first")


def test_folders_are_made_with_those_above_them(tmp_path):
    make_folders([tmp_path / "a" / "b", tmp_path / "a"])
    assert (tmp_path / "a" / "b").is_dir()


def test_a_folder_that_cannot_be_made_is_named(old):
    with pytest.raises(CannotWrite) as caught:
        make_folders([old[0] / "below"])
    assert str(old[0] / "below") in caught.value.what


def test_a_file_takes_no_devices_name(tmp_path):
    with pytest.raises(CannotWrite, match=r"NUL\.pdf is the name of a device"):
        write_atomically(tmp_path / "NUL.pdf", b"new")
    assert names(tmp_path) == []
