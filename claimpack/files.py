"""Files on disk: read with limits, hashed, and replaced only by a whole new one. The only module that writes a file."""

from __future__ import annotations

import contextlib
import errno
import hashlib
import os
import shutil
import stat
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import BinaryIO

from claimpack.errors import BadInput, CannotWrite, NotFound

BIGGEST_TEXT = 2_000_000
BIGGEST_FILE = 500_000_000
_CHUNK = 1 << 20
_NO_ROOM = (errno.ENOSPC, errno.EDQUOT)
_MAY_NOT = (errno.EROFS, errno.EACCES, errno.EPERM)


def content_hash(path: Path) -> str:
    """SHA-256 of a file's content, as small hexadecimal digits."""
    digest = hashlib.sha256()
    with _opened(path) as stream:
        while chunk := stream.read(_CHUNK):
            digest.update(chunk)
    return digest.hexdigest()


def hash_of(content: bytes) -> str:
    """SHA-256 of bytes, as small hexadecimal digits."""
    return hashlib.sha256(content).hexdigest()


def read_text(path: Path) -> str:
    """A text file of the user's, in UTF-8 with or without a byte order mark.

    Raises:
        NotFound: there is no such file.
        BadInput: it cannot be read, is larger than 2 MB, or is in another encoding.
    """
    with _opened(path) as stream:
        content = stream.read(BIGGEST_TEXT + 1)
    if len(content) > BIGGEST_TEXT:
        raise BadInput(
            f"{path} is larger than {BIGGEST_TEXT // 1_000_000} MB",
            "A file written by hand is never that large; it may be another file under this name.",
            "Check what the file is.",
        )
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise BadInput(
            f"{path}, line {line}: the text is not in UTF-8",
            "In another encoding, accented letters would come out wrong.",
            "Save the file as UTF-8 in your editor.",
        ) from None


def read_bytes(path: Path) -> bytes:
    """The content of a file.

    Raises:
        NotFound: there is no such file.
        BadInput: it cannot be read, or is larger than any file that is kept or proved.
    """
    with _opened(path) as stream:
        if os.fstat(stream.fileno()).st_size > BIGGEST_FILE:
            raise BadInput(
                f"{path} is larger than {BIGGEST_FILE // 1_000_000} MB",
                "No photo, paper or packet is that large; it may be a film or a copy of a disk.",
                "Check that the right file was named.",
            )
        return stream.read()


@contextlib.contextmanager
def _opened(path: Path) -> Iterator[BinaryIO]:
    try:
        _refuse_what_is_no_file(path)
        with path.open("rb") as stream:
            yield stream
    except FileNotFoundError:
        raise NotFound(f"{path}: there is no such file", do="Check the name and the folder.") from None
    except IsADirectoryError:
        raise BadInput(f"{path} is a folder, not a file") from None
    except OSError as error:
        raise BadInput(f"{path} cannot be read", str(error.strerror or error)) from error


def _refuse_what_is_no_file(path: Path) -> None:
    # Opening a pipe waits for somebody who writes into it, and a device may never end.
    mode = path.stat().st_mode
    if not (stat.S_ISREG(mode) or stat.S_ISDIR(mode)):
        raise BadInput(
            f"{path} is a pipe or a device, not a file", "It has no lasting content.", "Copy the file itself there."
        )


def make_folders(folders: Iterable[Path]) -> None:
    """Make folders that are not there yet.

    Raises:
        CannotWrite: the disk does not take one of them.
    """
    for folder in folders:
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            reason, do = str(error.strerror or error), f"{_instead(error)}."
            raise CannotWrite(f"{folder} cannot be made", reason, do) from error


def _instead(error: OSError) -> str:
    """What to do where a file or folder cannot be written."""
    if error.errno in _NO_ROOM:
        return "Make room or choose another folder"
    if error.errno in _MAY_NOT:
        return "Choose a folder you may write in, or ask for the right to write there"
    return "Choose another name or folder"


def copy_once(source: Path, target: Path, sha256: str) -> None:
    """Copy a file to where its content is kept, unless it is there already.

    Raises:
        BadInput: the source cannot be read, or changed while it was copied.
        CannotWrite: the folder or the disk does not take it.
    """
    if target.is_file():
        return
    content = read_bytes(source)
    if hash_of(content) != sha256:
        raise BadInput(f"{source} changed while it was read", do="Wait until it is written, then try again.")
    write_atomically(target, content)


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
            f"{_instead(error)}; {', '.join(replaced) or 'nothing'} was replaced.",
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
        temporary = _beside(path, b"")
        with temporary.open("wb") as stream:
            yield stream
            stream.flush()
            os.fsync(stream.fileno())
        temporary.replace(path)
        _sync_folder(path.parent)
    except OSError as error:
        reason, do = str(error.strerror or error), f"{_instead(error)}."
        raise CannotWrite(f"{path} cannot be written", reason, do) from error
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
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            raise CannotWrite(
                f"{folder} is there already, and is not empty",
                "What lies in it would be mixed with what is written.",
                "Give the name of a folder that is not there.",
            )
        folder.parent.mkdir(parents=True, exist_ok=True)
        temporary = Path(tempfile.mkdtemp(prefix=f".{folder.name[:80]}.", dir=folder.parent))
        yield temporary
        temporary.replace(folder)
        _sync_folder(folder.parent)
    except OSError as error:
        reason, do = str(error.strerror or error), f"{_instead(error)}."
        raise CannotWrite(f"{folder} cannot be made", reason, do) from error
    finally:
        if temporary:
            shutil.rmtree(temporary, ignore_errors=True)


def _place(path: Path) -> Path:
    """Where a file goes: a link stays one, and what is no file (a pipe, /dev/null) is never replaced by one."""
    try:
        place = path.resolve() if path.is_symlink() else path
        mode = place.stat().st_mode if place.exists() else stat.S_IFREG
    except (OSError, RuntimeError) as error:
        reason = error.strerror if isinstance(error, OSError) else "its link leads round in a circle"
        raise CannotWrite(f"{path} cannot be written", str(reason or error), "Choose another name.") from error
    if not (stat.S_ISREG(mode) or stat.S_ISDIR(mode)):
        raise CannotWrite(
            f"{path} is a pipe or a device, and a file cannot be put in its place",
            "Putting one there would take it away from every other program.",
            "Give the name of a file.",
        )
    return place


def _beside(path: Path, content: bytes) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=f".{path.name[:80]}.", dir=path.parent)
    temporary = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        temporary.chmod(path.stat().st_mode & 0o777 if path.exists() else 0o666 & ~_umask())
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
    return temporary


def _umask() -> int:
    mask = os.umask(0o077)
    os.umask(mask)
    return mask


def _sync_folder(folder: Path) -> None:
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
