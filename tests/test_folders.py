import errno
import ntpath
import os
from pathlib import Path, PureWindowsPath

import pytest

from claimpack.errors import CannotWrite
from claimpack.folders import refusing, way


def test_a_path_is_written_from_a_folder():
    assert way(Path("/shop/book.sqlite"), Path("/shop/claims")) == os.path.join("..", "book.sqlite")  # noqa: PTH118


def test_between_two_drives_of_windows_a_path_stays_whole(monkeypatch):
    monkeypatch.setattr(os.path, "relpath", ntpath.relpath)
    assert way(PureWindowsPath("D:/shop/book.sqlite"), PureWindowsPath("C:/Users")) == "D:\\shop\\book.sqlite"


@pytest.mark.parametrize(
    ("error", "why"),
    [
        (OSError(errno.EROFS, "the stick is locked"), "the stick is locked"),
        (OSError("the cable is out"), "the cable is out"),
    ],
    ids=["with a number", "of its words alone"],
)
def test_a_refusal_of_the_disk_is_told_in_its_words(error, why):
    with pytest.raises(CannotWrite) as refused, refusing(Path("claims"), "cannot be made"):
        raise error
    assert refused.value.why == why
