"""The archive of a whole book: one zip file with its rows as JSON lines, its kept files, counts and hashes."""

from __future__ import annotations

import hashlib
import json
import zipfile
import zlib
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path
from typing import IO, Any, Literal

from pydantic import ValidationError

from claimpack.book.moving import TABLES, Read, hashes_of
from claimpack.core.claim import Record
from claimpack.errors import BadInput, NotFound
from claimpack.files import hash_of, writing_atomically

CONTENTS = "contents.json"

Progress = Callable[[int], AbstractContextManager[Callable[[], None]]]
"""Shows that many steps, and gives what moves it by one."""

_CANONICAL = json.JSONEncoder(sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode
_BROKEN = (zipfile.BadZipFile, zlib.error, EOFError)
_LONGEST = 64_000_000


class Contents(Record):
    """What an archive holds: rows and SHA-256 by table, how many files, the end of the history."""

    format: Literal[1] = 1
    rows: dict[str, int]
    sha256: dict[str, str]
    files: int
    history: str


def write_archive(path: Path, read: Read, content: Callable[[str], bytes], progress: Progress) -> Contents:
    """Write a book to a zip file; the same book gives the same bytes.

    Args:
        path: the file to write.
        read: gives the rows of each table.
        content: gives the kept content of a hash.
        progress: shows the files go by.

    Raises:
        CannotWrite: the disk does not take it.
        NotFound: a kept file is gone from the vault.
    """
    needed: dict[str, None] = {}
    counts, sums, history = {}, {}, ""
    with writing_atomically(path) as stream, zipfile.ZipFile(stream, "w") as zipped:
        for table in TABLES:
            digest, counts[table] = hashlib.sha256(), 0
            with zipped.open(_named(f"{table}.jsonl"), "w", force_zip64=True) as lines:
                for row in read(table):
                    line = f"{_CANONICAL(row)}\n".encode()
                    lines.write(line)
                    digest.update(line)
                    counts[table] += 1
                    needed.update(dict.fromkeys(hashes_of(table, row)))
                    history = row["hash"] if table == "events" else history
            sums[table] = digest.hexdigest()
        with progress(len(needed)) as advance:
            for sha256 in sorted(needed):
                zipped.writestr(_named(f"files/{sha256}", packed=False), content(sha256))
                advance()
        contents = Contents(rows=counts, sha256=sums, files=len(needed), history=history)
        zipped.writestr(_named(CONTENTS), contents.model_dump_json(indent=2) + "\n")
    return contents


def _named(name: str, *, packed: bool = True) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
    entry.create_system, entry.external_attr = 3, 0o644 << 16
    # Photos and PDFs are packed already.
    entry.compress_type = zipfile.ZIP_DEFLATED if packed else zipfile.ZIP_STORED
    return entry


class Archive:
    """An archive being read. Open it with `open_archive`."""

    def __init__(self, path: Path, zipped: zipfile.ZipFile) -> None:
        self.path, self._zipped = path, zipped
        try:
            self.contents = Contents.model_validate_json(zipped.read(CONTENTS))
        except (KeyError, ValidationError, RuntimeError):
            raise BadInput(
                f"{path} is no archive of a book: it has no {CONTENTS} that can be read",
                "Only what claimpack export --everything has written is taken over whole.",
                "Claim folders: unpack the file and import the folders.",
            ) from None

    def rows(self, table: str) -> Iterator[dict[str, Any]]:
        """The rows of a table, in order."""
        with self._open(f"{table}.jsonl") as lines:
            while line := lines.readline(_LONGEST):
                yield json.loads(line)

    def prove(self) -> list[str]:
        """Check every table against the contents; returns the hashes of the files that are needed, in order.

        Raises:
            BadInput: something was changed, or is missing.
        """
        needed: set[str] = set()
        for table in TABLES:
            with self._open(f"{table}.jsonl") as lines:
                digest = hashlib.file_digest(lines, "sha256")  # type: ignore[arg-type]
            if digest.hexdigest() != self.contents.sha256.get(table):
                raise self.damaged(f"{table}.jsonl was changed after it was written")
            needed.update(self._needed(table))
        there = {name.removeprefix("files/") for name in self._zipped.namelist() if name.startswith("files/")}
        if needed != there or len(needed) != self.contents.files:
            raise self.damaged(f"it needs {len(needed)} files, and holds {len(needed & there)} of them")
        return sorted(needed)

    def _needed(self, table: str) -> Iterator[str]:
        try:
            for row in self.rows(table):
                yield from hashes_of(table, row)
        except (KeyError, TypeError, ValueError, AttributeError):
            raise self.damaged(f"{table}.jsonl holds a line that is no row of a book") from None

    def content(self, sha256: str) -> bytes:
        """The content of a kept file.

        Raises:
            BadInput: it is not what was kept.
        """
        with self._open(f"files/{sha256}") as stream:
            content = stream.read()
        if hash_of(content) != sha256:
            raise self.damaged(f"files/{sha256} was changed after it was written")
        return content

    def _open(self, name: str) -> IO[bytes]:
        try:
            return self._zipped.open(name)
        except KeyError:
            raise self.damaged(f"{name} is missing") from None
        except RuntimeError:
            raise self.damaged(f"{name} is locked, or packed in a way that is not known here") from None

    def damaged(self, how: str) -> BadInput:
        """The refusal of an archive that is not as it was written."""
        return BadInput(f"{self.path}: {how}", "Nothing was kept.", "Take another copy, or export the book again.")


@contextmanager
def open_archive(path: Path) -> Iterator[Archive]:
    """An archive to read from.

    Raises:
        NotFound: there is no such file.
        BadInput: it is no archive, or is damaged.
    """
    try:
        with zipfile.ZipFile(path) as zipped:
            yield Archive(path, zipped)
    except FileNotFoundError:
        raise NotFound(f"{path}: there is no such file", do="Check the name and the folder.") from None
    except _BROKEN as error:
        raise BadInput(
            f"{path} cannot be read as an archive: {error}",
            "It is no zip file, or was cut off or damaged on its way.",
            "Take another copy, or export the book again.",
        ) from error
    except OSError as error:
        raise BadInput(f"{path} cannot be read", str(error.strerror or error)) from error
