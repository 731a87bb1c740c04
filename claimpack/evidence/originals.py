"""The files a claim names, found inside its folder and nowhere else."""

from __future__ import annotations

import os
import re
import stat
from pathlib import Path, PurePosixPath

from claimpack.core.values.words import did_you_mean, one_line
from claimpack.errors import BadInput, NotFound

_DRIVE = re.compile("[A-Za-z]:")
# Only so many names of a folder are looked at to suggest the one that was meant; the answer must come at once.
_MOST_NAMES = 2000


def read_original(folder: Path, file: str) -> Path:
    """Where a file of the claim lies: a regular file inside the folder, reached without a link.

    Args:
        folder: the claim folder.
        file: its path inside the folder, with forward slashes.

    Raises:
        BadInput: the path leaves the folder, goes through a symbolic link, or names no regular file.
        NotFound: there is no such file; the nearest name is suggested.
    """
    path = folder
    for part in _parts(file):
        path = _under(path, part)
        # every step of the way is looked at: a folder in between may be the link
        mode = _mode(path, file)
        if stat.S_ISLNK(mode):
            raise BadInput(
                f"{file} goes through a symbolic link at {path.name!r}",
                "What a link points at may lie outside the claim folder, and may change.",
                "Copy the file itself into the claim folder.",
            )
    if stat.S_ISDIR(mode):
        raise BadInput(f"{file} is a folder, not a file", "A claim names single files.", "Name a file inside it.")
    if not stat.S_ISREG(mode):
        raise BadInput(
            f"{file} is a pipe or a device, not a file", "It has no lasting content.", "Copy the file itself there."
        )
    return path


def _parts(file: str) -> tuple[str, ...]:
    path = PurePosixPath(file)
    # a drive or a backslash is a folder on Windows, where the same claim may be read
    outside = path.is_absolute() or ".." in path.parts or _DRIVE.match(file) or "\\" in file or "\0" in file
    if outside or not path.parts:
        raise BadInput(
            f"{file!r} does not name a file inside the claim folder",
            "A claim is complete in its own folder, so that it can be moved and checked.",
            "Copy the file into the claim folder and name it by its path there, with forward slashes.",
        )
    return path.parts


def _mode(path: Path, file: str) -> int:
    try:
        return path.lstat().st_mode
    except (FileNotFoundError, NotADirectoryError):
        raise NotFound(
            f"{file}: there is no such file in the claim folder",
            f"Nothing is called {path.name!r} there.",
            _nearest(path) or "Check the name, also for capital letters.",
        ) from None
    except OSError as error:
        raise BadInput(f"{file} cannot be read", str(error.strerror or error), "Check who may read it.") from error


def _under(folder: Path, name: str) -> Path:
    """Where a name lies; a disk may write the same name with its accents apart, or with other blanks."""
    exact = folder / name
    if os.path.lexists(exact):
        return exact
    alike = [other for other in _names(folder) if _is_written_as(other, name)]
    # between two of a name nothing is guessed
    return folder / alike[0] if len(alike) == 1 else exact


def _is_written_as(on_disk: str, name: str) -> bool:
    try:
        return bool(one_line(on_disk) == one_line(name))
    except ValueError:
        return False


def _names(folder: Path) -> list[str]:
    try:
        with os.scandir(folder) as entries:
            return [entry.name for _, entry in zip(range(_MOST_NAMES), entries, strict=False)]
    except OSError:
        return []


def _nearest(missing: Path) -> str:
    names = _names(missing.parent)
    return did_you_mean(missing.name, names) if names else ""
