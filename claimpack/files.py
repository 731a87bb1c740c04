"""Files written: replaced only by a whole new one, for their owner's eyes. The only module that writes a file."""

from __future__ import annotations

import contextlib
import os
import shutil
import stat
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path
from typing import BinaryIO

from claimpack.core.claims.file_names import is_device
from claimpack.errors import CannotWrite
from claimpack.folders import OWN_FILE, instead, make_folders, mode_in, mode_of_folder_in, refusing

_PART = ".claimpack-part"
# No file takes a day to write; one that is older was left by a program that was killed.
_STALE_SECONDS = 86_400


def keep_once(folder: Path, name: str, content: Callable[[], bytes]) -> bool:
    """Put content into a folder once; whether it was not there before. What is there counts as kept anew.

    Raises:
        BadInput: the content cannot be had.
        CannotWrite: the folder or the disk does not take it.
    """
    target = folder / name
    if target.is_file() and not target.is_symlink():
        # Content nobody needs yet is taken away after a day; what is kept anew begins a new one.
        with contextlib.suppress(OSError):
            os.utime(target)
        return False
    write_folder(folder, {name: content()})
    return True


def write_folder(folder: Path, contents: Mapping[str, bytes]) -> None:
    """Put files into a folder, made where it is not there; inside it no link is followed.

    Args:
        folder: the folder; it may itself be reached through links.
        contents: by the path inside it.

    Raises:
        CannotWrite: a folder or the disk does not take one of them, or a link lies where one is to go.
    """
    places = {folder / name: content for name, content in contents.items()}
    make_folders([folder])
    for path in places:
        # A link planted inside the folder could lead what is written anywhere.
        for inner in path.parents[: len(path.relative_to(folder).parts) - 1]:
            _refuse_link(inner)
    make_folders(path.parent for path in places)
    write_together(places)


def make_private_file(path: Path) -> None:
    """Make an empty file that nobody else may read, unless its folder is shared; one that is there stays as it is.

    Raises:
        CannotWrite: the folder or the disk does not take it.
    """
    with refusing(path, "cannot be written"), contextlib.suppress(FileExistsError):
        os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, OWN_FILE))
        path.chmod(mode_in(path.parent))


def stale_files(folder: Path, is_wanted: Callable[[Path], bool]) -> list[Path]:
    """Files at any depth in a folder that nobody wants and that have lain there for more than a day, by name.

    The day is told by the clock of the disk they lie on, which may be another machine's.

    Raises:
        CannotWrite: the folder cannot be written, so nobody could take them away either.
    """
    found = [path for path in sorted(folder.rglob("*")) if not path.is_dir() and not is_wanted(path)]
    if not found:
        return []
    with refusing(folder, "cannot be written"):
        # Only the disk itself knows what its clock says; a file made now tells it.
        fresh = _beside(folder / "now", b"")
        try:
            return [path for path in found if _is_stale(path, fresh)]
        finally:
            fresh.unlink(missing_ok=True)


def _is_stale(path: Path, fresh: Path) -> bool:
    try:
        return fresh.stat().st_mtime - path.lstat().st_mtime > _STALE_SECONDS
    except FileNotFoundError:
        return False


def remove(paths: Iterable[Path]) -> None:
    """Take files away; those that are gone already are none to worry about.

    Raises:
        CannotWrite: one of them cannot be taken away.
    """
    for path in paths:
        with refusing(path, "cannot be removed"):
            path.unlink(missing_ok=True)


def add_to_file(path: Path, content: bytes) -> None:
    """Put content at the end of a file that is still coming in; it is made where it is not there.

    Raises:
        CannotWrite: the folder or the disk does not take it.
    """
    make_private_file(path)
    with refusing(path, "cannot be written"), path.open("ab") as stream:
        stream.write(content)


def write_atomically(path: Path, content: bytes) -> None:
    """Put a file in place at once: a reader sees the old file or the whole new one, never a part.

    Raises:
        CannotWrite: the folder or the disk does not take it; the old file is untouched.
    """
    write_together({path: content})


def write_together(contents: Mapping[Path, bytes]) -> None:
    """Put several files in place; nothing is replaced before every one of them is safe on the disk.

    Raises:
        CannotWrite: a folder or the disk does not take one of them; the message says which are new already, if any.
    """
    waiting: list[tuple[Path, Path]] = []
    replaced: list[str] = []
    places = {_place(path): content for path, content in contents.items()}
    writing = next(iter(places), Path())
    try:
        for writing, content in places.items():
            waiting.append((_beside(writing, content), writing))
        for temporary, writing in waiting:
            temporary.replace(writing)
            replaced.append(writing.name)
        for folder in {path.parent for path in places}:
            _sync_folder(folder)
    except OSError as error:
        raise CannotWrite(
            f"{writing} cannot be written",
            str(error.strerror or error),
            f"{instead(error)}; {', '.join(replaced) or 'nothing'} was replaced.",
        ) from error
    finally:
        for temporary, _ in waiting:
            temporary.unlink(missing_ok=True)


@contextlib.contextmanager
def writing_atomically(path: Path) -> Iterator[BinaryIO]:
    """A stream into a file that appears at once and whole when the block ends, and not at all when it fails.

    Raises:
        CannotWrite: the folder or the disk does not take it; the old file is untouched.
    """
    temporary = None
    path = _place(path)
    try:
        with refusing(path, "cannot be written"):
            temporary = _beside(path, b"")
            with temporary.open("wb") as stream:
                yield stream
                stream.flush()
                os.fsync(stream.fileno())
            temporary.replace(path)
            _sync_folder(path.parent)
    finally:
        if temporary:
            temporary.unlink(missing_ok=True)


@contextlib.contextmanager
def folder_at_once(folder: Path) -> Iterator[Path]:
    """A folder to fill, which takes its place when the block ends, and leaves nothing behind when it fails.

    Raises:
        CannotWrite: it is there and not empty, or cannot be made.
    """
    temporary = None
    try:
        with refusing(folder, "cannot be made"):
            if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
                raise CannotWrite(
                    f"{folder} already exists, and is not empty",
                    "What lies in it would be mixed with what is written.",
                    "Give the name of a folder that is not there.",
                )
            folder.parent.mkdir(parents=True, exist_ok=True)
            temporary = Path(tempfile.mkdtemp(prefix=f".{folder.name[:80]}.", suffix=_PART, dir=folder.parent))
            _sweep(temporary)
            temporary.chmod(mode_of_folder_in(folder.parent))
            yield temporary
            temporary.replace(folder)
            _sync_folder(folder.parent)
    finally:
        if temporary:
            shutil.rmtree(temporary, ignore_errors=True)


def _place(path: Path) -> Path:
    """Where a file goes: never through a link, and what is no file (a pipe, /dev/null) is never replaced by one."""
    if is_device(path.name):
        raise CannotWrite(
            f"{path} is the name of a device on Windows, not of a file",
            "There it could be neither read nor written.",
            "Choose another name.",
        )
    try:
        _refuse_link(path)
        mode = path.stat().st_mode if path.exists() else stat.S_IFREG
    except OSError as error:
        raise CannotWrite(f"{path} cannot be written", str(error.strerror or error), "Choose another name.") from error
    if not (stat.S_ISREG(mode) or stat.S_ISDIR(mode)):
        raise CannotWrite(
            f"{path} is a pipe or a device, and a file cannot be put in its place",
            "Putting one there would take it away from every other program.",
            "Give the name of a file; - where the option takes it goes to standard output.",
        )
    return path


def _refuse_link(path: Path) -> None:
    if path.is_symlink():
        raise CannotWrite(
            f"{path} is a link, and nothing is written through a link",
            "It would go where the link leads, which somebody else may have chosen.",
            "Take the link away, or give the name of what it leads to.",
        )


def _beside(path: Path, content: bytes) -> Path:
    handle, name = tempfile.mkstemp(prefix=f".{path.name[:80]}.", suffix=_PART, dir=path.parent)
    temporary = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            # Put in place unwritten, the file would be empty after a power cut, and the old one gone.
            os.fsync(stream.fileno())
        temporary.chmod(path.stat().st_mode & 0o777 if path.exists() else mode_in(path.parent))
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
    _sweep(temporary)
    return temporary


def _sweep(fresh: Path) -> None:
    """Take away what killed programs left beside a file or folder that was just made."""
    with contextlib.suppress(OSError):
        left = [path for path in fresh.parent.glob(f".*{_PART}") if path != fresh and _is_stale(path, fresh)]
        for path in left:
            if path.is_dir() and not path.is_symlink():
                shutil.rmtree(path, ignore_errors=True)
            else:
                path.unlink(missing_ok=True)


def _sync_folder(folder: Path) -> None:
    if os.name != "posix":
        return
    # A new name is safe only once the folder that holds it is written.
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
