"""What a file holds: read within limits, and hashed."""

from __future__ import annotations

import contextlib
import os
import stat
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO

from claimpack.errors import BadInput, NotFound

# Bytes; no claim, plan or layout written by hand comes near it.
BIGGEST_TEXT = 2_000_000

# Bytes: what is kept or proved is held in memory whole.
BIGGEST_FILE = 500_000_000

_CHUNK = 1 << 20


def content_hash(path: Path) -> str:
    """SHA-256 of a file's content, as small hexadecimal digits."""
    import hashlib

    digest = hashlib.sha256()
    with _opened(path) as stream:
        while chunk := stream.read(_CHUNK):
            digest.update(chunk)
    return digest.hexdigest()


def hash_of(content: bytes) -> str:
    """SHA-256 of bytes, as small hexadecimal digits."""
    import hashlib

    return hashlib.sha256(content).hexdigest()


def read_text(path: Path, most: int = BIGGEST_TEXT) -> str:
    """A text file of the user's, in UTF-8 with or without a byte order mark.

    Raises:
        NotFound: there is no such file.
        BadInput: it cannot be read, has more than `most` bytes, or is in another encoding.
    """
    with _opened(path) as stream:
        content = stream.read(most + 1)
    if len(content) > most:
        raise BadInput(
            f"{path} is larger than {most // 1_000_000} MB",
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


def refuse_no_file(path: Path) -> None:
    """Refuse what cannot be opened as a file, before another process is asked to.

    Raises:
        NotFound: there is no such file.
        BadInput: it cannot be read, or is no file.
    """
    with _opened(path):
        return


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
