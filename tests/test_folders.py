import ntpath
import os
from pathlib import Path, PureWindowsPath

from claimpack.folders import way


def test_a_path_is_written_from_a_folder():
    assert way(Path("/shop/book.sqlite"), Path("/shop/claims")) == os.path.join("..", "book.sqlite")  # noqa: PTH118


def test_between_two_drives_of_windows_a_path_stays_whole(monkeypatch):
    monkeypatch.setattr(os.path, "relpath", ntpath.relpath)
    assert way(PureWindowsPath("D:/shop/book.sqlite"), PureWindowsPath("C:/Users")) == "D:\\shop\\book.sqlite"
