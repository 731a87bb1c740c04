from __future__ import annotations

import errno
import os

import pytest

from claimpack.errors import BadInput, NotFound
from claimpack.evidence.originals import read_original


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "claim" / "photos").mkdir(parents=True)
    (tmp_path / "claim" / "photos" / "plate.jpg").write_bytes(b"x")
    (tmp_path / "secret.txt").write_text("secret")
    return tmp_path / "claim"


def test_a_file_of_the_claim_is_found(folder):
    assert read_original(folder, "photos/plate.jpg").read_bytes() == b"x"


@pytest.mark.parametrize(
    "file", ["../secret.txt", "photos/../../secret.txt", "/etc/passwd", "C:/x", "photos\\plate.jpg", "", ".", "a\0b"]
)
def test_a_path_that_leaves_the_folder_is_refused(folder, file):
    with pytest.raises(BadInput, match="does not name a file inside the claim folder"):
        read_original(folder, file)


def test_a_link_is_refused_even_to_a_file_inside(folder):
    (folder / "link.jpg").symlink_to(folder / "photos" / "plate.jpg")
    with pytest.raises(BadInput, match="symbolic link"):
        read_original(folder, "link.jpg")


def test_a_folder_that_is_a_link_is_refused(folder):
    (folder / "more").symlink_to(folder.parent)
    with pytest.raises(BadInput, match="symbolic link at 'more'"):
        read_original(folder, "more/secret.txt")


def test_a_missing_file_suggests_the_nearest_name(folder):
    with pytest.raises(NotFound) as refused:
        read_original(folder, "photos/plat.jpg")
    assert "plate.jpg" in refused.value.do


def test_a_name_is_found_however_the_disk_writes_it(folder):
    (folder / "photos" / "e\u0301clat  2.jpg").write_bytes(b"y")
    assert read_original(folder, "photos/éclat 2.jpg").read_bytes() == b"y"


def test_of_two_files_alike_none_is_taken_for_the_one_meant(folder):
    for name in ("a  b.jpg", "a   b.jpg"):
        (folder / "photos" / name).write_bytes(b"y")
    with pytest.raises(NotFound, match=r"a b\.jpg"):
        read_original(folder, "photos/a b.jpg")


def test_a_file_whose_name_no_claim_could_hold_is_not_the_one_meant(folder):
    (folder / "photos" / "a\x07b.jpg").write_bytes(b"y")
    (folder / "photos" / "plate.jpg").unlink()
    with pytest.raises(NotFound):
        read_original(folder, "photos/plate.jpg")


@pytest.mark.parametrize("file", ["pictures/plate.jpg", "photos/plate.jpg/x"])
def test_a_missing_folder_is_named(folder, file):
    with pytest.raises(NotFound, match=file):
        read_original(folder, file)


def test_a_folder_is_no_file(folder):
    with pytest.raises(BadInput, match="photos is a folder"):
        read_original(folder, "photos")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes on this system")
def test_a_pipe_is_no_file(folder):
    os.mkfifo(folder / "pipe.jpg")
    with pytest.raises(BadInput, match=r"pipe\.jpg"):
        read_original(folder, "pipe.jpg")


def test_a_name_no_disk_takes_is_refused(folder):
    with pytest.raises(BadInput, match="cannot be read") as refused:
        read_original(folder, "x" * 5000)
    assert refused.value.why == os.strerror(errno.ENAMETOOLONG)
