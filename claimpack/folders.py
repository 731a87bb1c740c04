"""Folders made, who may use what lies in them, and a refusal of the disk told as a person can act on it."""

from __future__ import annotations

import contextlib
import errno
import os
import stat
from collections.abc import Iterable, Iterator
from pathlib import Path

from claimpack.errors import CannotWrite

# Claims hold owners' names and addresses: the owner of the file may read it, and whoever shares the folder.
OWN_FILE, _OWN_FOLDER, _OF_A_GROUP = 0o600, 0o700, 0o070
# Where the disk is full or the quota used up, another name would not help; room would.
_NO_ROOM = (errno.ENOSPC, errno.EDQUOT)
_MAY_NOT = (errno.EROFS, errno.EACCES, errno.EPERM)


def way(path: Path, folder: Path) -> str:
    """A path as it is written from a folder; whole where no way leads there, as between two drives of Windows."""
    try:
        return os.path.relpath(path, folder)
    except ValueError:
        return str(path)


def make_folders(folders: Iterable[Path]) -> None:
    """Make folders that are not there yet, for nobody else's eyes unless they lie in a shared one.

    Raises:
        CannotWrite: the disk does not take one of them.
    """
    for folder in folders:
        with refusing(folder, "cannot be made"):
            for each in (*reversed(folder.parents), folder):
                if not each.exists():
                    _make_folder(each)
            folder.mkdir(exist_ok=True)


def _make_folder(folder: Path) -> None:
    mode = mode_of_folder_in(folder.parent)
    with contextlib.suppress(FileExistsError):
        folder.mkdir(_OWN_FOLDER)
        if mode != _OWN_FOLDER:
            folder.chmod(mode | (folder.stat().st_mode & stat.S_ISGID))


def _is_shared(folder: Path) -> bool:
    """Whether a folder is shared by its group: the group may write into it, and not everybody may."""
    return stat.S_IMODE(folder.stat().st_mode) & (stat.S_IWGRP | stat.S_IWOTH) == stat.S_IWGRP


def instead(error: OSError) -> str:
    """What to do where a file or folder cannot be written."""
    if error.errno in _NO_ROOM:
        return "Make room or choose another folder"
    if error.errno == errno.ENOENT:
        return "Make the folder first, or choose another"
    if error.errno in _MAY_NOT:
        return "Choose a folder you may write in, or ask for the right to write there"
    return "Choose another name or folder"


@contextlib.contextmanager
def refusing(path: Path, what: str) -> Iterator[None]:
    """A refusal of the disk told as what cannot be done with a path, and what to do."""
    try:
        yield
    except OSError as error:
        raise CannotWrite(f"{path} {what}", str(error.strerror or error), f"{instead(error)}.") from error


def mode_in(folder: Path) -> int:
    """Who may use a new file: its owner, and in a shared folder its group."""
    return OWN_FILE | (_OF_A_GROUP & 0o666 if _is_shared(folder) else 0)


def mode_of_folder_in(folder: Path) -> int:
    """Who may use a new folder: its owner, and in a shared folder its group."""
    return _OWN_FOLDER | (_OF_A_GROUP if _is_shared(folder) else 0)
