"""Why a book's file cannot be written where it lies: a folder or file that is only read, or a full disk."""

from __future__ import annotations

import os
import shutil
from pathlib import Path
from typing import NamedTuple

_LITTLE = 64_000
"""Bytes that opening a book needs beside it."""


class Hindrance(NamedTuple):
    """What keeps a book from being written, and what to do about it."""

    what: str
    do: str


READS_ALONE = Hindrance(
    "its server lets this login read alone",
    "Ask whoever keeps the book for another login; what logins may do: claimpack shop roles",
)
"""What keeps an accountant's login from writing."""


def hindrance(place: str) -> Hindrance | None:
    """Why the file of a book takes no writing now; None where nothing is seen that keeps it from being written."""
    if is_read_only(place):
        return Hindrance(
            "its folder or file is read-only",
            "Work where it may be written, or ask whoever owns the folder for the right to write.",
        )
    folder = file_of(place).parent
    # a full disk shows itself only when something is written, and then in many ways
    if not is_elsewhere(place) and folder.is_dir() and shutil.disk_usage(folder).free < _LITTLE:
        return Hindrance("the disk is full", "Make room on the disk, then try again.")
    return None


def is_read_only(place: str) -> bool:
    """Whether a book's file is there, or its folder at least, and one of them may not be written."""
    if is_elsewhere(place):
        return False
    file = file_of(place)
    # the folder as well: SQLite makes its log beside the file
    return any(path.exists() and not os.access(path, os.W_OK) for path in (file, file.parent))


def is_elsewhere(place: str) -> bool:
    """Whether a book lies in no file: on a server, or in memory."""
    return "://" in place or place == ":memory:"


def file_of(place: str) -> Path:
    """The file that a book's place leads to, every link followed: SQLite writes beside it, and not beside a link."""
    return Path(os.path.realpath(place))
